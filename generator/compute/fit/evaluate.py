"""The one evaluator: plans over columns -> rungs of every check, of every option at once."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from math import gcd

import numpy as np
from numpy.typing import NDArray

from generator.compute.fit.columns import HIGH, LOW, NOMINAL, Column, Columns, Ints, Mask
from generator.compute.fit.dense import Dense, Table, measured_rungs, table_of
from generator.model.shipped import RUNGS
from generator.rules.plan import CheckPlan, Clauses, Plan
from generator.rules.rows import Row, RuleFault, Terms

Rungs = NDArray[np.int8]

# a nominal slack that is not known, or of a check that has no number, comes last
NO_SLACK = np.int64(2**62)
# in a table of rungs: a word the rule does not list
ABSENT = -1
# so many groups at get-home add up to last-resort
GROUPS_THAT_ADD_UP = 4


@dataclass(frozen=True, slots=True)
class Category:
    """A closed value per option: codes into `words`."""

    codes: NDArray[np.int8]
    words: tuple[str, ...]

    def take(self, index: Ints) -> "Category":
        return Category(self.codes[index], self.words)


Categories = Mapping[str, Category]
# of which options some evidence speaks, by the word that rules name it with
GroundsOf = Mapping[str, Mask]
NO_GROUNDS: GroundsOf = {}


@dataclass(frozen=True, slots=True)
class RowValues:
    """Every row of a plan over n options, in scaled nm: by row an array [LOW, NOMINAL, HIGH][n], and a mask [n]."""

    ends: dict[int, Ints]
    missing: dict[int, Mask]
    # the same values as one table and how the checks read it, where the options are few
    few: tuple[Dense, Table] | None = None


@dataclass(frozen=True, slots=True)
class Judged:
    """Verdicts of n options: rungs 0..3, the deciding check (index into plan.checks), its slack."""

    best: Rungs
    worst: Rungs
    deciding: NDArray[np.int16]
    slack: Ints
    check_best: NDArray[np.int8]
    check_worst: NDArray[np.int8]


def row_values(rows: Mapping[int, Row], columns: Columns, size: int) -> RowValues:
    """Low, nominal and high of every row; a row that uses a missing dimension is missing."""
    values = RowValues({}, {})
    sums: dict[Terms, Column] = {}
    for number, row in rows.items():
        # limits of one check differ by a constant or a sign, so that their sum is made once
        mirrored = bool(row.terms) and row.terms[0][1] < 0
        terms = tuple((name, -times) for name, times in row.terms) if mirrored else row.terms
        if terms not in sums:
            sums[terms] = _sum(terms, columns, size)
        found = sums[terms]
        values.ends[number] = row.constant - found.ends[::-1] if mirrored else row.constant + found.ends
        values.missing[number] = found.missing
    return values


def few_values(dense: Dense, columns: Columns, size: int) -> RowValues:
    """The same of a few options, all rows at once."""
    table = table_of(dense.rows, columns, size)
    ends, missing = (dict(zip(dense.rows.numbers, p, strict=True)) for p in (table.ends, table.missing))
    return RowValues(ends, missing, (dense, table))


def _sum(terms: Terms, columns: Columns, size: int) -> Column:
    # a common factor comes last, so that most dimensions are only added or taken away
    factor = gcd(*(coefficient for _, coefficient in terms)) or 1
    ends = np.zeros((3, size), dtype=np.int64)
    missing = np.zeros(size, dtype=bool)
    for name, coefficient in terms:
        col, times = columns[name], coefficient // factor
        # taken away, the high end makes the low one
        _add(ends, col.ends if times > 0 else col.ends[::-1], times)
        missing |= col.missing
    if factor != 1:
        ends *= factor
    return Column(ends, missing)


def _add(total: Ints, part: Ints, times: int) -> None:
    if times == 1:
        total += part
    elif times == -1:
        total -= part
    else:
        total += part * times


def clause_value(clauses: Clauses, rows: Mapping[int, Ints]) -> Ints:
    """min over clauses of max over their rows; exact for points, sound for interval ends."""
    result: Ints | None = None
    for clause in clauses:
        value = rows[clause[0]]
        for row in clause[1:]:
            value = np.maximum(value, rows[row])
        result = value if result is None else np.minimum(result, value)
    assert result is not None
    return result


def judge_checks(
    plan: Plan, values: RowValues, categories: Categories, size: int, grounds: GroundsOf = NO_GROUNDS
) -> Judged:
    """Verdict of each option from its rows and categories."""
    best, worst, slack = check_rungs(plan, values, categories, size, grounds)
    deciding = decide(best, worst, slack)
    at = np.arange(size)
    return Judged(
        _accumulate(plan, best), _accumulate(plan, worst), deciding, slack[deciding, at], best, worst
    )


def check_rungs(
    plan: Plan, values: RowValues, categories: Categories, size: int, grounds: GroundsOf = NO_GROUNDS
) -> tuple[NDArray[np.int8], NDArray[np.int8], NDArray[np.int64]]:
    """Best and worst rung and nominal slack of every check, arrays [check][option]."""
    best = np.zeros((len(plan.checks), size), dtype=np.int8)
    worst = np.zeros_like(best)
    slack = np.full((len(plan.checks), size), NO_SLACK, dtype=np.int64)
    if values.few is not None:
        measured = values.few[0].measured
        best[measured], worst[measured], slack[measured] = measured_rungs(*values.few, NO_SLACK)
    for i, check in enumerate(plan.checks):
        if check.category is not None:
            best[i], worst[i] = _category_check(check, categories[check.category])
        elif values.few is None:
            best[i], worst[i], slack[i] = _measured_check(check, values)
        for ground in check.rule.by:
            # evidence that narrows what readings leave open; it never speaks against a reading
            if ground in grounds:
                worst[i][grounds[ground] & (best[i] == 0)] = 0
    return best, worst, slack


def _measured_check(check: CheckPlan, values: RowValues) -> tuple[Rungs, Rungs, Ints]:
    asked = [clause_value(clauses, values.ends) for clauses in check.asked]
    # rungs nest, so the count of those that fail is the rung
    rungs: Rungs = np.zeros(asked[0].shape, dtype=np.int8)
    for slacks in asked:
        rungs += (slacks < 0).view(np.int8)
    best, worst = rungs[HIGH], rungs[LOW]
    # the limit that counts is that of the next better rung
    slack = asked[0][NOMINAL].copy()
    for rung in (1, 2):
        np.copyto(slack, asked[rung][NOMINAL], where=worst > rung)
    for row in check.deciding_rows:
        np.copyto(slack, NO_SLACK, where=values.missing[row])
    return best, worst, slack


def _category_check(check: CheckPlan, category: Category) -> tuple[Rungs, Rungs]:
    table = _rungs_by_word(check.rungs, category.words)
    best, worst = table[:, 0][category.codes], table[:, 1][category.codes]
    if best.min(initial=0) == ABSENT:
        absent = sorted({category.words[code] for code in category.codes[best == ABSENT].tolist()})
        raise RuleFault(f"rule '{check.rule_id}' has no rung for: {', '.join(absent)}")
    return best, worst


@lru_cache(maxsize=4096)
def _rungs_by_word(
    rungs: tuple[tuple[str, tuple[int, int]], ...], words: tuple[str, ...]
) -> NDArray[np.int8]:
    known = dict(rungs)
    return np.array([known.get(word, (ABSENT, ABSENT)) for word in words], dtype=np.int8)


def _accumulate(plan: Plan, rungs: NDArray[np.int8]) -> Rungs:
    """The worst check, and small faults added up: four groups at get-home make last-resort."""
    overall: Rungs = rungs.max(axis=0)
    strained = np.zeros(rungs.shape[1], dtype=np.int8)
    if (overall == 1).any():
        for of_group in _members(tuple(check.group for check in plan.checks)):
            strained += rungs[of_group].max(axis=0) >= 1
    adds_up = (overall == 1) & (strained >= GROUPS_THAT_ADD_UP)
    return np.where(adds_up, np.int8(2), overall)


@lru_cache(maxsize=1024)
def _members(groups: tuple[str, ...]) -> tuple[list[int], ...]:
    """The checks of each group that counts."""
    return tuple(
        [i for i, group in enumerate(groups) if group == each] for each in sorted({*groups} - {"evidence"})
    )


def ranks_of(best: Rungs, worst: Rungs) -> Rungs:
    """Worst rung first, then best rung, as one number."""
    return worst * np.int8(len(RUNGS)) + best


def decide(best: NDArray[np.int8], worst: NDArray[np.int8], slack: NDArray[np.int64]) -> NDArray[np.int16]:
    """The check with the worst rung, then best rung, then least nominal slack, then rule order."""
    rank = ranks_of(best, worst)
    key = np.where(rank == rank.max(axis=0, initial=0), slack, np.iinfo(np.int64).max)
    # argmin takes the first of equals, which is rule order
    first: NDArray[np.int16] = key.argmin(axis=0).astype(np.int16)
    return first
