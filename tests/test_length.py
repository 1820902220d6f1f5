"""Written lengths, forces and masses: exact values, and a code and a remedy for each refusal."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.model.length import block_fault_key, parse_force, parse_length, parse_mass
from generator.model.written import LengthFault

# nanometres by hand: 25.4 mm to the inch exactly (NIST SP 811, appendix B.6: inch, exact)
ACCEPTED = [
    ("14.92 mm", "mm", ["14920000"], None),
    ("14.92mm", "mm", ["14920000"], None),
    ("14.92 ± 0.03 mm", "mm", ["14920000"], "30000"),
    ("14.92 +- 0.03 mm", "mm", ["14920000"], "30000"),
    ("14.92+/-0.03 mm", "mm", ["14920000"], "30000"),
    ("0.587 in", "in", ["14909800"], None),
    ("5/8 in", "in", ["15875000"], None),
    ("1 1/4 in", "in", ["31750000"], None),
    ("1/64 in", "in", ["396875"], None),
    ("0.587 ± 0.0005 in", "in", ["14909800"], "12700"),
    ("14.90, 14.92, 14.93 mm", "mm", ["14900000", "14920000", "14930000"], None),
    ("14.90, 14.92 ± 0.02 mm", "mm", ["14900000", "14920000"], "20000"),
    ("5/8, 41/64 in", "in", ["15875000", "16271875"], None),
    ("0.123456789 mm", "mm", ["123456789/1000"], None),
    ("14.92\u00a0mm", "mm", ["14920000"], None),
    ("14.92\u202f±\u202f0.03\u202fmm", "mm", ["14920000"], "30000"),
    ("0 mm", "mm", ["0"], None),
    ("unknown", None, [], None),
]


@pytest.mark.parametrize(("text", "unit", "readings", "half"), ACCEPTED)
def test_lengths_are_exact(text: str, unit: str | None, readings: list[str], half: str | None) -> None:
    written = parse_length(text)
    assert written.text == text
    assert written.unit == unit
    assert written.readings == tuple(Fraction(reading) for reading in readings)
    assert written.plus_minus == (None if half is None else Fraction(half))
    assert written.is_unknown is (text == "unknown")


# code, the remedy in part, and the characters the caret covers (start, width; 0, 0 is the whole value)
REFUSED = [
    ("14,92 mm", "L104", "write a point: 14.92 mm", (0, 5)),
    ("0,587 in", "L104", "write a point: 0.587 in", (0, 5)),
    ("14.90, 14,92 mm", "L104", "write a point: 14.92 mm", (7, 5)),
    ("14.90,14.92 mm", "L104", "14.90, 14.92", (0, 11)),
    ("14,90,15 mm", "L104", "14, 90, 15", (0, 8)),
    ("14.92", "L102", "14.92 mm", (0, 5)),
    ("14.92 ± 0.03", "L102", "14.92 ± 0.03 mm", (0, 5)),
    ("1.492 cm", "L103", "write mm: 14.92 mm", (6, 2)),
    ("900 µm", "L103", "write mm: 0.9 mm", (4, 2)),
    ("900 μm", "L103", "write mm: 0.9 mm", (4, 2)),
    ("35 thou", "L103", "write in: 0.035 in", (3, 4)),
    ('0.587"', "L103", "write in: 0.587 in", (5, 1)),
    ("0.587 inch", "L103", "write in: 0.587 in", (6, 4)),
    ("5/8 inches", "L103", "write in: 5/8 in", (4, 6)),
    ("14.92 MM", "L103", "write mm: 14.92 mm", (6, 2)),
    ("14.92 furlong", "L103", "write mm or in", (6, 7)),
    ("-14.92 mm", "L105", "without the minus", (0, 6)),
    ("−14.92 mm", "L105", "without the minus", (0, 6)),
    ("14.92 ± -0.03 mm", "L105", "without the minus", (7, 6)),
    ("14.9-15.0 mm", "L110", "14.95 ± 0.05", (0, 9)),
    ("14.9 – 15.0 mm", "L110", "14.95 ± 0.05", (0, 11)),
    ("NaN mm", "L107", "write a number", (0, 3)),
    ("inf mm", "L107", "write a number", (0, 3)),
    ("-inf mm", "L107", "write a number", (0, 4)),
    ("1.4e1 mm", "L109", "in full", (0, 5)),
    ("1E-3 mm", "L109", "in full", (0, 4)),
    ("０.92 mm", "L108", "plain digits", (0, 1)),
    ("1٤ mm", "L108", "plain digits", (1, 1)),
    ("½ in", "L108", "1/2", (0, 1)),
    ("0.1234567890 mm", "L111", "9 decimals", (0, 12)),
    (".5 mm", "L112", "write 0.5", (0, 2)),
    ("5. mm", "L112", "write 5.0", (0, 2)),
    ("014.9 mm", "L112", "write 14.9", (0, 5)),
    ("1/3 in", "L113", "5/8 in", (0, 3)),
    ("1 9/8 in", "L113", "5/8 in", (0, 5)),
    ("5/0 in", "L113", "5/8 in", (0, 3)),
    ("1/2 mm", "L113", "inches", (0, 3)),
    ("14920 mm", "L114", "missing point", (0, 5)),
    ("14.92 ± mm", "L115", "with a number", (0, 0)),
    ("14.92 ± 0 mm", "L115", "no reading is exact", (8, 1)),
    ("14.92 ± 0.1 ± 0.2 mm", "L115", "one plus-minus", (0, 0)),
    ("?", "L116", "write unknown", (0, 0)),
    ("Unknown", "L116", "write unknown", (0, 0)),
    ("n/a", "L116", "write unknown", (0, 0)),
    ("14.90 14.92 mm", "L117", "14.90, 14.92", (0, 0)),
    ("14.90; 14.92 mm", "L117", "14.90, 14.92", (0, 0)),
    ("14.90, mm", "L117", "14.90, 14.92", (0, 0)),
    (", ".join(["14.9"] * 51) + " mm", "L117", "50 at most", (0, 0)),
    ("14.92 mm ± 0.03 mm", "L118", "write the unit once, at the end: 14.92 ± 0.03 mm", (0, 0)),
    ("15.20 mm, 15.22 mm", "L118", "write the unit once, at the end: 15.20, 15.22 mm", (0, 0)),
    ("15.20 mm; 15.22", "L118", "write the unit once, at the end: 15.20, 15.22 mm", (0, 0)),
    ("0.587 in ± 0.03 mm", "L118", "write the unit once, at the end: 14.9098 ± 0.03 mm", (0, 0)),
    ("5/8 in, 15.9 mm", "L118", "write all of it in one unit, once, at the end", (0, 0)),
    ("about 14.9 mm", "L101", "write a number", (0, 0)),
    ("mm", "L101", "write a number", (0, 0)),
    ("", "L101", "write a number", (0, 0)),
    ("1" * 2000 + " mm", "L101", "write 14.92 mm", (0, 0)),
]


@pytest.mark.parametrize(("text", "code", "fix", "span"), REFUSED)
def test_each_refusal_has_its_code_and_remedy(text: str, code: str, fix: str, span: tuple[int, int]) -> None:
    with pytest.raises(LengthFault) as caught:
        parse_length(text)
    fault = caught.value
    assert (fault.code, (fault.offset, fault.width)) == (code, span)
    assert fix in fault.fix
    assert fault.message


def test_forces_and_masses_have_their_own_units() -> None:
    # NIST SP 811 appendix B.8: pound-force 4.4482216152605 N, ounce (avoirdupois) 28.349523125 g, both exact
    assert parse_force("1 lbf").readings == (Fraction("4448.2216152605"),)
    assert parse_force("26.4 kN").readings == (Fraction(26_400_000),)
    assert parse_force("500 N").unit == "kN"
    assert parse_mass("1 oz").readings == (Fraction("28349.523125"),)
    assert parse_mass("1.5 kg").readings == (Fraction(1_500_000),)


@pytest.mark.parametrize(
    ("parse", "text", "code", "fix"),
    [
        (parse_force, "26.4 mm", "L103", "kN or N or lbf"),
        (parse_force, "10 kgf", "L103", "98.0665 N"),
        (parse_force, "0 N", "L106", "26.4 kN"),
        (parse_force, "6000 lbs", "L103", "6000 lbf"),
        (parse_mass, "1/2 oz", "L113", "decimal"),
        (parse_mass, "0 g", "L106", "14 g"),
        (parse_mass, "1 lb", "L103", "453.59237 g"),
    ],
)
def test_forces_and_masses_refuse(parse: object, text: str, code: str, fix: str) -> None:
    assert callable(parse)
    with pytest.raises(LengthFault) as caught:
        parse(text)
    assert caught.value.code == code
    assert fix in caught.value.fix


def test_a_block_carries_its_origin() -> None:
    block = {"is": "0.587 in", "from": "published", "plus_minus": "0.05 mm", "source": "handbook[table 1.9]"}
    written = parse_length(block)
    assert written.readings == (Fraction(14_909_800),)
    assert (written.plus_minus, written.evidence) == (Fraction(50_000), "published")
    assert written.source == "handbook[table 1.9]"
    assert parse_length({"is": "unknown"}).is_unknown


@pytest.mark.parametrize(
    ("block", "code", "key"),
    [
        ({"is": "14,9 mm"}, "L104", "is"),
        ({"is": "14.9 mm", "plus_minus": "0,1 mm"}, "L104", "plus_minus"),
        ({"is": "14.9 mm", "plus_minus": "0.1, 0.2 mm"}, "L124", "plus_minus"),
        ({"is": "14.9 ± 0.1 mm", "plus_minus": "0.1 mm"}, "L124", "plus_minus"),
        ({"is": "unknown", "plus_minus": "0.1 mm"}, "L124", "plus_minus"),
        ({"is": ["14.9 mm"]}, "L125", "is"),
        ({"is": "14.9 mm", "form": "stated"}, "L120", "form"),
        ({"from": "stated"}, "L121", None),
        ({"is": "14.9 mm", "from": "publshed"}, "L122", "from"),
        ({"is": "14.9 mm", "source": "somewhere"}, "L123", "source"),
    ],
)
def test_a_block_is_refused_at_its_key(block: dict[str, object], code: str, key: str | None) -> None:
    with pytest.raises(LengthFault) as caught:
        parse_length(block)
    assert caught.value.code == code
    assert block_fault_key(block, code, caught.value.message) == key


def test_a_list_is_not_a_length() -> None:
    with pytest.raises(LengthFault) as caught:
        parse_length(["14.9 mm", "14.8 mm"])
    assert caught.value.code == "L125"


@given(st.integers(0, 9_999_999_999), st.integers(0, 6))
def test_a_decimal_is_read_exactly(digits: int, places: int) -> None:
    value = Fraction(digits, 10**places)
    if value > 10_000:
        return
    whole, rest = divmod(digits, 10**places)
    text = f"{whole}.{rest:0{places}d}" if places else f"{whole}"
    assert parse_length(f"{text} mm").readings == (value * 1_000_000,)


@given(st.text(max_size=60))
def test_any_text_is_read_or_refused_with_a_remedy(text: str) -> None:
    try:
        written = parse_length(text)
    except LengthFault as fault:
        assert fault.message
        assert fault.fix
        assert 0 <= fault.offset <= len(text)
    else:
        assert written.text == text


@given(st.integers(1, 128 * 12))
def test_inches_and_millimetres_agree_both_ways(parts: int) -> None:
    # 1/128 in = 0.1984375 mm exactly, so each rule mark has a finite decimal in mm
    in_mm = Fraction(parts, 128) * Fraction("25.4")
    decimal = f"{in_mm.numerator * 10**8 // in_mm.denominator:09d}"
    text = f"{decimal[:-8]}.{decimal[-8:]}"
    whole, rest = divmod(parts, 128)
    fraction = " ".join(word for word in (str(whole) if whole else "", f"{rest}/128" if rest else "") if word)
    assert parse_length(f"{fraction} in").readings == parse_length(f"{text} mm").readings
