"""What the digits of a size code say, against the sizes that ship.

Outside source: the naming rule as a gauge maker's reference page and an engineer's note give it
(first digit: eighths of an inch; last two: eightieths of an inch), and the exceptions they name.
"""

import re
from fractions import Fraction

import pytest

from tests.outside.figures import exact, mm, others_mm, published, sizes

NAMING = published()["naming"]
BREAKS_PITCH = set(NAMING["pitch_breaks_the_rule"]["codes"])
BREAKS_WIDTH = NAMING["width_breaks_the_rule"]["rows"]
THREE_DIGITS = sorted(
    code
    for code, size in sizes().items()
    if size.family == "motorcycle" and re.fullmatch(r"[0-9]{3}H?", code)
)


@pytest.mark.parametrize("code", THREE_DIGITS)
def test_the_first_digit_counts_the_pitch_in_eighths_of_an_inch_but_for_219_and_270(code: str) -> None:
    by_name = int(code[0]) * exact(NAMING["eighth_mm"]["value"])
    assert by_name == int(code[0]) * Fraction(254, 10) / 8
    assert (mm(code, "p") == by_name) == (code.rstrip("H") not in BREAKS_PITCH)


@pytest.mark.parametrize(
    ("digits", "code"), [(d, c) for d, row in NAMING["widths"]["rows"].items() for c in row["codes"]]
)
def test_the_last_two_digits_count_the_inner_width_in_eightieths_of_an_inch(digits: str, code: str) -> None:
    row = NAMING["widths"]["rows"][digits]
    by_name = int(digits) * exact(NAMING["eightieth_mm"]["value"])
    assert by_name == exact(row["arithmetic"])
    # tables print the nominal width to a hundredth, and one of them 5/16 in as 7.95
    assert any(abs(width - by_name) <= exact(0.0125) for width in others_mm(code, "b1"))
    assert mm(code, "b1") == exact(row["least"]) < by_name


@pytest.mark.parametrize("code", sorted(BREAKS_WIDTH))
def test_the_codes_named_for_their_larger_roller_break_the_width_rule(code: str) -> None:
    row = BREAKS_WIDTH[code]
    by_name = int(code[1:]) * exact(NAMING["eightieth_mm"]["value"])
    assert by_name == exact(row["arithmetic"])
    widths = others_mm(code, "b1") | {mm(code, "b1")}
    assert min(widths) >= exact(row["actual_low"])
    assert max(widths) <= exact(row["actual_high"]) < by_name - exact(0.3)


def test_only_the_named_codes_break_the_width_rule() -> None:
    odd = {
        code
        for code in THREE_DIGITS
        if not code.endswith("H")
        and code not in BREAKS_PITCH
        # a least width is up to 0.13 mm under the nominal one
        and not 0 <= int(code[1:]) * exact(0.3175) - mm(code, "b1") <= exact(0.13)
    }
    assert odd == set(BREAKS_WIDTH)


def test_a_code_with_a_larger_roller_has_a_larger_roller() -> None:
    # the second digit group of 428, 532, 632 stands for it, by the reference page
    assert mm("428", "d1") > mm("420", "d1")
    assert mm("532", "d1") > mm("530", "d1")
    assert mm("632", "d1") > mm("630", "d1")
