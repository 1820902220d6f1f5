"""A plan as tables of whole numbers: all rows and all measured checks of a few options in a handful of products.

Row by row takes less where the options are many, as most rows speak of few dimensions; with few it is the
calls that take the time.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from generator.compute.fit.columns import HIGH, LOW, NOMINAL, Columns, Ints, Mask
from generator.rules.plan import CheckPlan, Clauses, Plan
from generator.rules.rows import Row

# from so many options on, row by row takes less
MANY = 192


@dataclass(frozen=True, slots=True)
class DenseRows:
    """`plus` and `minus` [row][dimension] are the coefficients by sign, `used` where there is one."""

    names: tuple[str, ...]
    numbers: tuple[int, ...]
    plus: Ints
    minus: Ints
    used: Mask
    constant: Ints


@dataclass(frozen=True, slots=True)
class Dense:
    """`measured` are the checks that are about numbers, `asked` [check][rung][clause][row] and `deciding` [check][row]
    the places of their rows, the last of each repeated as far as the longest goes."""

    rows: DenseRows
    measured: Ints
    asked: Ints
    deciding: Ints


@dataclass(frozen=True, slots=True)
class Table:
    """`ends` [row][LOW, NOMINAL, HIGH][option] in scaled nm, `missing` [row][option]."""

    ends: Ints
    missing: Mask


def dense_rows(rows: Mapping[int, Row]) -> DenseRows:
    names = tuple(dict.fromkeys(name for row in rows.values() for name, _ in row.terms))
    of_name = {name: at for at, name in enumerate(names)}
    signed = np.zeros((len(rows), len(names)), dtype=np.int64)
    for at, row in enumerate(rows.values()):
        for name, times in row.terms:
            signed[at, of_name[name]] = times
    constant = np.array([row.constant for row in rows.values()], dtype=np.int64)
    return DenseRows(names, tuple(rows), np.maximum(signed, 0), np.minimum(signed, 0), signed != 0, constant)


def dense_of(plan: Plan) -> Dense:
    of_row = {number: at for at, number in enumerate(plan.rows)}
    measured = [i for i, check in enumerate(plan.checks) if check.category is None]
    checks = [plan.checks[i] for i in measured]
    return Dense(
        dense_rows(plan.rows),
        np.array(measured, dtype=np.int64),
        _asked(checks, of_row),
        _even([[of_row[row] for row in check.deciding_rows] for check in checks]),
    )


def _asked(checks: Sequence[CheckPlan], of_row: dict[int, int]) -> Ints:
    every = [clauses for check in checks for clauses in check.asked]
    clauses = max(map(len, every), default=1)
    rows = _even([[of_row[row] for row in clause] for each in every for clause in _filled(each, clauses)])
    return rows.reshape(len(checks), 3, clauses, rows.shape[1])


def _filled(clauses: Clauses, count: int) -> Clauses:
    return clauses + clauses[-1:] * (count - len(clauses))


def _even(rows: Sequence[Sequence[int]]) -> Ints:
    longest = max(map(len, rows), default=1)
    even = [[*row, *[row[-1]] * (longest - len(row))] for row in rows]
    return np.array(even, dtype=np.int64).reshape(len(rows), longest)


def table_of(rows: DenseRows, columns: Columns, size: int) -> Table:
    """Low, nominal and high of every row; a row that uses a missing dimension is missing."""
    shape = (len(rows.names), 3, size)
    ends = np.array([columns[name].ends for name in rows.names], dtype=np.int64).reshape(shape)
    gone = np.array([columns[name].missing for name in rows.names], dtype=bool).reshape(shape[0], size)
    low, nominal, high = ends[:, LOW], ends[:, NOMINAL], ends[:, HIGH]
    found = np.empty((len(rows.numbers), 3, size), dtype=np.int64)
    found[:, LOW] = rows.plus @ low + rows.minus @ high
    found[:, NOMINAL] = (rows.plus + rows.minus) @ nominal
    found[:, HIGH] = rows.plus @ high + rows.minus @ low
    found += rows.constant[:, None, None]
    return Table(found, rows.used @ gone)


def measured_rungs(
    dense: Dense, table: Table, no_slack: np.int64
) -> tuple[NDArray[np.int8], NDArray[np.int8], Ints]:
    """Best and worst rung and nominal slack of the measured checks, arrays [check][option]."""
    # min over clauses of max over their rows, by check, rung and end
    asked = table.ends[dense.asked].max(axis=3).min(axis=2)
    # rungs nest, so the count of those that fail is the rung
    rungs = (asked < 0).sum(axis=1, dtype=np.int8)
    best, worst = rungs[:, HIGH], rungs[:, LOW]
    # the limit that counts is that of the next better rung
    slack = asked[:, 0, NOMINAL].copy()
    for rung in (1, 2):
        np.copyto(slack, asked[:, rung, NOMINAL], where=worst > rung)
    np.copyto(slack, no_slack, where=table.missing[dense.deciding].any(axis=1))
    return best, worst, slack
