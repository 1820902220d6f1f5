"""Readings and a dry fit together: row intervals narrowed by what the trial proved.

Goes in: row values, columns and bounds.  Comes out: narrower row values, and the options whose
readings and trial contradict each other.
"""

from collections.abc import Iterable, Sequence
from fractions import Fraction
from math import ceil, floor

from generator.compute.fit.columns import Columns
from generator.compute.fit.evaluate import RowValues
from generator.compute.fit.forms import Form
from generator.compute.fit.limit_rows import Row
from generator.compute.fit.rules import Plan
from generator.compute.fit.trials import Bound


def tighten(values: RowValues, plan: Plan, columns: Columns, at: int, proven: Sequence[Bound]) -> bool:
    """Narrow every row of option `at` in place; False where readings and trial contradict."""
    for row_number, row in enumerate(plan.rows):
        for low, high in _proven_ends(row, plan.scale, columns, at, proven):
            _raise_low(values, row_number, at, low)
            _lower_high(values, row_number, at, high)
        if values.low[row_number][at] > values.high[row_number][at]:
            return False
        _settle_nominal(values, row_number, at)
    return not any(contradicted(bound, columns, at) for bound in proven)


def contradicted(bound: Bound, columns: Columns, at: int) -> bool:
    """Do the readings alone exclude what the trial showed?"""
    low, high = _ends(bound.form, columns, at)
    return (bound.low is not None and high < bound.low) or (bound.high is not None and low > bound.high)


def _proven_ends(
    row: Row, scale: int, columns: Columns, at: int, proven: Sequence[Bound]
) -> Iterable[tuple[int | None, int | None]]:
    """row = sign x bound.form + rest, so the bound and the interval of the rest bound the row."""
    form = Form.of({name: Fraction(c) for name, c in row.terms}, Fraction(row.constant))
    names = {name for name, _ in row.terms}
    for bound in proven:
        if names.isdisjoint(name for name, _ in bound.form.terms):
            continue
        for sign in (scale, -scale):
            rest = form.plus(bound.form, Fraction(-sign))
            if len(rest.terms) >= len(form.terms) + len(bound.form.terms):
                continue  # nothing cancels: the bound says nothing about this row
            rest_low, rest_high = _ends(rest, columns, at)
            ends = (bound.low, bound.high) if sign > 0 else (bound.high, bound.low)
            low = None if ends[0] is None else floor(sign * ends[0] + rest_low)
            high = None if ends[1] is None else ceil(sign * ends[1] + rest_high)
            yield low, high


def _ends(form: Form, columns: Columns, at: int) -> tuple[Fraction, Fraction]:
    low = high = form.constant
    for name, coefficient in form.terms:
        col = columns[name]
        ends = (coefficient * int(col.low[at]), coefficient * int(col.high[at]))
        low, high = low + min(ends), high + max(ends)
    return low, high


def _raise_low(values: RowValues, row: int, at: int, low: int | None) -> None:
    if low is not None and low > values.low[row][at]:
        values.low[row][at] = low


def _lower_high(values: RowValues, row: int, at: int, high: int | None) -> None:
    if high is not None and high < values.high[row][at]:
        values.high[row][at] = high


def _settle_nominal(values: RowValues, row: int, at: int) -> None:
    """The nominal stays what was read, moved only as far as the narrowed interval asks."""
    low, high = values.low[row][at], values.high[row][at]
    values.nominal[row][at] = min(max(values.nominal[row][at], low), high)
