"""The industrial neighbours that ship, against ASME B29.1M, JIS by an engineer's note and a textbook table.

Outside sources are named in published.yaml.  ASME's own proportions also check the columns of
ISO 606 that ship from memory.
"""

from fractions import Fraction

import pytest

from tests.outside.figures import exact, in_mm, mm, others_mm, published, sizes

INDUSTRY = published()["industrial"]
ASME = INDUSTRY["asme"]["rows"]
NOTES = INDUSTRY["asme_proportions"]
INCH = Fraction("25.4")


def used_or_kept(code: str, symbol: str) -> set[Fraction]:
    return others_mm(code, symbol) | {mm(code, symbol)}


@pytest.mark.parametrize("chain", sorted(ASME))
@pytest.mark.parametrize("symbol", ["p", "d1", "b1", "d2", "plate"])
def test_asme_inches_are_exact_millimetres(chain: str, symbol: str) -> None:
    row = ASME[chain]
    ours = Fraction(row[f"{symbol}_in"]) * INCH
    assert ours in used_or_kept(row["iso"], symbol)
    if symbol in row:  # the table's own conversion, to a hundredth
        assert abs(ours - exact(row[symbol])) <= exact(0.005)


@pytest.mark.parametrize("chain", sorted(ASME))
def test_asme_strengths_in_pounds_and_in_kilonewtons(chain: str) -> None:
    tensile = sizes()[ASME[chain]["iso"]].tensile
    assert tensile is not None
    newtons = tensile.readings[0] / 1000
    # one pound of force is 4.4482216152605 N (NIST SP 811)
    assert newtons == ASME[chain]["lbf"] * Fraction("4.4482216152605")
    assert abs(newtons - 1000 * exact(ASME[chain]["kN"])) <= 5


@pytest.mark.parametrize("chain", sorted(ASME))
def test_the_strength_rule_holds_for_all_but_chain_41(chain: str) -> None:
    rule = INDUSTRY["asme_strength_rule"]
    tensile = sizes()[ASME[chain]["iso"]].tensile
    assert tensile is not None
    pitch = mm(ASME[chain]["iso"], "p") / INCH
    by_rule = rule["lbf_per_square_inch_of_pitch"] * pitch**2 * Fraction("4448.2216152605")
    # the table rounds the rule to three figures
    assert (abs(tensile.readings[0] - by_rule) <= by_rule / 1000) == (chain != rule["exception"])


@pytest.mark.parametrize("chain", ["40", "50", "60"])
def test_roller_pin_and_width_follow_the_approximate_proportions(chain: str) -> None:
    code, pitch = ASME[chain]["iso"], mm(ASME[chain]["iso"], "p")
    assert abs(mm(code, "d1") - Fraction(NOTES["roller_per_pitch"]) * pitch) <= INCH / 64
    assert abs(mm(code, "d2") - Fraction(NOTES["pin_per_pitch"]) * pitch) <= INCH / 64
    nominal = Fraction(ASME[chain]["b1_in"]) * INCH
    assert abs(nominal - Fraction(NOTES["width_per_pitch"]) * pitch) <= INCH / 32


@pytest.mark.parametrize("chain", sorted(set(ASME) - {"41"}))
def test_plates_are_an_eighth_of_the_pitch_thick(chain: str) -> None:
    code = ASME[chain]["iso"]
    assert abs(mm(code, "plate") - Fraction(NOTES["plate_per_pitch"]) * mm(code, "p")) <= exact(0.1)


@pytest.mark.parametrize("chain", sorted(ASME))
def test_remembered_columns_follow_from_the_asme_notes(chain: str) -> None:
    """Bore, widths and plate height ship from memory; the notes give each from inches that were read."""
    row, code = ASME[chain], ASME[chain]["iso"]
    pin, plate, width = (Fraction(row[key]) for key in ("d2_in", "plate_in", "b1_in"))
    bore = pin + Fraction(NOTES["least_bore_over_nominal_pin_in"])
    greatest_pin = pin + Fraction(NOTES["greatest_pin_over_nominal_in"])
    over_inner = width + Fraction(NOTES["roller_link_width_plates"]) * plate
    between_outer = over_inner + Fraction(NOTES["between_outer_plates_over_roller_link_in"])
    assert abs(mm(code, "d3") - bore * INCH) <= exact(0.005)
    assert min(abs(other - greatest_pin * INCH) for other in others_mm(code, "d2")) <= exact(0.01)
    assert abs(mm(code, "b2") - over_inner * INCH) <= exact(0.02)
    assert abs(mm(code, "b3") - between_outer * INCH) <= exact(0.03)
    tallest = Fraction(NOTES["greatest_plate_height_per_pitch"]) * mm(code, "p")
    assert mm(code, "h2") <= tallest + exact(0.01)
    assert chain == "41" or mm(code, "h2") >= tallest - exact(0.02)


@pytest.mark.parametrize("chain", sorted(INDUSTRY["jis"]["rows"]))
@pytest.mark.parametrize("symbol", ["p", "d1", "b1"])
def test_the_engineers_note_agrees_or_is_kept(chain: str, symbol: str) -> None:
    figure = exact(INDUSTRY["jis"]["rows"][chain][symbol])
    # ASME rounds to thousandths of an inch, JIS to hundredths of a millimetre
    assert min(abs(ours - figure) for ours in used_or_kept(ASME[chain]["iso"], symbol)) <= exact(0.005)


@pytest.mark.parametrize("code", sorted(INDUSTRY["textbook"]["rows"]))
def test_the_textbook_table_agrees_or_is_kept(code: str) -> None:
    row = INDUSTRY["textbook"]["rows"][code]
    for symbol in ("p", "d1", "b1"):
        assert min(abs(ours - exact(row[symbol])) for ours in used_or_kept(code, symbol)) <= exact(0.003)
    forces = {o.value.readings[0] for o in sizes()[code].other_readings if o.field == "tensile"}
    tensile = sizes()[code].tensile
    assert tensile is not None
    assert exact(row["kN"]) * 1_000_000 in forces | {tensile.readings[0]}


@pytest.mark.parametrize("code", [*sorted(INDUSTRY["textbook"]["rows"]), "04C", "06C", "085"])
@pytest.mark.parametrize("symbol", ["p", "d1", "b1"])
def test_the_value_used_is_a_figure_that_was_read_to_the_last_digit(code: str, symbol: str) -> None:
    chain = next((number for number, row in ASME.items() if row["iso"] == code), None)
    figures = (
        {exact(INDUSTRY["textbook"]["rows"][code][symbol])} if code in INDUSTRY["textbook"]["rows"] else set()
    )
    if chain is not None:
        figures |= {exact(INDUSTRY["jis"]["rows"][chain][symbol]), exact(ASME[chain][f"{symbol}_in"]) * INCH}
    assert mm(code, symbol) in figures


def test_the_older_roller_of_08a_is_not_the_one_used() -> None:
    # ISO 606 from 1994 on and ASME have 7.92; the textbook and the note have 7.95
    old = exact(INDUSTRY["textbook"]["rows"]["08A"]["d1"])
    assert abs(mm("08A", "d1") - exact(7.92)) <= exact(0.005)
    assert old in others_mm("08A", "d1")


@pytest.mark.parametrize(
    ("code", "chain"),
    sorted((INDUSTRY["equivalents"]["rows"] | INDUSTRY["equivalents_remembered"]["rows"]).items()),
)
def test_iso_and_asme_numbers_of_one_chain(code: str, chain: str) -> None:
    assert chain in sizes()[code].also_written
    assert sum(chain in size.also_written for size in sizes().values()) == 1


def test_every_contradicting_value_says_why_and_is_not_the_one_used() -> None:
    for code, size in sizes().items():
        for other in size.other_readings:
            used = getattr(size, other.field)
            assert used is not None, code
            assert used.readings != other.value.readings, (code, other.field)
            assert len(other.because) > 15, code


def test_lengths_of_the_neighbours_are_one_reading_each() -> None:
    for code, size in sizes().items():
        if size.family == "industrial":
            assert 6 < in_mm(size.pitch) < 20, code
