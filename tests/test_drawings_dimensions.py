"""The explaining drawings: every recipe has one, the gauge touches the right side of the right faces.

Outside source of the faces: the recipes' own field `contact` and words (common practice, no source);
of the clip's direction: several public safety pages and forums agree that the closed end leads.
"""

from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path
from typing import Any
from xml.etree.ElementTree import Element

import pytest
import yaml

from generator.render.drawings.clip_direction import clip_direction_drawing
from generator.render.drawings.counting import counting_drawing
from generator.render.drawings.dimensions import DRAWN, dimension_drawing, dimension_words
from tests.drawing_checks import SVG, Picture, picture, steps_of

RECIPES: dict[str, dict[str, Any]] = yaml.safe_load(
    (Path(__file__).parent.parent / "data" / "recipes.yaml").read_text(encoding="utf-8")
)
JAWS = "Solid blocks are the jaws"
# read as a difference of two readings, so no single arrow lies between one pair of jaws
DIFFERENCES = {"pin-step", "plate-hole-spacing"}


def test_every_recipe_has_a_drawing_and_every_drawing_a_recipe() -> None:
    assert sorted(RECIPES) == list(DRAWN)


@pytest.mark.parametrize("recipe", DRAWN)
def test_drawing_holds_together(recipe: str) -> None:
    found = picture(dimension_drawing(recipe))
    assert dimension_words(recipe).endswith("not to scale.")
    symbol = RECIPES[recipe].get("symbol")
    title = found.root.findtext(SVG + "title") or ""
    assert symbol is None or title.split(":")[0].split(" ")[0] == symbol


@pytest.mark.parametrize("recipe", DRAWN)
def test_every_text_stays_inside_and_every_shape_near(recipe: str) -> None:
    found = picture(dimension_drawing(recipe))
    for rect in found.all("rect"):
        x, width = float(rect.attrib["x"]), float(rect.attrib["width"])
        assert x + width <= found.right


def _tips(found: Picture) -> set[tuple[str, float]]:
    """Where arrows end, as (axis, place)."""
    tips = set()
    for group in found.all("g"):
        if group.attrib.get("class") == "d-dim":
            for head in group.iter(SVG + "path"):
                _, x, y, *_ = steps_of(head)
                tips |= {("x", float(x)), ("y", float(y))}
    return tips


def _jaw_pairs(found: Picture) -> Iterator[tuple[str, list[float], list[float]]]:
    """(axis, edges that touch from outside, edges that touch from inside) of each pair of jaws."""
    for parent in found.root.iter():
        jaws = [e for e in parent if e.attrib.get("class") == "d-jaw"]
        for pair in zip(jaws[::2], jaws[1::2], strict=True):
            axis = "x" if pair[0].attrib["y"] == pair[1].attrib["y"] else "y"
            (a, wa), (b, wb) = (_span(jaw, axis) for jaw in pair)
            yield axis, [a + wa, b], [a, b + wb]


def _span(jaw: Element, axis: str) -> tuple[float, float]:
    return float(jaw.attrib[axis]), float(jaw.attrib["width" if axis == "x" else "height"])


@pytest.mark.parametrize("recipe", [r for r in DRAWN if RECIPES[r]["contact"] in ("outside", "inside")])
def test_jaws_touch_the_faces_the_arrow_spans(recipe: str) -> None:
    found = picture(dimension_drawing(recipe))
    if JAWS not in dimension_words(recipe) or recipe in DIFFERENCES:
        return
    tips = _tips(found)
    inside = RECIPES[recipe]["contact"] == "inside"
    fits = [(axis, inner if inside else outer) for axis, outer, inner in _jaw_pairs(found)]
    wrong = [(axis, outer if inside else inner) for axis, outer, inner in _jaw_pairs(found)]
    assert any(all((axis, edge) in tips for edge in edges) for axis, edges in fits)
    assert not any(all((axis, edge) in tips for edge in edges) for axis, edges in wrong)


def test_most_jaw_recipes_are_checked_for_contact() -> None:
    checked = [r for r in DRAWN if JAWS in dimension_words(r) and r not in DIFFERENCES]
    assert len(checked) >= 20


def test_drawings_of_one_page_share_no_id() -> None:
    every = [dimension_drawing(r) for r in DRAWN] + [clip_direction_drawing(), counting_drawing()]
    ids = [e.attrib["id"] for svg in every for e in picture(svg).root.iter() if "id" in e.attrib]
    assert len(ids) == len(set(ids))


def test_closed_end_leads_on_both_runs() -> None:
    found = picture(clip_direction_drawing())
    words = {w.text: w for w in found.words}
    # forward is to the left: the front of the bike is left of its rear
    assert words["front"].right < words["rear"].left
    clips = [e for e in found.all("path") if e.attrib.get("stroke-width") == "6"]
    ways = []
    for clip in clips:
        steps = steps_of(clip)
        tips, bend = float(steps[1]), float(steps[steps.index("A") + 6])
        ways.append((float(steps[2]), bend - tips))
    (top_y, top_way), (bottom_y, bottom_way) = sorted(ways)
    middle = words["front"].top
    assert top_y < middle < bottom_y
    # forward on the top run, rearward on the bottom run
    assert top_way < 0 < bottom_way
    closed = sorted((w for w in found.words if w.text == "closed"), key=lambda w: w.top)
    opened = sorted((w for w in found.words if w.text == "open"), key=lambda w: w.top)
    assert closed[0].left < opened[0].left and closed[1].left > opened[1].left


def _rows(found: Picture) -> list[list[tuple[float, str]]]:
    """Links of each run from left to right: (left joint, what its hatching says it is)."""
    rows: dict[float, dict[float, str]] = {}
    for e in found.all("path"):
        look = e.attrib.get("fill", "").removesuffix(")").rpartition("-")[2]
        steps = steps_of(e)
        if look in ("link", "chain"):
            r = 11 if look == "link" else 13
            rows.setdefault(float(steps[2]) + r, {})[float(steps[1])] = look
    return [sorted(row.items()) for _, row in sorted(rows.items())]


def test_counting_alternates_and_fails_only_with_one_pitch_out() -> None:
    counted, one_out, two_out = _rows(picture(counting_drawing()))
    for row in (counted, two_out):
        kinds = [kind for _, kind in row]
        assert all(a != b for a, b in pairwise(kinds))
    kinds = [kind for _, kind in one_out]
    assert [i for i, (a, b) in enumerate(pairwise(kinds)) if a == b] == [3]
    # the fourth link is the connecting link, and it is an outer one
    assert kinds[3] == "link" and kinds[4] == "link"


def test_drawings_are_escaped_under_any_prefix() -> None:
    hostile = '"><script>x</script>'
    for svg in (
        dimension_drawing("bush-bore", hostile),
        clip_direction_drawing(hostile),
        counting_drawing(hostile),
    ):
        assert not picture(svg).all("script")
        assert "<script" not in svg
