"""Dimensions as columns of whole numbers, one entry a part or an option.

Goes in: parts with quantities.  Comes out: Columns of int64 (low, nominal, high) and a mask of
what is missing; a missing entry spans +-UNBOUNDED_NM so that every row stays a plain sum.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from generator.compute.fit.rules import UNBOUNDED_NM
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
        return Column(self.low[index], self.nominal[index], self.high[index], self.missing[index])


Columns = Mapping[str, Column]


def column(quantities: Iterable[Quantity | None]) -> Column:
    """A column of quantities; None is missing."""
    ends = [
        (-UNBOUNDED_NM, 0, UNBOUNDED_NM, True) if q is None else (q.low, q.nominal, q.high, False)
        for q in quantities
    ]
    table = np.array(ends, dtype=np.int64).reshape(len(ends), 4)
    return Column(table[:, 0].copy(), table[:, 1].copy(), table[:, 2].copy(), table[:, 3].astype(bool))


def dims_columns(dims: Sequence[Mapping[str, Quantity]], fields: Mapping[str, str]) -> dict[str, Column]:
    """Symbol -> column over the parts, for each symbol's field."""
    return {symbol: column(d.get(field) for d in dims) for symbol, field in fields.items()}


def grid(rows: int, columns: int, cell: Callable[[int, int], Quantity | None]) -> Column:
    """A flat column of rows x columns cells, row by row."""
    return column(cell(r, c) for r in range(rows) for c in range(columns))
