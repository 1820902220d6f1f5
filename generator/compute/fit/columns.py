"""Dimensions as columns of whole numbers, one entry a part or an option."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from generator.model.quantity import Quantity
from generator.rules.rows import UNBOUNDED_NM

Ints = NDArray[np.int64]
Mask = NDArray[np.bool_]


# places of the ends of an interval and of what was read
LOW, NOMINAL, HIGH = range(3)


@dataclass(frozen=True, slots=True)
class Column:
    """One dimension over n options: `ends` is int64 [LOW, NOMINAL, HIGH][n], nm (mN for forces)."""

    ends: Ints
    missing: Mask

    @property
    def low(self) -> Ints:
        low: Ints = self.ends[LOW]
        return low

    @property
    def high(self) -> Ints:
        high: Ints = self.ends[HIGH]
        return high

    def take(self, index: Ints) -> "Column":
        return Column(self.ends.take(index, axis=1), self.missing.take(index))


Columns = Mapping[str, Column]


@dataclass(frozen=True, slots=True)
class Spread:
    """A column of parts seen through an index: entry i is that of part index[i]; copied only when taken."""

    parts: Column
    index: Ints

    @property
    def missing(self) -> Mask:
        return self.parts.missing[self.index]


def taken(
    columns: Mapping[str, Spread], names: Iterable[str], at: Ints, known: Mapping[int, Ints] | None = None
) -> dict[str, Column]:
    """The entries at some positions of the named columns; `known` has, by the identity of an index, what it is
    at these positions."""
    places = dict(known or {})
    found = {}
    for name in names:
        spread = columns[name]
        if id(spread.index) not in places:
            places[id(spread.index)] = spread.index.take(at)
        found[name] = spread.parts.take(places[id(spread.index)])
    return found


def column(quantities: Iterable[Quantity | None]) -> Column:
    """A column of quantities; None is missing, and what is only bounded is missing within its bounds."""
    ends = [
        (-UNBOUNDED_NM, 0, UNBOUNDED_NM, True)
        if q is None
        else (q.low, q.nominal, q.high, q.evidence == "unknown")
        for q in quantities
    ]
    table = np.array(ends, dtype=np.int64).reshape(len(ends), 4)
    return Column(table[:, :3].T.copy(), table[:, 3].astype(bool))


# code per entry, words by code
Coded = tuple[NDArray[np.int8], tuple[str, ...]]


def coded(values: Sequence[str], index: Ints) -> Coded:
    """One word a part, seen through an index."""
    words = tuple(sorted(set(values)))
    codes = np.array([words.index(value) for value in values], dtype=np.int8)
    return codes[index], words
