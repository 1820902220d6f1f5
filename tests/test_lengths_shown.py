"""Lengths as they are shown: an interval shown covers the one that was computed, and no clash reads as nothing."""

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from generator.compute.fit.result import CheckFit, Span
from generator.model.quantity import NM_PER_INCH, NM_PER_MM, Quantity
from generator.render.base.lengths import (
    MINUS,
    ShownLength,
    fixed,
    shown_high,
    shown_length,
    shown_low,
    shown_span,
)
from generator.render.explain_long import _ends, _signed
from generator.render.pages.fit_cells import clearance_cells
from generator.render.pages.readings_table import _lengths
from generator.render.say.next_step import plus_minus
from generator.render.say.said import Figures

LENGTHS = st.integers(-30 * NM_PER_MM, 30 * NM_PER_MM) | st.integers(-20_000, 20_000)
INTERVALS = st.tuples(LENGTHS, st.integers(0, 300_000), st.integers(0, 300_000))


def number(text: str) -> Fraction:
    return Fraction(text.split()[0].replace(MINUS, "-"))


def covers(low: ShownLength | None, high: ShownLength | None, ends: tuple[int, int]) -> bool:
    assert low is not None and high is not None
    in_mm = number(low.mm) * NM_PER_MM <= ends[0] and number(high.mm) * NM_PER_MM >= ends[1]
    return in_mm and number(low.inch) * NM_PER_INCH <= ends[0] and number(high.inch) * NM_PER_INCH >= ends[1]


@given(INTERVALS)
def test_what_is_shown_covers_what_was_computed(interval: tuple[int, int, int]) -> None:
    nominal, down, up = interval
    low, high = nominal - down, nominal + up
    assert covers(shown_low(low), shown_high(high), (low, high))
    _, at_least, at_most = clearance_cells(check_of(low, nominal, high))
    assert covers(at_least.length, at_most.length, (low, high))
    ends = _ends(Span(low, nominal, high)).split(" to ")
    assert number(ends[0]) * NM_PER_MM <= low and number(ends[1]) * NM_PER_MM >= high


@given(INTERVALS)
def test_a_reading_covers_too(interval: tuple[int, int, int]) -> None:
    nominal, down, up = interval
    nominal = abs(nominal) + 300_000
    low, high = nominal - down, nominal + up
    _, at_least, at_most = _lengths(Quantity(low, nominal, high))
    assert covers(at_least.length, at_most.length, (low, high))


@given(LENGTHS, st.integers(0, 300_000))
def test_amounts_in_sentences_cover_though_words_carry_the_sign(low: int, width: int) -> None:
    high = low + width
    figures = Figures()
    shown_from, shown_to = figures.amount(low, "low"), figures.amount(high, "high")
    sign = [-1 if end < 0 else 1 for end in (low, high)]
    assert sign[0] * number(shown_from.mm) * NM_PER_MM <= low
    assert sign[1] * number(shown_to.mm) * NM_PER_MM >= high


@given(st.integers(-100_000, 100_000))
def test_what_is_not_nothing_never_reads_as_nothing(nm: int) -> None:
    for shown in (shown_length(nm), shown_low(nm), shown_high(nm)):
        for text in (shown.mm, shown.inch):
            assert (number(text) == 0) == (nm == 0), text
            assert (number(text) < 0) == (nm < 0), text
            assert not (nm == 0 and MINUS in text)
    assert (number(_signed(nm)) < 0) == (nm < 0)
    assert not _signed(nm).startswith("-0.000 ") and _signed(0) == "+0.000"


@given(st.integers(1, 400_000))
def test_a_plus_minus_is_shown_as_it_is(nm: int) -> None:
    assert number(plus_minus(nm).mm) * NM_PER_MM == nm


def test_worked_by_hand() -> None:
    """Below nothing the lower end is the greater amount."""
    assert fixed(Fraction("-0.0151"), 2, "down") == f"{MINUS}0.02"
    assert fixed(Fraction("-0.0151"), 2, "up") == f"{MINUS}0.01"
    assert fixed(Fraction("0.0151"), 2, "down") == "0.01"
    assert fixed(Fraction("0.004"), 2, "down") == "0.004"
    assert fixed(Fraction("-0.004"), 2, "up") == f"{MINUS}0.004"
    assert shown_low(1_234_500.4).mm == "1.23 mm" and shown_high(1_234_500.4).mm == "1.24 mm"


def check_of(low: int, nominal: int, high: int) -> CheckFit:
    clearance = Span(low, nominal, high)
    return CheckFit("pin-entry", "pin-entry", "pin", 0, 1, "measured", clearance=clearance)


def test_a_span_says_both_ends_outward_and_its_unit_once() -> None:
    shown = shown_span(11_204_000, 11_296_000)
    assert (shown.mm, shown.inch) == ("11.20 to 11.30 mm", "0.4411 to 0.4448 in")
    assert shown_span(11_200_000, 11_200_000) == shown_length(11_200_000)
