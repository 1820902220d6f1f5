"""Verdicts of many options packed into two whole numbers each, so that shares of checks are combined by 'or' and 'max'.

Goes in: rungs and slacks of some checks, share after share.  Comes out: rungs and preference of each option.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import product
from typing import Any, get_args

import numpy as np
from numpy.typing import NDArray

from generator.compute.fit.columns import Ints
from generator.compute.fit.evaluate import GROUPS_THAT_ADD_UP, NO_SLACK, Rungs, ranks_of
from generator.compute.fit.limit_rows import EXACT_BELOW, RuleFault
from generator.compute.fit.rules import CheckPlan
from generator.model.shipped import Group

CheckRungs = tuple[NDArray[np.int8], NDArray[np.int8], NDArray[np.int64]]

GROUPS: tuple[Group, ...] = get_args(Group)
# a rung as bits, one more for each rung that fails, so that the worse of two is their 'or'
UNARY = (0b000, 0b001, 0b011, 0b111)
RUNGS = len(UNARY)
RUNG_BITS = 3
BITS_OF_AN_END = RUNG_BITS * len(GROUPS)
# group -> marks by worst x 4 + best
MARKS_OF_RANK = {
    group: np.array(
        [(best | worst << BITS_OF_AN_END) << (RUNG_BITS * at) for worst, best in product(UNARY, UNARY)],
        dtype=np.int32,
    )
    for at, group in enumerate(GROUPS)
}
EVERY_GROUP = sum(1 << (RUNG_BITS * at) for at in range(len(GROUPS)))

# What a check can claim of an option, the greatest of which decides: 4 bits of rungs (less 8, so that they fill the
# sign), 54 of how little is to spare (as every slack lies within +-2^53), 6 of rule order; 64 in all.
ORDER_BITS = 6
MOST_RULES = 1 << ORDER_BITS
SPARE_BITS = 54


@dataclass(frozen=True, slots=True)
class Quick:
    """One entry an option, as in Verdicts."""

    best: Rungs
    worst: Rungs
    claims: Ints


class Packed:
    """The verdicts of `size` options so far; a share whose checks depend on less comes with `inverse`, where every
    option finds its own entry."""

    def __init__(self, size: int) -> None:
        self.marks = np.zeros(size, dtype=np.int32)
        self.claims = np.full(size, np.iinfo(np.int64).min)

    def add(self, checks: Sequence[CheckPlan], rungs: CheckRungs, inverse: Ints | None) -> None:
        best, worst, slack = rungs
        ranks = ranks_of(best, worst)
        orders = np.array([check.order for check in checks])[:, None]
        claims: Ints = claims_of(ranks, slack, orders).max(axis=0)
        self.marks |= _spread(_marks(checks, ranks), inverse)
        np.maximum(self.claims, _spread(claims, inverse), out=self.claims)

    def quick(self) -> Quick:
        best, worst = self.marks & ((1 << BITS_OF_AN_END) - 1), self.marks >> BITS_OF_AN_END
        return Quick(RUNG_OF_MARKS.take(best), RUNG_OF_MARKS.take(worst), self.claims)


def claims_of(ranks: Rungs, slack: Ints, orders: Ints) -> Ints:
    """Worst rung, then best rung, then least slack, then rule order; what has no slack comes last.
    Raises RuleFault where there are more rules than can be told apart."""
    if orders.max(initial=0) >= MOST_RULES:
        raise RuleFault(f"at most {MOST_RULES} rules can be told apart")
    claims: Ints = np.maximum(
        EXACT_BELOW - slack, 0
    )  # 0 where there is no slack, as that stands for more than any
    claims |= (ranks - np.int64(RUNGS * RUNGS // 2)) << SPARE_BITS
    claims <<= ORDER_BITS
    claims |= MOST_RULES - 1 - orders
    return claims


def orders_of(claims: Ints) -> Ints:
    """The place in the rule table of what decides."""
    return MOST_RULES - 1 - (claims & (MOST_RULES - 1))


def worst_of(claims: Ints) -> Ints:
    """The worst rung of what decides; of the option it is another where small faults add up."""
    return ((claims >> (ORDER_BITS + SPARE_BITS)) + RUNGS * RUNGS // 2) // RUNGS


def preference_of(claims: Ints, by_word: NDArray[np.bool_]) -> Ints:
    """The slack of what decides.  A word (by rule order) has none to spare and none lacking; a check that cannot be
    judged comes last."""
    spare = (claims >> ORDER_BITS) & ((1 << SPARE_BITS) - 1)
    return np.where(spare > 0, EXACT_BELOW - spare, np.where(by_word[orders_of(claims)], 0, -NO_SLACK))


def _marks(checks: Sequence[CheckPlan], ranks: NDArray[np.int8]) -> NDArray[np.int32]:
    """The rungs of all groups at their best, and above them at their worst."""
    marks = np.zeros(ranks.shape[1], dtype=np.int32)
    for check, rank in zip(checks, ranks, strict=True):
        marks |= MARKS_OF_RANK[check.group].take(rank)
    return marks


def _spread(small: NDArray[Any], inverse: Ints | None) -> NDArray[Any]:
    return small if inverse is None else small.take(inverse)


def _rung_of_marks() -> Rungs:
    """The worst group, and small faults added up, for every way the marks of one end can be."""
    marks = np.arange(1 << BITS_OF_AN_END, dtype=np.int32)
    rungs: Rungs = np.zeros(len(marks), dtype=np.int8)
    for rung in range(RUNG_BITS):
        rungs += (marks & (EVERY_GROUP << rung)) != 0
    strained = np.zeros(len(marks), dtype=np.int8)
    for at in range(len(GROUPS)):
        strained += (marks & (1 << (RUNG_BITS * at))) != 0
    rungs[(rungs == 1) & (strained >= GROUPS_THAT_ADD_UP)] = 2
    return rungs


RUNG_OF_MARKS = _rung_of_marks()
