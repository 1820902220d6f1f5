"""The dimensions and clearances of a section as lines whose length, divided by the scale, is the number.

Goes in: faces, marks and a sheet.  Comes out: dimension rows, and the marks drawn in place.
"""

from collections.abc import Iterable, Set
from dataclasses import dataclass

from markupsafe import Markup

from generator.render.drawings.palette import clash_ink, filled, pattern_fill
from generator.render.drawings.section_geometry import Faces
from generator.render.drawings.section_input import Value
from generator.render.drawings.section_labels import Span, text_width
from generator.render.drawings.section_lengths import WORDS, lengths
from generator.render.drawings.section_parts import DASH, Sheet
from generator.render.drawings.section_places import Spot, in_words
from generator.render.drawings.section_rows import Dimension
from generator.render.drawings.svg import Attr, group, line, num, rect, text


def _attrs(value: Value) -> dict[str, Attr]:
    if value.known == "missing":
        return {"data_missing": value.name}
    return {
        "data_dim": value.name,
        "data_evidence": value.evidence if value.evidence != "measured" else None,
    }


def dimension_rows(faces: Faces, sheet: Sheet, wanted: Set[str]) -> list[Dimension]:
    """One row entry for each wanted dimension along the pin."""
    ends = lengths(faces)
    found = []
    for name, words in WORDS.items():
        value = faces.values[name]
        if name in wanted and name in ends:
            low, high = ends[name]
            span = Span(sheet.say(f"{words} {value.text}"), sheet.x(low), sheet.x(high))
            found.append(Dimension(span, _attrs(value), dashed=value.known != "measured"))
    return found


@dataclass(frozen=True, slots=True)
class Across:
    """Upright lines, the words beside them, and the words that found no room there."""

    lines: Markup
    words: Markup
    below: list[Dimension]


def across(faces: Faces, sheet: Sheet, wanted: Set[str]) -> Across:
    """Diameters as upright lines in the pin, their words beside them or in a row of words."""
    places = {
        "bush_bore": (faces.bush[0] + (faces.bush[1] - faces.bush[0]) * 0.06, faces.bore),
        "pin_diameter": (faces.bush[0] + (faces.bush[1] - faces.bush[0]) * 0.54, faces.pin),
        "groove_diameter": ((faces.reach + faces.groove_far) / 2, _half(faces.mm("groove_diameter"))),
    }
    room = sheet.x(min(faces.bush[1], faces.reach))
    high = (faces.pin[1] - faces.pin[0]) * sheet.scale
    drawn, beside, below = [], [], []
    for name, (x_mm, (low, top)) in reversed(places.items()):
        if name not in wanted:
            continue
        value, x = faces.values[name], sheet.x(x_mm)
        words = sheet.say(f"{WORDS[name]} {value.text}")
        dash = DASH if value.known != "measured" else None
        ends = (num(sheet.y(low), sheet.decimals), num(sheet.y(top), sheet.decimals))
        drawn.append(line(x, ends[0], x, ends[1], stroke_dasharray=dash, **_attrs(value)))
        if name != "groove_diameter" and high > 34 and x + 4 + text_width(words) < room:
            beside.append(text(x + 4, sheet.y0 - 6, words))
            room = x - 4
        else:
            below.append(Dimension(Span(words, x, x, bare=True)))
    lines = group(*drawn, stroke_width=1.4)
    return Across(lines, Markup("").join(beside), below[::-1])


def _half(width: float) -> tuple[float, float]:
    return -width / 2, width / 2


def _clearance(spot: Spot) -> dict[str, Attr]:
    return {"data_clearance": spot.mark.check_id, "data_sign": str(spot.sign)}


def mark_rows(spots: Iterable[Spot], sheet: Sheet) -> list[Dimension]:
    """The clearances that are not the deciding one, as dimension rows with their words."""
    return [
        Dimension(
            Span(f"{spot.mark.label}: {in_words(spot)}", sheet.x(spot.ends[0]), sheet.x(spot.ends[1])),
            {**_clearance(spot), "stroke_width": 2.4},
        )
        for spot in spots
        if spot.ends is not None and spot.site.axis == "x"
    ]


def upright_marks(spots: Iterable[Spot], faces: Faces, sheet: Sheet) -> Markup:
    """Clearances across the pin that do not decide: the line alone, its words are the two diameters."""
    x = sheet.x(faces.bush[0] + (faces.bush[1] - faces.bush[0]) * 0.3)
    lines = [
        line(
            x,
            num(sheet.y(s.ends[0]), sheet.decimals),
            x,
            num(sheet.y(s.ends[1]), sheet.decimals),
            **_clearance(s),
        )
        for s in spots
        if s.ends is not None and s.site.axis == "y"
    ]
    return group(*lines, stroke_width=2.4)


def band(spot: Spot, faces: Faces) -> tuple[float, float]:
    """How far across the pin the deciding mark reaches, in mm."""
    if spot.site.band == "pin":
        return faces.pin
    outside = max(faces.pin[1], faces.mm("groove_diameter") / 2)
    if spot.site.band == "bush":
        return -outside * 1.5, -outside
    return -max(faces.clip_outside, outside * 1.3), -outside


def deciding_mark(spot: Spot, faces: Faces, sheet: Sheet) -> Markup:
    """The deciding clearance in its place: a band, hatched where two bodies want the same room."""
    if spot.ends is None:
        return Markup("")
    first, last = spot.ends
    if spot.site.axis == "y":
        x = sheet.x((faces.bush[0] + faces.bush[1]) / 2)
        box = (
            sheet.x(faces.bush[0]),
            sheet.y(min(first, last)),
            sheet.x(faces.bush[1]),
            sheet.y(max(first, last)),
        )
        ends = (
            num(x, sheet.decimals),
            num(sheet.y(first), sheet.decimals),
            num(x, sheet.decimals),
            num(sheet.y(last), sheet.decimals),
        )
    else:
        low, high = band(spot, faces)
        box = (sheet.x(min(first, last)), sheet.y(low), sheet.x(max(first, last)), sheet.y(high))
        y = (box[1] + box[3]) / 2
        ends = (num(sheet.x(first), sheet.decimals), num(y), num(sheet.x(last), sheet.decimals), num(y))
    return group(
        rect(box[0], box[1], box[2] - box[0], box[3] - box[1], **_filling(spot, sheet)),
        line(*ends, stroke_width=2.0, **_clearance(spot)),
        stroke_width=1.4,
        **({**clash_ink(), "stroke": "currentColor"} if spot.clashes else {}),
    )


def _filling(spot: Spot, sheet: Sheet) -> dict[str, Attr]:
    """Hatched where two bodies want the same room or metal is left, paper where there is room."""
    if spot.clashes:
        return {"fill": pattern_fill(sheet.prefix, "clash")}
    if spot.site.solid and spot.nominal >= 0:
        return {**filled(sheet.prefix, spot.site.solid, sheet.plain)}
    return {"fill": "#fff", "class_": "d-paper"}


def pointer_foot(spot: Spot, faces: Faces, sheet: Sheet) -> tuple[float, float] | None:
    """Where the pointer from the enlarged panel ends."""
    if spot.ends is None:
        return None
    if spot.site.axis == "y":
        return sheet.x((faces.bush[0] + faces.bush[1]) / 2), sheet.y(min(spot.ends))
    low, high = band(spot, faces)
    return sheet.x(sum(spot.ends) / 2), sheet.y(low if spot.site.band != "pin" else (low + high) / 2)
