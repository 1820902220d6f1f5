"""Is a chain within its wear limit?  One word from its elongation and the club's chosen rule.

Goes in: a dataset and a chain.  Comes out: within, beyond or unknown.
"""

from decimal import Decimal

from generator.compute.wear.limits import club_rule
from generator.model.chain_parts import Chain
from generator.model.dataset import Dataset, Part
from generator.model.shipped import WearLimit


def wear_state(dataset: Dataset, chain: Part[Chain]) -> str:
    """A chain without any word on its wear is taken as within; `unknown` stays unknown."""
    elongation = chain.record.elongation
    if elongation is None or chain.record.kind == "unknown":
        return "within"
    if elongation == "unknown":
        return "unknown"
    return "beyond" if Decimal(elongation) > wear_limit_percent(dataset, chain) else "within"


def wear_limit_percent(dataset: Dataset, chain: Part[Chain]) -> Decimal:
    rule = wear_rule(dataset)
    return Decimal(rule.sealed if chain.record.kind == "sealed" else rule.plain)


def wear_rule(dataset: Dataset) -> WearLimit:
    return club_rule(dataset)[1]
