"""Dimensions as columns of whole numbers, one entry a part or an option.

Goes in: parts with quantities.  Comes out: Columns of int64 (low, nominal, high) and a mask of
what is missing; a missing entry spans +-UNBOUNDED_NM so that every row stays a plain sum.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from generator.compute.fit.limit_rows import UNBOUNDED_NM
from generator.model.quantity import Quantity

Ints = NDArray[np.int64]
Mask = NDArray[np.bool_]


@dataclass(frozen=True, slots=True)
class Column:
    """One dimension over many options: int64 arrays of one shape, nm (mN for forces)."""

    low: Ints
    nominal: Ints
    high: Ints
    missing: Mask

    def take(self, index: Ints) -> "Column":
        return Column(
            self.low.take(index), self.nominal.take(index), self.high.take(index), self.missing.take(index)
        )


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
    """A column of quantities; None is missing."""
    ends = [
        (-UNBOUNDED_NM, 0, UNBOUNDED_NM, True) if q is None else (q.low, q.nominal, q.high, False)
        for q in quantities
    ]
    table = np.array(ends, dtype=np.int64).reshape(len(ends), 4)
    return Column(table[:, 0].copy(), table[:, 1].copy(), table[:, 2].copy(), table[:, 3].astype(bool))


# code per entry, words by code
Coded = tuple[NDArray[np.int8], Sequence[str]]


def coded(values: Sequence[str], index: Ints) -> Coded:
    """One word a part, seen through an index."""
    words = tuple(sorted(set(values)))
    codes = np.array([words.index(value) for value in values], dtype=np.int8)
    return codes[index], words


def dims_columns(dims: Sequence[Mapping[str, Quantity]], fields: Mapping[str, str]) -> dict[str, Column]:
    """Symbol -> column over the parts, for each symbol's field."""
    return {symbol: column(d.get(field) for d in dims) for symbol, field in fields.items()}
