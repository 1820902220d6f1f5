"""The section drawing against the numbers it is made from.

The joints are the invented base joint and its variants; where each face lies follows from
stop = G + gw - k - t and the three kinds of seat, worked out by hand here.
"""

import re
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from markupsafe import Markup

from generator.model.quantity import Evidence, Quantity
from generator.render.drawings.section import section_drawing
from generator.render.drawings.section_input import Mark, SectionDimensions
from generator.render.drawings.units import hundredths, length, spelled
from tests.drawing_checks import Picture, picture


def q(mm: float, plus_minus: float = 0.05, evidence: Evidence = "measured") -> Quantity:
    middle, half = round(mm * 1e6), round(plus_minus * 1e6)
    return Quantity(middle - half, middle, middle + half, evidence)


def mark(
    check: str, mm: float, label: str = "A check", low: float | None = None, high: float | None = None
) -> Mark:
    def nm(value: float) -> int:
        return round(value * 1e6)

    limits = [None if limit is None else nm(limit) for limit in (low, high)]
    return Mark(check, label, "get-home", nm(mm - 0.05), nm(mm), nm(mm + 0.05), *limits)


BASE = SectionDimensions(
    bush_bore=q(5.30),
    over_inner_plates=q(10.95),
    over_bush_ends=q(11.25),
    between_outer_plates=q(13.05),
    over_riveted_pins=q(19.4),
    plate_thickness=q(2.1),
    pin_diameter=q(5.24),
    pin_reach=q(15.20),
    pin_length=q(17.3),
    groove_width=q(1.10),
    groove_diameter=q(4.0),
    side_plate_thickness=q(2.1),
    clip_thickness=q(1.0),
    seal_thickness=q(1.28),
    bike_clearance=q(4.0),
    plate_fit="press",
    seals="fitted",
)
# a stop of 15.20 + 1.10 - 1.00 - 2.10 = 13.20, a clearance of 13.20 - 13.05 = 0.15
STOP_GAP = 0.15


def drawn(dims: SectionDimensions, *marks: Mark, deciding: str | None = None) -> Picture:
    return picture(section_drawing(dims, marks, deciding))


def x_span(found: Picture, dim: str) -> tuple[float, float]:
    line = next(e for e in found.root.iter() if e.attrib.get("data-dim") == dim)
    return float(line.attrib["x1"]), float(line.attrib["x2"])


def test_every_known_dimension_is_drawn_to_scale() -> None:
    found = drawn(BASE).dims()
    expected = {
        name: value.nominal / 1e6
        for name in SectionDimensions.__dataclass_fields__
        if isinstance(value := getattr(BASE, name), Quantity)
    }
    assert found == pytest.approx(expected, abs=0.01)


@pytest.mark.parametrize(
    ("change", "seat"),
    [
        # pressed: level with the neighbours; slip: stop; shoulder: where the shoulder is
        ({"plate_fit": "press"}, 13.05),
        ({"plate_fit": "slip"}, 13.20),
        ({"plate_fit": "press-to-shoulder", "shoulder_depth": q(13.35)}, 13.35),
        ({"plate_fit": "unknown"}, 13.05),
        ({"plate_fit": "slip", "closure": "rivet"}, 13.05),
    ],
)
def test_side_plate_stands_at_its_seat(change: dict[str, Any], seat: float) -> None:
    found = drawn(replace(BASE, **change))
    scale = float(found.root.attrib["data-scale"])
    zero, _ = x_span(found, "pin_length")
    plate, _ = x_span(found, "side_plate_thickness")
    assert (plate - zero) / scale == pytest.approx(seat, abs=0.01)


def test_clip_bears_on_the_far_edge_of_its_groove() -> None:
    found = drawn(BASE)
    assert x_span(found, "clip_thickness")[1] == pytest.approx(x_span(found, "groove_width")[1], abs=0.02)


@pytest.mark.parametrize(
    ("seals", "left"), [("fitted", (13.05 - 11.25) / 2), ("none", 0.0), ("left-out", 0.0)]
)
def test_inner_link_is_centred_by_seals_and_else_against_the_fixed_plate(seals: Any, left: float) -> None:
    found = drawn(replace(BASE, seals=seals))
    zero, _ = x_span(found, "pin_length")
    bush, _ = x_span(found, "over_bush_ends")
    assert (bush - zero) / float(found.root.attrib["data-scale"]) == pytest.approx(left, abs=0.01)


def test_clip_stop_places_the_clip_where_the_reach_was_not_read() -> None:
    by_stop = drawn(replace(BASE, pin_reach=None, clip_stop=q(15.30)))
    by_reach = drawn(BASE)
    assert x_span(by_stop, "clip_thickness") == pytest.approx(x_span(by_reach, "clip_thickness"), abs=0.05)
    assert by_stop.dims()["clip_stop"] == pytest.approx(15.30, abs=0.01)
    assert "pin_reach" not in by_stop.dims()


# one deciding check each: clearance worked out by hand from the joint drawn
CLEARANCES: list[tuple[str, dict[str, Any], float]] = [
    ("clip-goes-on", {}, STOP_GAP),
    ("clip-goes-on", {"between_outer_plates": q(15.2), "over_riveted_pins": q(21.6)}, 13.20 - 15.2),
    ("clip-goes-on", {"plate_fit": "slip"}, STOP_GAP),
    ("clip-goes-on-without-seals", {"plate_fit": "slip", "seals": "left-out"}, 13.20 - 11.25),
    ("backing", {}, STOP_GAP),
    ("float", {"plate_fit": "slip", "seals": "left-out"}, 13.20 - 11.25),
    ("shoulder-place", {"plate_fit": "press-to-shoulder", "shoulder_depth": q(13.35)}, 0.30),
    ("clip-over-shoulder", {"plate_fit": "press-to-shoulder", "shoulder_depth": q(13.35)}, -0.15),
    ("bush-stop", {"plate_fit": "press-to-shoulder", "shoulder_depth": q(13.05)}, 1.80),
    ("tip-land", {"pin_length": q(16.35)}, 0.05),
    ("squeeze", {}, 2 * 1.28 - 13.05 + 10.95),
    ("clip-entry", {"clip_thickness": q(1.25)}, 1.10 - 1.25),
    ("pin-entry", {}, 0.06),
    ("pin-entry", {"pin_diameter": q(5.4)}, -0.10),
    ("stick-out", {}, 17.3 - (13.05 + 19.4) / 2),
    ("plate-section", {}, 2.1),
    ("flare-stand-out", {"closure": "rivet", "pin_length": q(16.2)}, 16.2 - 2.1 - 13.05),
]  # fmt: skip


@pytest.mark.parametrize(("check", "change", "mm"), CLEARANCES)
@pytest.mark.parametrize("decides", [True, False])
def test_marks_agree_in_sign_and_size(check: str, change: dict[str, Any], mm: float, decides: bool) -> None:
    found = drawn(replace(BASE, **change), mark(check, mm), deciding=check if decides else None).clearances()
    size, sign = found[check]
    assert size == pytest.approx(mm, abs=0.01)
    assert sign == (mm > 0) - (mm < 0)


# (check, change, where the other end must lie: face name, mm from the fixed plate)
OTHER_ENDS: list[tuple[str, dict[str, Any], float, float]] = [
    # pressed plate: from its outer face 13.05 + 2.10 to the clip's near face 16.30 - 1.00
    ("clip-goes-on", {}, STOP_GAP, 15.15),
    # sliding plate: from the neighbour's plate to where this plate stops
    ("clip-goes-on", {"plate_fit": "slip"}, STOP_GAP, 13.05),
    ("float", {"plate_fit": "slip", "seals": "left-out"}, 1.95, 11.25),
    ("tip-land", {}, 1.0, 16.30),
    ("stick-out", {}, 1.075, 16.225),
    ("clip-over-shoulder", {"plate_fit": "press-to-shoulder", "shoulder_depth": q(13.35)}, -0.15, 15.45),
    ("flare-stand-out", {"closure": "rivet"}, 17.3 - 15.15, 15.15),
]


@pytest.mark.parametrize(("check", "change", "mm", "start"), OTHER_ENDS)
def test_marks_begin_at_the_face_they_are_measured_from(
    check: str, change: dict[str, Any], mm: float, start: float
) -> None:
    found = drawn(replace(BASE, **change), mark(check, mm), deciding=check)
    line = next(e for e in found.root.iter() if e.attrib.get("data-clearance") == check)
    zero, _ = x_span(found, "pin_length")
    assert (float(line.attrib["x1"]) - zero) / float(found.root.attrib["data-scale"]) == pytest.approx(
        start, abs=0.01
    )


@pytest.mark.parametrize("mm", [0.15, -0.15])
def test_clash_is_hatched_and_gap_is_not(mm: float) -> None:
    svg = section_drawing(BASE, [mark("clip-goes-on", mm)], "clip-goes-on", prefix="x")
    found = picture(svg)
    hatched = [e for e in found.all("rect") if e.attrib.get("fill") == "url(#dx-clash)"]
    assert bool(hatched) == (mm < 0)
    texts = {w.text.replace("\xa0", " ") for w in found.words}
    assert ("clash 0.15 mm" in texts) == (mm < 0)
    assert ("gap 0.15 mm" in texts) == (mm > 0)


@pytest.mark.parametrize(
    ("check", "mm", "low", "high", "word"),
    [
        # held tight is what a sealed sliding plate wants: at most nothing, and no least
        ("float", -1.60, None, 0.0, "held tight by 1.60 mm"),
        ("backing", -0.40, None, 0.35, "bears by 0.40 mm"),
        # the band allows 0.05 short
        ("clip-goes-on", -0.05, -0.05, None, "short by 0.05 mm"),
        ("clip-goes-on", -0.06, -0.05, None, "clash 0.06 mm"),
        ("pin-entry", -0.01, 0.0, 0.15, "clash 0.01 mm"),
    ],
)
def test_only_what_the_check_does_not_take_is_a_clash(
    check: str, mm: float, low: float | None, high: float | None, word: str
) -> None:
    for deciding in (check, None):
        found = drawn(replace(BASE, plate_fit="slip"), mark(check, mm, low=low, high=high), deciding=deciding)
        said = " ".join(w.text for w in found.words).replace("\xa0", " ")
        assert deciding is None or word in said
        assert ("clash" in said) == (
            word.startswith("clash") and (deciding is not None or check != "pin-entry")
        )
        hatched = [e for e in found.all("rect") if e.attrib.get("fill", "").endswith("-clash)")]
        assert bool(hatched) == (word.startswith("clash") and deciding is not None)


def test_every_length_is_there_in_inches_as_well() -> None:
    """25.4 mm to the inch: each text that says millimetres says inches where the switch is turned, and nothing else."""
    found = drawn(
        BASE, mark("clip-goes-on", 0.15, "Clip", low=-0.05), mark("backing", 0.15), deciding="clip-goes-on"
    )
    metric = [w for w in found.words if "mm" in w.text]
    assert len(metric) > 15
    assert [w.text for w in metric if " / " in w.text] == ["5.00 mm / 0.1969 in"], (
        "the measure of the picture"
    )
    for words in (w for w in metric if " / " not in w.text):
        lengths = [float(n.replace("\N{MINUS SIGN}", "-")) for n in NUMBERS.findall(words.text)]
        inches = [float(n.replace("\N{MINUS SIGN}", "-")) for n in NUMBERS.findall(words.inch)]
        assert "mm" not in words.inch and words.inch.count("\xa0in") == words.text.count("\xa0mm")
        assert [n * 25.4 for n in inches] == pytest.approx(lengths, abs=0.0051)
    assert spelled(length(11_250_000)) == "11.25 mm / 0.4429 in"


def test_headline_gives_hundredths_interval_and_wanted_band() -> None:
    found = drawn(BASE, mark("tip-land", 0.05, "Metal left", low=0.5), deciding="tip-land")
    texts = [w.text for w in found.words]
    assert "Metal left: 0.05\xa0mm (get-home)" in texts
    assert "could be 0.00\xa0to\xa00.10\xa0mm" in texts
    assert "proper: at least 0.50\xa0mm" in texts


def test_missing_dimensions_are_dashed_and_said() -> None:
    dims = replace(BASE, groove_width=None, over_bush_ends=q(11.2, 0.4, "published"))
    found = drawn(dims)
    missing = {e.attrib["data-missing"]: e for e in found.root.iter() if "data-missing" in e.attrib}
    assert set(missing) == {"groove_width"}
    assert missing["groove_width"].attrib["stroke-dasharray"]
    bush = next(e for e in found.root.iter() if e.attrib.get("data-dim") == "over_bush_ends")
    assert bush.attrib["stroke-dasharray"] and bush.attrib["data-evidence"] == "published"
    texts = [w.text for w in found.words]
    assert "groove width gw not measured" in texts
    assert "bush ends b2b 10.80\xa0to\xa011.60\xa0mm, not measured" in texts
    solid = next(e for e in found.root.iter() if e.attrib.get("data-dim") == "pin_length")
    assert "stroke-dasharray" not in solid.attrib


def test_nothing_known_still_draws_and_claims_nothing() -> None:
    found = drawn(
        SectionDimensions(), Mark("clip-goes-on", "Clip", "no-go", None, None, None), deciding="clip-goes-on"
    )
    assert found.dims() == {} and found.clearances() == {}
    assert any(w.text == "Clip: not known (no-go)" for w in found.words)


def test_description_says_the_same_in_words() -> None:
    svg = section_drawing(BASE, [mark("clip-goes-on", 0.15, "Clip goes on", low=-0.05)], "clip-goes-on")
    desc = picture(svg).root.findtext("{http://www.w3.org/2000/svg}desc") or ""
    for words in (
        "Clip goes on: gap 0.15 mm / 0.0059 in",
        "0.10 to 0.20 mm / 0.0039 to 0.0079 in",
        "at least \N{MINUS SIGN}0.05",
        "pin length 17.30 mm / 0.6811 in",
    ):
        assert words in desc


NUMBERS = re.compile("[\N{MINUS SIGN}]?[0-9]+\\.[0-9]+")
HOSTILE = (
    "\ue000</text><script>alert(1)</script>\" onload='x' {{7*7}} \x00\x1b\ufffe\ud800 &amp; " + "W" * 200
)


def test_hostile_text_is_shown_as_text() -> None:
    svg = section_drawing(
        BASE,
        [mark("clip-goes-on", 0.15, HOSTILE), mark(HOSTILE, 1.0), mark("backing", 0.15, HOSTILE)],
        "clip-goes-on",
        prefix=HOSTILE,
        title=HOSTILE,
    )
    assert isinstance(svg, Markup)
    svg.encode()
    found = picture(svg)
    assert not found.all("script")
    title = found.root.findtext("{http://www.w3.org/2000/svg}title") or ""
    assert title.removeprefix("\ue000").startswith("</text><script>alert(1)</script>\" onload='x' {{7*7}}")
    # nothing is cut: every letter stands somewhere
    assert sum(w.text.count("W") for w in found.words) == 400


def test_two_drawings_share_no_id() -> None:
    ids = [
        {e.attrib["id"] for e in picture(section_drawing(BASE, prefix=p)).root.iter() if "id" in e.attrib}
        for p in ("one", "two")
    ]
    assert not ids[0] & ids[1]


def test_same_numbers_same_bytes() -> None:
    marks = [mark("clip-goes-on", 0.15), mark("backing", 0.15)]
    assert section_drawing(BASE, marks, "backing") == section_drawing(BASE, marks, "backing")


def test_far_bike_is_said_and_not_drawn() -> None:
    found = drawn(replace(BASE, bike_clearance=q(40.0)))
    assert "bike_clearance" not in found.dims()
    assert any("Room to the bike 40.00\xa0mm" in w.text for w in found.words)


@pytest.mark.parametrize(
    ("nm", "text"),
    [
        (0, "0.00"),
        (150_000, "0.15"),
        (-70_000, "\N{MINUS SIGN}0.07"),
        (-4_000, "\N{MINUS SIGN}0.004"),
        (1, "0.000001"),
    ],
)
def test_hundredths_keep_the_sign(nm: int, text: str) -> None:
    assert hundredths(nm) == text


def _quantities(low: int, high: int) -> st.SearchStrategy[Quantity | None]:
    nominal = st.integers(low, high)
    spread = st.integers(0, 500_000)
    evidence: st.SearchStrategy[Evidence] = st.sampled_from(["measured", "stated", "published", "unknown"])
    return st.none() | st.builds(lambda n, s, e: Quantity(n - s, n, n + s, e), nominal, spread, evidence)


_NAMES = [n for n, f in SectionDimensions.__dataclass_fields__.items() if "Quantity" in str(f.type)]
_CHECKS = sorted({check for check, _, _ in CLEARANCES} | {"pitch", "clip-wear", "strength", "size-code"})


def _joints(low: int, high: int) -> st.SearchStrategy[SectionDimensions]:
    return st.builds(
        SectionDimensions,
        **{name: _quantities(low, high) for name in _NAMES},
        plate_fit=st.sampled_from(["slip", "press", "press-to-shoulder", "unknown"]),
        closure=st.sampled_from(["clip", "rivet", "screw"]),
        seals=st.sampled_from(["fitted", "left-out", "packed", "none"]),
    )  # fmt: skip


@st.composite
def _marks(draw: st.DrawFn, size: int) -> list[Mark]:
    checks = draw(st.lists(st.sampled_from(_CHECKS), max_size=5, unique=True))
    number = st.integers(-size, size)
    found = []
    for check in checks:
        low, nominal, high = sorted(draw(st.tuples(number, number, number)))
        limits = draw(st.tuples(st.none() | number, st.none() | number))
        found.append(Mark(check, draw(st.text(max_size=40)), "no-go", low, nominal, high, *limits))
    return found


def _holds(dims: SectionDimensions, marks: list[Mark], deciding: str | None) -> None:
    found = picture(section_drawing(dims, marks, deciding))
    for name, mm in found.dims().items():
        nominal = getattr(dims, name).nominal / 1e6
        assert mm == pytest.approx(nominal, abs=0.01), name
    by_check = {m.check_id: m.nominal for m in marks}
    for check, (mm, sign) in found.clearances().items():
        nominal_nm = by_check[check] or 0
        assert mm == pytest.approx(nominal_nm / 1e6, abs=0.01)
        assert sign == (nominal_nm > 0) - (nominal_nm < 0)


@settings(max_examples=150, deadline=None)
@given(_joints(0, 30_000_000), _marks(5_000_000), st.sampled_from(_CHECKS))
def test_any_joint_of_ordinary_size(dims: SectionDimensions, marks: list[Mark], deciding: str) -> None:
    _holds(dims, marks, deciding)


@settings(max_examples=150, deadline=None)
@given(_joints(-5_000_000, 10**13), _marks(10**13), st.sampled_from(_CHECKS))
def test_any_joint_however_wild(dims: SectionDimensions, marks: list[Mark], deciding: str) -> None:
    _holds(dims, marks, deciding)
