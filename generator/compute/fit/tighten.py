"""Readings and a dry fit together: row intervals narrowed by what the trial proved."""

from collections.abc import Iterator, Sequence, Set
from dataclasses import dataclass
from functools import cached_property
from itertools import groupby

import numpy as np

from generator.compute.fit.columns import HIGH, LOW, NOMINAL, Columns, Ints, Mask
from generator.compute.fit.dense import DenseRows, dense_rows, table_of
from generator.compute.fit.evaluate import RowValues
from generator.compute.fit.trials import Bound
from generator.rules.forms import Form
from generator.rules.plan import Plan
from generator.rules.rows import Row


@dataclass(frozen=True, slots=True)
class Range:
    """Lies between these ends, in nm or in scaled nm; None is open."""

    low: int | None
    high: int | None

    def times(self, factor: int) -> "Range":
        low, high = (None if end is None else factor * end for end in (self.low, self.high))
        return Range(low, high) if factor > 0 else Range(high, low)


@dataclass(frozen=True, slots=True)
class Proof:
    """row = factor x (what a bound speaks of) + rest, so the bound, `proven` times the factor, and the interval of
    the rest bound the row."""

    row: int
    proven: Range
    rest: Row
    bound: Bound


@dataclass(frozen=True)
class Proofs:
    """Everything some trials prove about the rows of one plan; `seen` are the bounds of readings by themselves."""

    seen: tuple[tuple[Row, Range, Bound], ...]
    of_rows: tuple[Proof, ...]

    @cached_property
    def rows(self) -> DenseRows:
        """The rests of the proofs, then what the bounds speak of, numbered."""
        return dense_rows(
            dict(enumerate((*(proof.rest for proof in self.of_rows), *(row for row, _, _ in self.seen))))
        )


def proofs(plan: Plan, proven: Sequence[Bound]) -> Proofs:
    """The same for every option that the trials speak of, so worked out once."""
    told = [(_whole(bound.form), Range(bound.low, bound.high), bound) for bound in proven]
    named = [(dict(form.terms).keys(), form, ends, bound) for form, ends, bound in told]
    return Proofs(
        tuple(told), tuple(p for n, row in plan.rows.items() for p in _of_row(n, row, plan.scale, named))
    )


def _of_row(
    number: int, row: Row, scale: int, told: Sequence[tuple[Set[str], Row, Range, Bound]]
) -> Iterator[Proof]:
    names = dict(row.terms).keys()
    for of_form, form, ends, bound in told:
        if names.isdisjoint(of_form) or scale % bound.times:
            continue
        for factor in (scale // bound.times, -scale // bound.times):
            rest = _less(row, form, factor)
            # where nothing cancels the bound says nothing about this row
            if len(rest.terms) < len(row.terms) + len(form.terms):
                yield Proof(number, ends.times(factor), rest, bound)


def _less(row: Row, bound: Row, factor: int) -> Row:
    """row - factor x bound"""
    terms = dict(row.terms)
    for name, times in bound.terms:
        terms[name] = terms.get(name, 0) - factor * times
    kept = tuple(sorted((name, times) for name, times in terms.items() if times))
    return Row(kept, row.constant - factor * bound.constant)


def _whole(form: Form) -> Row:
    """What is multiplied with the scale of a table, and what a trial speaks of, has whole coefficients only."""
    assert all(number.denominator == 1 for number in (form.constant, *(c for _, c in form.terms)))
    return Row(tuple((name, int(c)) for name, c in form.terms), int(form.constant))


def tighten(values: RowValues, proven: Proofs, columns: Columns, at: Ints) -> Ints:
    """Narrow the rows of the options at these positions in place, as the same trials speak of all of them.  Comes
    out: the positions where readings and trials contradict; the first row that shows it is the last narrowed."""
    known = table_of(proven.rows, {name: columns[name].take(at) for name in proven.rows.names}, len(at)).ends
    sound = np.arange(len(at))
    for row, of_row in groupby(zip(proven.of_rows, known, strict=False), key=lambda each: each[0].row):
        now = values.ends[row][:, at[sound]]
        for proof, rest in of_row:
            if proof.proven.low is not None:
                np.maximum(now[LOW], rest[LOW, sound] + proof.proven.low, out=now[LOW])
            if proof.proven.high is not None:
                np.minimum(now[HIGH], rest[HIGH, sound] + proof.proven.high, out=now[HIGH])
        kept = now[LOW] <= now[HIGH]
        # the nominal stays what was read, moved only as far as the narrowed interval asks
        now[NOMINAL, kept] = np.clip(now[NOMINAL, kept], now[LOW, kept], now[HIGH, kept])
        values.ends[row][:, at[sound]] = now
        sound = sound[kept]
    is_sound = np.zeros(len(at), dtype=bool)
    is_sound[sound] = True
    return at[~is_sound | _contradicted(proven, known, len(at))]


def _contradicted(proven: Proofs, known: Ints, size: int) -> Mask:
    """Do the readings alone exclude what a trial showed?"""
    found = np.zeros(size, dtype=bool)
    for at, (_, told, _) in enumerate(proven.seen, len(proven.of_rows)):
        ends = known[at]
        if told.low is not None:
            found |= ends[HIGH] < told.low
        if told.high is not None:
            found |= ends[LOW] > told.high
    return found
