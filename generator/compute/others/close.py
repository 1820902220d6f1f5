"""One meeting looked at closely: its checks, what decides, what to find out next.

Goes in: a Look.  Comes out: a PartFit.
"""

from collections.abc import Mapping

from generator.compute.fit.detail import Look, checks_of
from generator.compute.fit.next_reading import closest_possible, measure_next, open_check
from generator.compute.fit.result import CheckFit, MeasureNext, Reading
from generator.compute.others.result import Met, PartFit, Relation
from generator.model.dataset import Shelf
from generator.model.quantity import Evidence, weakest
from generator.model.shipped import Rule


def fit_of(
    look: Look,
    relation: Relation,
    parts: tuple[Met, ...],
    rules: Mapping[str, Rule],
    shelf: Shelf,
    asks: Mapping[str, Reading],
) -> PartFit:
    judged, at = look.closely.judged, look.at
    checks = checks_of(look)
    best, worst = int(judged.best[at]), int(judged.worst[at])
    return PartFit(
        relation,
        parts,
        best=best,
        worst=worst,
        deciding=checks[int(judged.deciding[at])].id,
        slack=look.slack,
        adds_up=max(check.worst for check in checks) < worst,
        checks=checks,
        measure_next=_next(look, shelf, asks) if best < worst else None,
        evidence=_evidence(checks, rules),
    )


def refused_fit(relation: Relation, parts: tuple[Met, ...], reason: str | None) -> PartFit:
    return PartFit(relation, parts, None, None, reason)


def _next(look: Look, shelf: Shelf, asks: Mapping[str, Reading]) -> MeasureNext | None:
    """The reading that would settle most; where a closed word is open, the field that says it."""
    check = open_check(look.closely, look.at)
    if check is None or check.category is None:
        return measure_next(look, shelf)
    asked = asks.get(check.category)
    return None if asked is None else MeasureNext(asked, closest_possible(asked, shelf))


def _evidence(checks: tuple[CheckFit, ...], rules: Mapping[str, Rule]) -> Evidence:
    """The weakest of the readings and of the rules that judged them."""
    return weakest(
        [*(check.evidence for check in checks), *(rules[check.rule_id].evidence for check in checks)]
    )
