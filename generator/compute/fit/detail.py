"""One option looked at closely: every check with its clearance, edges, evidence and gaps.

Goes in: a case judged closely and a position in it.  Comes out: an OptionFit.
"""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from functools import partial
from typing import Literal

from generator.compute.fit.columns import Ints
from generator.compute.fit.evaluate import NO_SLACK, Categories, clause_value
from generator.compute.fit.judge import Closely, Judge
from generator.compute.fit.options import NOTHING, SEALS
from generator.compute.fit.readings import Behind, Joined, behind
from generator.compute.fit.result import CheckFit, EdgeFit, OptionFit, Span
from generator.compute.fit.rules import CheckPlan, Clauses, Edge
from generator.compute.fit.trials import tried_word
from generator.model.quantity import Evidence, weakest

FORCES = frozenset(("Fl", "Fc"))
PERCENTS = frozenset(("es", "ec"))


@dataclass(frozen=True, slots=True)
class Look:
    """Position `at` of a case judged closely, and what stands behind each of its symbols."""

    closely: Closely
    at: int
    scale: int
    # over all options; closely.index says which entry is the one at `at`
    categories: Categories
    readings: Callable[[str], Sequence[Behind]]
    tried: bool

    @property
    def slack(self) -> float | None:
        """Of the deciding check, in nm."""
        slack = int(self.closely.judged.slack[self.at])
        return None if slack == NO_SLACK else slack / self.scale


def look_at(judge: Judge, closely: Closely, at: int) -> Look:
    number = int(closely.index[at])
    readings = partial(behind, joined=joined(judge, number))
    return Look(closely, at, judge.scale, judge.categories, readings, number in judge.trials)


def option_fit(judge: Judge, closely: Closely, at: int) -> OptionFit:
    """Everything known about the option at position `at` of a closely judged case."""
    number = int(closely.index[at])
    parts = joined(judge, number)
    judged = closely.judged
    look = look_at(judge, closely, at)
    checks = checks_of(look)
    trials = judge.trials.get(number, [])
    return OptionFit(
        closure=parts.link.record.closure,
        clip=parts.clip.id if parts.clip else None,
        seals=SEALS[int(judge.options.seals[number])],
        seal_set=parts.seal_set.id if parts.seal_set else None,
        best=int(judged.best[at]),
        worst=int(judged.worst[at]),
        deciding=checks[int(judged.deciding[at])].id,
        slack=look.slack,
        adds_up=max(check.worst for check in checks) < int(judged.worst[at]),
        trials=tuple(trial.id for trial in trials),
        went_together=any(tried_word(trial, judge.dataset) == "went-together" for trial in trials),
        checks=checks,
    )


def joined(judge: Judge, number: int) -> Joined:
    """The parts of option `number`."""
    options, on = judge.options, judge.on
    clip, seal_set = int(options.clip[number]), int(options.seal_set[number])
    return Joined(
        judge.dataset,
        on,
        on.chains[int(options.chain[number])],
        on.links[int(options.link[number])],
        None if clip == NOTHING else on.clips[clip],
        None if seal_set == NOTHING else on.seals[seal_set],
    )


def checks_of(look: Look) -> tuple[CheckFit, ...]:
    """Every check, in rule order."""
    return tuple(check_fit(look, i) for i in range(len(look.closely.plan.checks)))


def check_fit(look: Look, i: int) -> CheckFit:
    closely, at = look.closely, look.at
    check = closely.plan.checks[i]
    best, worst = int(closely.judged.check_best[i][at]), int(closely.judged.check_worst[i][at])
    if check.category is not None:
        category = look.categories[check.category]
        word = category.words[category.codes[closely.index[at]]]
        return CheckFit(
            check.id, check.rule_id, check.group, best, worst, "mm", None, (), "stated", (), (), category=word
        )
    symbols = _symbols(closely, check)
    rests = [b for symbol in symbols for b in look.readings(symbol)]
    missing = any(closely.columns[symbol].missing[at] for symbol in symbols)
    gone = tuple(dict.fromkeys(b.reading for b in rests if b.quantity is None)) if missing else ()
    return CheckFit(
        id=check.id,
        rule_id=check.rule_id,
        group=check.group,
        best=best,
        worst=worst,
        unit=_unit(frozenset(symbols)),
        clearance=_span(closely, check.clearance, at, look.scale),
        missing=gone,
        evidence=evidence_of(rests, missing),
        edges=tuple(_edge_fit(closely, check, edge, at, look.scale) for edge in check.edges),
        rests_on=tuple(dict.fromkeys(b.reading for b in rests)),
        settled_by_trial=missing and best == worst and look.tried,
    )


def _unit(symbols: frozenset[str]) -> Literal["mm", "kN", "%"]:
    if FORCES & symbols:
        return "kN"
    return "%" if PERCENTS & symbols else "mm"


def evidence_of(rests: Iterable[Behind], missing: bool) -> Evidence:
    known = weakest(b.quantity.evidence for b in rests if b.quantity is not None)
    return "unknown" if missing else known


def _symbols(closely: Closely, check: CheckPlan) -> list[str]:
    clauses = [check.clearance, *(edge.clauses for edge in check.edges)]
    rows = dict.fromkeys(row for each in clauses for clause in each for row in clause)
    return list(dict.fromkeys(name for row in rows for name, _ in closely.plan.rows[row].terms))


def _span(closely: Closely, clauses: Clauses, at: int, scale: int) -> Span | None:
    """A computed length in nm; None where a dimension is missing and no trial stands in for it."""
    rows = [row for clause in clauses for row in clause]
    if any(closely.values.missing[row][at] for row in rows):
        return None
    low, nominal, high = (
        _at(clauses, ends, at) / scale
        for ends in (closely.values.low, closely.values.nominal, closely.values.high)
    )
    return Span(low, nominal, high)


def _at(clauses: Clauses, ends: Sequence[Ints], at: int) -> int:
    one = {row: ends[row][at : at + 1] for clause in clauses for row in clause}
    return int(clause_value(clauses, one)[0])


def _edge_fit(closely: Closely, check: CheckPlan, edge: Edge, at: int, scale: int) -> EdgeFit:
    slack = _span(closely, edge.clauses, at, scale)
    clearance = _span(closely, check.clearance, at, scale)
    limit = None
    if slack is not None and clearance is not None:
        limit = clearance.nominal - slack.nominal if edge.side == "low" else clearance.nominal + slack.nominal
    return EdgeFit(edge.rung, edge.side, limit, slack)
