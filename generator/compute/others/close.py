"""One meeting looked at closely: its checks, what decides, what to find out next."""

from collections.abc import Mapping
from dataclasses import replace

from generator.compute.fit.detail import Look, check_fit, checks_of
from generator.compute.fit.next_reading import measure_next
from generator.compute.fit.result import CheckFit, MeasureNext, Met
from generator.compute.others.result import PartFit, Relation
from generator.model.quantity import Evidence, weakest
from generator.model.shipped import NO_GO, Rule


def fit_of(
    look: Look,
    relation: Relation,
    parts: tuple[Met, ...],
    rules: Mapping[str, Rule],
    brief: bool = False,
) -> PartFit:
    """Where it must be brief, with the check that decides and no other; of what is no-go it is the only one looked at."""
    judged, at = look.closely.judged, look.at
    best, worst, deciding = int(judged.best[at]), int(judged.worst[at]), int(judged.deciding[at])
    alone = brief and best == NO_GO
    checks = (check_fit(look, deciding),) if alone else checks_of(look)
    return PartFit(
        relation,
        parts,
        best=best,
        worst=worst,
        deciding=look.closely.plan.checks[deciding].id,
        slack=look.slack,
        faults_add_up=max(check.worst for check in checks) < worst,
        checks=(checks[deciding],) if brief and not alone else checks,
        measure_next=_next(look) if best < worst else None,
        evidence=_evidence(checks, rules),
    )


def refused_fit(relation: Relation, parts: tuple[Met, ...], reason: str | None) -> PartFit:
    return PartFit(relation, parts, refused=reason)


def _next(look: Look) -> MeasureNext | None:
    """The reading that would settle most; there is no other way to join these parts."""
    found = measure_next(look)
    if found is not None and found.how == "dry-fit" and found.reading.field == "elongation":
        return None  # no hand feels how far a chain is worn
    return found and replace(found, settles_pair=found.decides is not None)


def _evidence(checks: tuple[CheckFit, ...], rules: Mapping[str, Rule]) -> Evidence:
    """The weakest of the readings and of the rules that judged them."""
    return weakest(
        [*(check.evidence for check in checks), *(rules[check.rule_id].evidence for check in checks)]
    )
