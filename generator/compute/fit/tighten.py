"""Readings and a dry fit together: row intervals narrowed by what the trial proved.

Goes in: row values, columns and bounds.  Comes out: narrower row values, and the options whose
readings and trial contradict each other.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import groupby
from math import ceil, floor

from generator.compute.fit.columns import Columns
from generator.compute.fit.evaluate import RowValues
from generator.compute.fit.forms import Form
from generator.compute.fit.limit_rows import Row
from generator.compute.fit.rules import Plan
from generator.compute.fit.trials import Bound


@dataclass(frozen=True, slots=True)
class Proof:
    """row = factor x (what the bound speaks of) + rest, so the bound and the interval of the rest bound the row."""

    row: int
    factor: int
    bound: Bound
    rest: Form


@dataclass(frozen=True, slots=True)
class Proofs:
    """Everything some trials prove about the rows of one plan."""

    bounds: tuple[Bound, ...]
    of_rows: tuple[Proof, ...]


def proofs(plan: Plan, proven: Sequence[Bound]) -> Proofs:
    """The same for every option that the trials speak of, so worked out once."""
    return Proofs(
        tuple(proven), tuple(p for n, row in enumerate(plan.rows) for p in _of_row(n, row, plan, proven))
    )


def _of_row(number: int, row: Row, plan: Plan, proven: Sequence[Bound]) -> Iterator[Proof]:
    names = {name for name, _ in row.terms}
    form = Form.of({name: Fraction(c) for name, c in row.terms}, Fraction(row.constant))
    for bound in proven:
        if names.isdisjoint(name for name, _ in bound.form.terms):
            continue
        for factor in (plan.scale, -plan.scale):
            rest = form.plus(bound.form, Fraction(-factor))
            # where nothing cancels the bound says nothing about this row
            if len(rest.terms) < len(form.terms) + len(bound.form.terms):
                yield Proof(number, factor, bound, rest)


def tighten(values: RowValues, proven: Proofs, columns: Columns, at: int) -> bool:
    """Narrow the rows of option `at` in place; False where readings and trial contradict."""
    for row, of_row in groupby(proven.of_rows, key=lambda proof: proof.row):
        for proof in of_row:
            low, high = _proven_ends(proof, columns, at)
            _raise_low(values, row, at, low)
            _lower_high(values, row, at, high)
        if values.low[row][at] > values.high[row][at]:
            return False
        _settle_nominal(values, row, at)
    return not any(contradicted(bound, columns, at) for bound in proven.bounds)


def contradicted(bound: Bound, columns: Columns, at: int) -> bool:
    """Do the readings alone exclude what the trial showed?"""
    low, high = _ends(bound.form, columns, at)
    return (bound.low is not None and high < bound.low) or (bound.high is not None and low > bound.high)


def _proven_ends(proof: Proof, columns: Columns, at: int) -> tuple[int | None, int | None]:
    rest_low, rest_high = _ends(proof.rest, columns, at)
    ends = (proof.bound.low, proof.bound.high)
    below, above = ends if proof.factor > 0 else ends[::-1]
    low = None if below is None else floor(proof.factor * below + rest_low)
    high = None if above is None else ceil(proof.factor * above + rest_high)
    return low, high


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
