"""Checks of one option as they would be with other readings, many guesses at once.

Goes in: an option looked at closely, and guesses: symbols that would be something else.  Comes out: best and worst rung
of every check for each guess, and of the option as a whole.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from generator.compute.fit.columns import Column, column
from generator.compute.fit.detail import Look
from generator.compute.fit.evaluate import Category, Judged, judge_checks, row_values
from generator.compute.fit.tighten import tighten
from generator.model.quantity import Quantity

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


def foresee(look: Look, guesses: Sequence[Guess]) -> Foreseen:
    size = len(guesses)
    columns = {name: _column(look, name, guesses) for name in look.closely.columns}
    values = row_values(look.closely.plan.rows, columns, size)
    proven = look.proven
    doubtful = [n for n in range(size) if proven and not tighten(values, proven, columns, n)]
    number = np.repeat(look.closely.index[look.at], size)
    categories: dict[str, Category] = {name: each.take(number) for name, each in look.categories.items()}
    return Foreseen(judge_checks(look.closely.plan, values, categories, size), frozenset(doubtful))


def _column(look: Look, name: str, guesses: Sequence[Guess]) -> Column:
    """As it is, but for the guesses that say otherwise."""
    at = np.repeat(look.at, len(guesses))
    now = look.closely.columns[name].take(at)
    told = [i for i, guess in enumerate(guesses) if name in guess]
    if not told:
        return now
    then = column(guesses[i][name] for i in told)
    place: NDArray[np.int64] = np.array(told, dtype=np.int64)
    for old, new in ((now.low, then.low), (now.nominal, then.nominal), (now.high, then.high)):
        old[place] = new
    now.missing[place] = then.missing
    return now
