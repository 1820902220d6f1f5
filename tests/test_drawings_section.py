"""The drawing of a cut joint against the numbers it is made from.

The joints are the invented base joint and its variants; where each face lies follows from
stop = G + gw - k - t and the three kinds of seat, worked out by hand here.
"""

import re
from dataclasses import replace
from itertools import combinations
from typing import Any, get_args
from xml.etree import ElementTree

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.model.quantity import Evidence, Quantity
from generator.model.shipped import Drawn
from generator.render.drawings.section.drawing import DOT, WIDTH, section_drawing
from generator.render.drawings.section.geometry import faces_of
from generator.render.drawings.section.input import SectionDimensions

SVG = ""  # it stands in a page, whose names need no space of their own
ALL: dict[Drawn, int] = {place: number for number, place in enumerate(get_args(Drawn), start=1)}


def q(mm: float, plus_minus: float = 0.05, evidence: Evidence = "measured") -> Quantity:
    middle, half = round(mm * 1e6), round(plus_minus * 1e6)
    return Quantity(middle - half, middle, middle + half, evidence)


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


def drawn(dims: SectionDimensions, width: str = "press to 17.25 mm") -> ElementTree.Element:
    return ElementTree.fromstring(str(section_drawing(dims, "A joint", width, ALL)))


def boxes(root: ElementTree.Element, look: str) -> list[tuple[float, float]]:
    """From x to x of every box of a look."""
    found = [e.attrib["d"] for e in root.iter(SVG + "path") if e.attrib.get("class") == f"d-{look}"]
    numbers = (re.findall(r"M(-?[0-9.]+)[ -][0-9.]+h(-?[0-9.]+)", d) for d in found)
    return [(float(x), float(x) + float(width)) for each in numbers for x, width in each]


def dots(root: ElementTree.Element) -> list[tuple[float, float]]:
    return [(float(e.attrib["cx"]), float(e.attrib["cy"])) for e in root.iter(SVG + "circle")]


def test_the_parts_lie_to_scale() -> None:
    """Fixed plate 2.10, seat 13.05, clip from 15.30 to 16.30: the plate ends at 15.15 and the clip clears it by 0.15."""
    root = drawn(BASE)
    fixed, side = boxes(root, "link")[:2]
    clip = boxes(root, "clip")[0]
    scale = (fixed[1] - fixed[0]) / 2.1
    assert (side[0] - fixed[1]) / scale == pytest.approx(13.05, abs=0.05)
    assert (side[1] - side[0]) / scale == pytest.approx(2.10, abs=0.02)
    assert (clip[1] - clip[0]) / scale == pytest.approx(1.00, abs=0.02)
    assert (clip[0] - side[1]) / scale == pytest.approx(0.15, abs=0.02)


def test_the_bike_stands_at_its_room_from_the_heads() -> None:
    """(13.05 + 19.40) / 2 + 4.00 = 20.225 from the fixed plate; further than 6 mm it is not drawn."""
    root, fixed = drawn(BASE), boxes(drawn(BASE), "link")[0]
    scale = (fixed[1] - fixed[0]) / 2.1
    bike = max(x for x, _ in boxes(root, "chain"))
    assert (bike - fixed[1]) / scale == pytest.approx(20.225, abs=0.06)
    assert faces_of(replace(BASE, bike_clearance=q(7.0))).guide is None


def changed(**changes: Any) -> SectionDimensions:
    return replace(BASE, **changes)


@pytest.mark.parametrize(
    ("plate_fit", "changes", "seat"),
    [
        ("press", {}, 13.05),
        # 15.20 + 1.10 - 1.00 - 2.10
        ("slip", {}, 13.20),
        ("press-to-shoulder", {"shoulder_depth": q(13.35)}, 13.35),
    ],
)
def test_the_plate_rests_where_its_kind_rests(
    plate_fit: str, changes: dict[str, Quantity], seat: float
) -> None:
    faces = faces_of(changed(plate_fit=plate_fit, **changes))
    assert faces.seat == pytest.approx(seat)


def test_a_plate_that_covers_the_groove_is_shown_as_a_clash() -> None:
    """Shoulder at 13.35: the plate ends at 15.45, the clip begins at 15.30."""
    assert not boxes(drawn(BASE), "gone")
    clash = drawn(replace(BASE, plate_fit="press-to-shoulder", shoulder_depth=q(13.35)))
    x = boxes(clash, "gone")[0]
    fixed = boxes(clash, "link")[0]
    assert (x[1] - x[0]) / ((fixed[1] - fixed[0]) / 2.1) == pytest.approx(0.15, abs=0.02)


def test_what_is_not_read_is_dashed() -> None:
    assert "stroke-dasharray" not in str(section_drawing(BASE, "A joint"))
    assert "stroke-dasharray" in str(section_drawing(replace(BASE, clip_thickness=None), "A joint"))
    assert "stroke-dasharray" in str(
        section_drawing(replace(BASE, over_bush_ends=q(11.25, evidence="published")), "A joint")
    )


def test_seals_lie_in_their_rooms() -> None:
    """Each room is (13.05 - 10.95) / 2 = 1.05 wide; left out they are outlines, without them there are none."""
    root, fixed = drawn(BASE), boxes(drawn(BASE), "link")[0]
    scale = (fixed[1] - fixed[0]) / 2.1
    seals = [e for e in root.iter(SVG + "ellipse") if e.attrib["class"] == "d-seal"]
    assert [2 * float(e.attrib["rx"]) / scale for e in seals] == pytest.approx([1.05, 1.05], abs=0.02)
    left_out = drawn(replace(BASE, seals="left-out"))
    assert {e.attrib["class"] for e in left_out.iter(SVG + "ellipse")} == {"d-ghost"}
    assert not list(drawn(replace(BASE, seals="none")).iter(SVG + "ellipse"))


def test_five_numbers_and_one_width_are_all_its_words() -> None:
    words = [e.text for e in drawn(BASE).iter(SVG + "text")]
    assert sorted(words, key=str) == ["1", "2", "3", "4", "5", "press to 17.25 mm"]
    assert len(list(drawn(BASE, width="").iter(SVG + "text"))) == 5


def test_it_says_what_it_is() -> None:
    root = drawn(BASE)
    assert root.attrib["role"] == "img" and root.findtext(SVG + "title") == "A joint"
    assert "style" not in str(section_drawing(BASE, "A joint"))


LENGTHS = st.one_of(st.none(), st.floats(0.2, 40).map(q))


def test_the_number_of_a_pin_stays_on_the_sheet_where_its_bush_does_not() -> None:
    root = drawn(
        replace(BASE, plate_fit="slip", seals="left-out", over_bush_ends=q(40.0), bike_clearance=None)
    )
    assert max(x for x, _ in dots(root)) <= WIDTH - DOT + 0.6


@settings(max_examples=150, deadline=None)
@given(st.data())
def test_whatever_was_read_the_numbers_stay_inside_and_apart(data: st.DataObject) -> None:
    names = [
        name for name in SectionDimensions.__dataclass_fields__ if isinstance(getattr(BASE, name), Quantity)
    ]
    read = {
        name: data.draw(LENGTHS, label=name)
        for name in data.draw(st.sets(st.sampled_from(names), max_size=5))
    }
    fit = data.draw(st.sampled_from(["slip", "press", "press-to-shoulder", "unknown"]))
    seals = data.draw(st.sampled_from(["fitted", "left-out", "packed", "none"]))
    root = drawn(changed(plate_fit=fit, seals=seals, **read))
    height = float(root.attrib["viewBox"].split()[3])
    found = dots(root)
    assert len(found) == 5
    for x, y in found:
        assert x + 0.6 >= DOT and x <= WIDTH - DOT + 0.6 and DOT <= y <= height - DOT + 0.6
    upper = sorted(found, key=lambda dot: dot[1])[:3]
    for one, other in combinations(upper, 2):
        assert abs(one[0] - other[0]) >= 2 * DOT or abs(one[1] - other[1]) >= 2 * DOT
