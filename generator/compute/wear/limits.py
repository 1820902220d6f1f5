"""Which elongation ends a chain: the club's chosen rule, the rear sprocket beside it, the adjuster's travel left."""

from dataclasses import dataclass
from fractions import Fraction
from math import asin, cos, pi, sin
from typing import Literal

from generator.model.chain_parts import Chain
from generator.model.dataset import Dataset, Part
from generator.model.elongation import Elongation, pitch_of_size
from generator.model.quantity import NM_PER_MM
from generator.model.shipped import WearLimit
from generator.model.tools_and_bikes import Bike

DEFAULT_WEAR_RULE = "by-kind"
By = Literal["rule", "large-sprocket", "adjuster"]


@dataclass(frozen=True, slots=True)
class Limit:
    """Per cent of elongation; `rule` is an id of wear_limits.yaml, `by` what of it or beside it governs."""

    percent: Fraction
    rule: str
    by: By
    source: str


def club_rule(dataset: Dataset) -> tuple[str, WearLimit]:
    """The rule the club chose, with its id."""
    id_ = dataset.club.wear_rule or DEFAULT_WEAR_RULE
    return id_, dataset.shelf.wear_limits[id_]


def limit_of_chain(dataset: Dataset, chain: Part[Chain]) -> Limit:
    """By the kind of chain; of a kind not known the lower one."""
    id_, rule = club_rule(dataset)
    return Limit(percent_of(rule, chain.record.kind), id_, "rule", rule.source)


def percent_of(rule: WearLimit, kind: str) -> Fraction:
    plain, sealed = Fraction(rule.plain), Fraction(rule.sealed)
    return {"plain": plain, "sealed": sealed}.get(kind, min(plain, sealed))


def limit_on_bike(dataset: Dataset, chain: Part[Chain], bike: Part[Bike], now: Elongation | None) -> Limit:
    """The lowest of what holds for this bike; `now` is the elongation the adjuster's travel was read at."""
    chosen = limit_of_chain(dataset, chain)
    rule = dataset.shelf.wear_limits[chosen.rule]
    found = [chosen]
    if rule.large_sprocket is not None:
        share = Fraction(rule.large_sprocket) / max(bike.record.front_teeth, bike.record.rear_teeth, 1)
        found.append(Limit(share, chosen.rule, "large-sprocket", rule.source))
    left = adjuster_left(dataset, chain, bike)
    if left is not None and now is not None:
        source = "common-practice[adjuster at the end of its range]"
        found.append(Limit(now.nominal + left, chosen.rule, "adjuster", source))
    return min(found, key=lambda limit: limit.percent)


def adjuster_left(dataset: Dataset, chain: Part[Chain], bike: Part[Bike]) -> Fraction | None:
    """Per cent of elongation that the travel backward still takes up; None where it or the pitch is not known.

    The run of an open chain grows by twice the cosine of its slant for each millimetre the axle goes back; without a
    centre distance the slant counts as none, which takes up the most chain, so the travel is then taken at its lower end
    less a fiftieth.
    """
    travel = bike.dims.get("adjuster_back")
    pitch = pitch_of_size(dataset.shelf.sizes, chain.record.size_code)
    if travel is None or pitch is None or not bike.record.pitches:
        return None
    taken_up = 2 * travel.low * Fraction(_cosine_of_slant(bike, pitch)).limit_denominator(10**6)
    return 100 * taken_up / (bike.record.pitches * pitch)


def _cosine_of_slant(bike: Part[Bike], pitch: int) -> float:
    centres = bike.dims.get("centre_distance")
    if centres is None:
        return 0.98
    radii = [
        pitch / (2 * sin(pi / max(teeth, 3))) for teeth in (bike.record.front_teeth, bike.record.rear_teeth)
    ]
    slant = abs(radii[1] - radii[0]) / max(centres.low, NM_PER_MM)
    return cos(asin(min(slant, 0.9)))
