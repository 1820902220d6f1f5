"""Meetings under their rules: grouped by case and evaluated as arrays."""

from collections.abc import Iterator, Mapping, Sequence
from typing import get_args

import numpy as np

from generator.compute.fit.columns import Columns, column
from generator.compute.fit.detail import Look
from generator.compute.fit.evaluate import Categories, Category, GroundsOf, judge_checks, row_values
from generator.compute.fit.fits import DISAGREE
from generator.compute.fit.judge import Closely
from generator.compute.fit.tighten import Proofs, proofs, tighten
from generator.compute.others.close import fit_of, refused_fit
from generator.compute.others.meeting import Meeting
from generator.compute.others.result import PartFit
from generator.compute.reading_cost import ClosestPossible
from generator.model.dataset import Dataset
from generator.model.many import many_pairs
from generator.model.shipped import Grounds, Rule
from generator.rules.others import vocabulary_of
from generator.rules.plan import Plan, PlanMaker
from generator.rules.rows import table_scale

GROUNDS: tuple[Grounds, ...] = get_args(Grounds)


def judge_meetings(
    meetings: Sequence[Meeting], rules: Mapping[str, Rule], table: str, dataset: Dataset
) -> tuple[PartFit, ...]:
    """The verdict on each meeting under the rules of a table; a refused one has none."""
    words = vocabulary_of(table)
    plans = PlanMaker(rules, table_scale(rules, [words]))
    fits = {at: refused_fit(m.relation, m.parts, m.refused) for at, m in enumerate(meetings) if m.refused}
    closest = ClosestPossible(dataset)
    for members in _by_case(meetings):
        of_case = [meetings[at] for at in members]
        plan = plans.plan(of_case[0].case, lambda _: words, of_case[0].stopped_by or None)
        fits |= dict(zip(members, _judged(of_case, plan, rules, closest, many_pairs(dataset)), strict=True))
    return tuple(fits[at] for at in range(len(meetings)))


def _by_case(meetings: Sequence[Meeting]) -> list[list[int]]:
    groups: dict[tuple[object, ...], list[int]] = {}
    for at, meeting in enumerate(meetings):
        if not meeting.refused:
            case = tuple(sorted(meeting.case.items()))
            groups.setdefault((case, meeting.stopped_by), []).append(at)
    return list(groups.values())


def _judged(
    meetings: Sequence[Meeting],
    plan: Plan,
    rules: Mapping[str, Rule],
    closest: ClosestPossible,
    brief: bool,
) -> Iterator[PartFit]:
    size = len(meetings)
    columns = {name: column(m.values[name].quantity for m in meetings) for name in meetings[0].values}
    values = row_values(plan.rows, columns, size)
    proven = {at: proofs for at, m in enumerate(meetings) if (proofs := _proofs(m, plan, columns))}
    # narrowed by what dry fits proved of these parts, unless that contradicts the readings
    doubtful = frozenset(
        int(doubted)
        for at, known in proven.items()
        for doubted in tighten(values, known, columns, np.array([at]))
    )
    categories = _categories(meetings)
    grounds: GroundsOf = {
        name: np.array([name in m.grounds for m in meetings], dtype=bool) for name in GROUNDS
    }
    judged = judge_checks(plan, values, categories, size, grounds)
    closely = Closely(plan, np.arange(size), values, judged, columns, doubtful, proven, grounds)
    for at, meeting in enumerate(meetings):
        if at in doubtful:
            yield refused_fit(meeting.relation, meeting.parts, DISAGREE)
        else:
            look = Look(
                closely,
                at,
                plan.scale,
                categories,
                meeting.behind,
                bool(meeting.proven),
                meeting.read_again,
                closest,
                meeting.questions,
            )
            yield fit_of(look, meeting.relation, meeting.parts, rules, brief)


def _proofs(meeting: Meeting, plan: Plan, columns: Columns) -> Proofs | None:
    proven = [bound for bound in meeting.proven if all(name in columns for name, _ in bound.form.terms)]
    return proofs(plan, proven) if proven else None


def _categories(meetings: Sequence[Meeting]) -> Categories:
    found = {}
    for name in meetings[0].words:
        words = tuple(sorted({meeting.words[name] for meeting in meetings}))
        codes = np.array([words.index(meeting.words[name]) for meeting in meetings], dtype=np.int8)
        found[name] = Category(codes, words)
    return found
