"""Is a chain within its wear limit?  One word from its elongation and the club's chosen rule."""

from decimal import Decimal

from generator.compute.wear.limits import club_rule
from generator.model.chain_parts import Chain
from generator.model.dataset import Dataset, Part
from generator.model.quantity import PPM_OF_PERCENT
from generator.model.shipped import WearLimit
from generator.rules.worn import elongation


def wear_state(dataset: Dataset, chain: Part[Chain]) -> str:
    """By the whole interval of its elongation; one whose kind is not known is refused before anybody asks."""
    if chain.record.kind == "unknown":
        return "unknown"
    found, far = elongation(chain, dataset.shelf), dataset.shelf.allowances["worn-far"].ppm
    limit = min(wear_limit_ppm(dataset, chain), far)
    low, high = (_rung(end, limit, far) for end in (found.low, found.high))
    return WORDS[low, high]


# by the rung at either end
WORDS = {
    (0, 0): "within",
    (0, 1): "perhaps-beyond",
    (1, 1): "beyond",
    (1, 2): "perhaps-far-beyond",
    (2, 2): "far-beyond",
    (0, 2): "unknown",
}


def _rung(ppm: int, limit: int, far: int) -> int:
    return (ppm > limit) + (ppm > far)


def wear_limit_ppm(dataset: Dataset, chain: Part[Chain]) -> int:
    return int(wear_limit_percent(dataset, chain) * PPM_OF_PERCENT)


def wear_limit_percent(dataset: Dataset, chain: Part[Chain]) -> Decimal:
    rule = wear_rule(dataset)
    return Decimal(rule.sealed if chain.record.kind == "sealed" else rule.plain)


def wear_rule(dataset: Dataset) -> WearLimit:
    return club_rule(dataset)[1]
