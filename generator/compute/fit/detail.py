"""One option looked at closely: every check with its clearance, edges, evidence and gaps."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache, partial
from typing import Literal

import numpy as np

from generator.compute.fit.alike import Same
from generator.compute.fit.evaluate import NO_SLACK, Categories, clause_value
from generator.compute.fit.judge import Closely, Judge
from generator.compute.fit.options import SEALS, joined
from generator.compute.fit.questions import questions
from generator.compute.fit.read_again import SymbolsIf
from generator.compute.fit.result import CheckFit, EdgeFit, OptionFit, Span
from generator.compute.fit.tighten import Proofs
from generator.compute.fit.trials import tried_word, word_for_all
from generator.model.quantity import Evidence, Quantity, weakest
from generator.model.reading import Reading
from generator.rules.joined import Behind, Joined
from generator.rules.plan import CheckPlan, Clauses, Edge
from generator.rules.symbols import SYMBOLS

FORCES = frozenset(("Fl", "Fc"))
PERCENTS = frozenset(("es", "ec"))


# hundreds of pairs come to the same few lengths, limits and readings: one of each is kept
_span_of, _edge_of = lru_cache(maxsize=2**16)(Span), lru_cache(maxsize=2**16)(EdgeFit)


@lru_cache(maxsize=2**16)
def _kept(reading: Reading) -> Reading:
    return reading


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
    # what symbols would be if readings were others
    read_again: Callable[[Mapping[Reading, Quantity]], Mapping[str, Quantity | None]]
    # how close a reading can be had, as in ClosestPossible
    closest: Callable[[Reading], int | None]
    # what to find out where a category is open, asked of few
    questions: Callable[[], Mapping[str, Reading]]
    # what tells the joint from others; None of one that a trial speaks of, which stands for itself
    same: Same | None = None

    @property
    def proven(self) -> Proofs | None:
        """What dry fits prove about its rows."""
        return self.closely.proofs.get(self.at)

    @property
    def asks(self) -> Mapping[str, Reading]:
        return self.questions()

    @property
    def slack(self) -> float | None:
        """Of the deciding check, in nm."""
        slack = int(self.closely.judged.slack[self.at])
        return None if slack == NO_SLACK else slack / self.scale


def look_at(judge: Judge, closely: Closely, at: int) -> Look:
    return _look_at(judge, closely, at, _parts(judge, int(closely.index[at])))


def _look_at(judge: Judge, closely: Closely, at: int, parts: Joined) -> Look:
    number = int(closely.index[at])
    told = number in judge.trials or number in judge.pair_trials
    return Look(
        closely,
        at,
        closely.plan.scale,
        judge.categories,
        lambda symbol: SYMBOLS[symbol].behind(parts),
        number in judge.trials,
        partial(SymbolsIf, parts),
        judge.closest,
        partial(questions, parts),
        None if told else judge.alike.same(parts),
    )


def option_fit(judge: Judge, closely: Closely, at: int) -> OptionFit:
    """Everything known about the option at position `at` of a closely judged case."""
    number = int(closely.index[at])
    parts = _parts(judge, number)
    judged = closely.judged
    look = _look_at(judge, closely, at, parts)
    checks = checks_of(look)
    own = [each.trial for each in judge.trials.get(number, [])]
    of_pair = judge.pair_trials.get(number, [])
    trials = [t for t in of_pair if t in own or word_for_all(t, judge.dataset) is not None]
    return OptionFit(
        closure=parts.link.record.closure,
        clip=parts.clip.id if parts.clip else None,
        seals=SEALS[int(judge.options.seals[number])],
        seal_set=parts.seal_set.id if parts.seal_set else None,
        seat=parts.seat,
        spacer=parts.spacer.id if parts.spacer else None,
        best=int(judged.best[at]),
        worst=int(judged.worst[at]),
        deciding=checks[int(judged.deciding[at])].id,
        slack=look.slack,
        adds_up=max(check.worst for check in checks) < int(judged.worst[at]),
        trials=tuple(trial.id for trial in trials),
        went_together=any(tried_word(trial, judge.dataset) == "went-together" for trial in trials),
        checks=checks,
    )


def _parts(judge: Judge, number: int) -> Joined:
    return joined(judge.dataset, judge.on, judge.options, number)


def checks_of(look: Look) -> tuple[CheckFit, ...]:
    """Every check, in rule order."""
    return tuple(check_fit(look, i) for i in range(len(look.closely.plan.checks)))


def check_fit(look: Look, i: int) -> CheckFit:
    check, judged = look.closely.plan.checks[i], look.closely.judged
    best, worst = int(judged.check_best[i, look.at]), int(judged.check_worst[i, look.at])
    word = _word(look, check.category) if check.category is not None else None
    made = worst == 0 and _made_for_it(look, check)
    if look.same is None:
        return _fit(look, check, best, worst, word, made)
    alike = look.same.alike
    key = (alike.number(check), best, worst, word, made, *look.same.of(check.symbols))
    if key not in alike.found:
        alike.found[key] = _fit(look, check, best, worst, word, made)
    return alike.found[key]


def _word(look: Look, category: str) -> str:
    found = look.categories[category]
    return found.words[int(found.codes[look.closely.index[look.at]])]


def _fit(look: Look, check: CheckPlan, best: int, worst: int, word: str | None, made: bool) -> CheckFit:
    """`word` is that of a check that goes by one; `made` says whether its make speaks for it."""
    if word is not None:
        by_make = made and dict(check.rungs)[word][1] > 0
        return CheckFit(
            check.id, check.rule_id, check.group, best, worst, "stated", category=word, by_make=by_make
        )
    closely, at, symbols = look.closely, look.at, check.symbols
    clearance = _span(look, check.clearance)
    rests = [b for symbol in symbols for b in look.readings(symbol)]
    missing = any(closely.columns[symbol].missing[at] for symbol in symbols)
    gone = _gone(look, check, rests) if missing else ()
    return CheckFit(
        id=check.id,
        rule_id=check.rule_id,
        group=check.group,
        best=best,
        worst=worst,
        unit=_unit(frozenset(symbols)),
        clearance=clearance,
        missing=gone,
        evidence=evidence_of(rests, missing),
        edges=tuple(_edge_fit(look, edge, clearance) for edge in check.edges),
        rests_on=tuple(dict.fromkeys(_kept(b.reading) for b in rests)),
        settled_by_trial=missing and best == worst and look.tried,
        by_make=made and _left_open(look, check),
    )


def _made_for_it(look: Look, check: CheckPlan) -> bool:
    """Does the make of both, or of one packet, speak for it?  Play is felt with the hand."""
    grounds = look.closely.grounds
    spoken = [ground for ground in check.rule.by if ground in grounds and grounds[ground][look.at]]
    return bool(spoken) and "play" not in spoken


def _left_open(look: Look, check: CheckPlan) -> bool:
    """Do the readings alone not keep it proper for certain?"""
    ends = look.closely.values.ends
    return any(max(int(ends[row][0, look.at]) for row in clause) < 0 for clause in check.asked[0])


def _gone(look: Look, check: CheckPlan, rests: Sequence[Behind]) -> tuple[Reading, ...]:
    """What is not known, but for that which a dry fit stands in for; all of it where that leaves nothing to read."""
    columns = look.closely.columns
    lacking = frozenset(symbol for symbol in check.symbols if columns[symbol].missing[look.at])
    told = lacking - _still_asked(look, check, lacking) if look.proven is not None else lacking
    if told and told != lacking:
        rests = [b for symbol in check.symbols if symbol not in told for b in look.readings(symbol)]
    return tuple(dict.fromkeys(_kept(b.reading) for b in rests if b.quantity is None))


def _still_asked(look: Look, check: CheckPlan, lacking: frozenset[str]) -> frozenset[str]:
    """Of each limit what it needs, by its readings or by the dry fit that leaves least to read."""
    assert look.proven is not None
    found: frozenset[str] = frozenset()
    for row in check.deciding_rows:
        rests = (p.rest for p in look.proven.of_rows if p.row == row and p.proven.low is not None)
        terms = (look.closely.plan.rows[row], *rests)
        found |= min((lacking & {name for name, _ in each.terms} for each in terms), key=len)
    return found


def _unit(symbols: frozenset[str]) -> Literal["mm", "kN", "%"]:
    if FORCES & symbols:
        return "kN"
    return "%" if PERCENTS & symbols else "mm"


def evidence_of(rests: Iterable[Behind], missing: bool) -> Evidence:
    known = weakest(b.quantity.evidence for b in rests if b.quantity is not None)
    return "unknown" if missing else known


def _span(look: Look, clauses: Clauses) -> Span | None:
    """A computed length in nm; None where a dimension is missing and no trial stands in for it."""
    closely = look.closely
    if clauses not in closely.lengths:
        closely.lengths[clauses] = _lengths(closely, clauses, look.scale)
    missing, *ends = closely.lengths[clauses]
    return None if missing[look.at] else _span_of(*(end[look.at] for end in ends))


def _lengths(closely: Closely, clauses: Clauses, scale: int) -> tuple[Sequence[float], ...]:
    """Is it missing, low, nominal, high: of every option of the case, which takes arrays a hundredth of the time."""
    values = closely.values
    rows = [row for clause in clauses for row in clause]
    missing = np.logical_or.reduce([values.missing[row] for row in rows])
    return missing.tolist(), *(clause_value(clauses, values.ends) / scale).tolist()


def _edge_fit(look: Look, edge: Edge, clearance: Span | None) -> EdgeFit:
    slack = _span(look, edge.clauses)
    limit = None
    if slack is not None and clearance is not None:
        limit = clearance.nominal - slack.nominal if edge.side == "low" else clearance.nominal + slack.nominal
    return _edge_of(edge.rung, edge.side, limit, slack)
