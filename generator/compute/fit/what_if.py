"""Checks of one option as they would be with other readings, many guesses at once."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from generator.compute.fit.columns import Column, column
from generator.compute.fit.detail import Look
from generator.compute.fit.evaluate import (
    Category,
    GroundsOf,
    Judged,
    RowValues,
    check_rungs,
    judge_checks,
    row_values,
)
from generator.compute.fit.tighten import tighten
from generator.model.quantity import Quantity
from generator.rules.plan import CheckPlan, Plan


def part_plan(plan: Plan, checks: Sequence[CheckPlan]) -> Plan:
    """Only these checks, and only the rows that decide them."""
    kept = tuple(replace(check, clearance=(), edges=()) for check in checks)
    return Plan(plan.scale, {row: plan.rows[row] for check in kept for row in check.deciding_rows}, kept)


Guess = Mapping[str, Quantity | None]


@dataclass(frozen=True, slots=True)
class Foreseen:
    """Arrays by guess; `check_best` and `check_worst` by check and guess."""

    judged: Judged
    # guesses that contradict a dry fit: nothing can be said about them
    doubtful: frozenset[int] = frozenset()

    def is_open(self, check: int, guess: int) -> bool:
        return guess in self.doubtful or bool(
            self.judged.check_best[check, guess] < self.judged.check_worst[check, guess]
        )

    def still_open(self, guess: int) -> list[int]:
        """The checks that leave the verdict open, the worst first; one that another check outweighs does not."""
        best, worst = self.judged.check_best[:, guess], self.judged.check_worst[:, guess]
        if self.judged.best[guess] == self.judged.worst[guess]:
            return []
        found = [i for i in np.flatnonzero(best < worst).tolist() if worst[i] > self.judged.best[guess]]
        # small faults that add up: each is too small to be the worst
        found = found or np.flatnonzero(best < worst).tolist()
        return sorted(found, key=lambda i: (-int(worst[i]), i))


def settling(look: Look, check: int, guesses: Sequence[Guess]) -> list[bool]:
    """Does the guess settle this check?  Where no dry fit ties its rows to others it is judged by itself."""
    if look.proven:
        seen = foresee(look, guesses)
        return [not seen.is_open(check, guess) for guess in range(len(guesses))]
    alone = part_plan(look.closely.plan, [look.closely.plan.checks[check]])
    best, worst, _ = check_rungs(
        alone, _values(look, alone, guesses), {}, len(guesses), _grounds(look, len(guesses))
    )
    return [bool(settled) for settled in best[0] == worst[0]]


def foresee(look: Look, guesses: Sequence[Guess]) -> Foreseen:
    size, plan = len(guesses), look.closely.plan
    columns = {name: _column(look, name, guesses) for name in look.closely.columns}
    values = row_values(plan.rows, columns, size)
    doubtful = tighten(values, look.proven, columns, np.arange(size)) if look.proven else ()
    number = np.repeat(look.closely.index[look.at], size)
    categories: dict[str, Category] = {name: each.take(number) for name, each in look.categories.items()}
    judged = judge_checks(plan, values, categories, size, _grounds(look, size))
    return Foreseen(judged, frozenset(doubtful))


def _grounds(look: Look, size: int) -> GroundsOf:
    return {name: np.repeat(mask[look.at], size) for name, mask in look.closely.grounds.items()}


def _values(look: Look, plan: Plan, guesses: Sequence[Guess]) -> RowValues:
    names = {name for row in plan.rows.values() for name, _ in row.terms}
    columns = {name: _column(look, name, guesses) for name in names}
    return row_values(plan.rows, columns, len(guesses))


def _column(look: Look, name: str, guesses: Sequence[Guess]) -> Column:
    """As it is, but for the guesses that say otherwise."""
    at = np.repeat(look.at, len(guesses))
    now = look.closely.columns[name].take(at)
    told = [i for i, guess in enumerate(guesses) if name in guess]
    if not told:
        return now
    then = column(guesses[i][name] for i in told)
    place: NDArray[np.int64] = np.array(told, dtype=np.int64)
    now.ends[:, place] = then.ends
    now.missing[place] = then.missing
    return now
