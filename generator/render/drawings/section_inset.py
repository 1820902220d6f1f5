"""The deciding clearance enlarged, because hundredths of a millimetre cannot be seen to scale.

Goes in: a spot.  Comes out: a panel with both faces, the gap or clash between them, and the wanted band.
"""

from collections.abc import Callable
from dataclasses import dataclass
from math import floor, log10

from markupsafe import Markup

from generator.model.quantity import NM_PER_MM
from generator.render.drawings.palette import clash_ink, filled, pattern_fill
from generator.render.drawings.section_labels import LEFT, RIGHT, ROW, Span
from generator.render.drawings.section_places import Spot, in_words, range_in_words, wanted_in_words
from generator.render.drawings.section_rows import Dimension, rows
from generator.render.drawings.svg import Attr, group, path, rect, text
from generator.render.drawings.units import spelled

_BLOCK = 58.0
_HIGH = 30.0
_SMALLEST_MM = 0.02


@dataclass(frozen=True, slots=True)
class _Ruler:
    """Enlarged x of a clearance in mm: 0 is the face before, the clearance is the face after."""

    zero: float
    scale: float

    def x(self, mm: float) -> float:
        return self.zero + mm * self.scale

    def x_nm(self, nanometres: int) -> float:
        return self.x(nanometres / NM_PER_MM)


def _ruler(spot: Spot) -> _Ruler:
    mark = spot.mark
    ends = (0, spot.nominal, mark.low, mark.high, mark.wanted_low, mark.wanted_high)
    known = [end / NM_PER_MM for end in ends if end is not None]
    low, high = min(known), max(known)
    room = RIGHT - LEFT - 2 * _BLOCK
    scale = room / max(high - low, _SMALLEST_MM)
    return _Ruler((LEFT + RIGHT) / 2 - scale * (low + high) / 2, scale)


@dataclass(frozen=True, slots=True)
class Inset:
    """The panel's shapes and its words, the y it ends at and the x of the middle of its clearance."""

    shapes: Markup
    words: Markup
    end: float
    middle: float


def inset(spot: Spot, prefix: str, y: float, plain: bool = False) -> Inset:
    """The panel with its top at y: bars with words, then the two bodies they measure."""
    ruler = _ruler(spot)
    before, after = ruler.x(0.0), ruler.x_nm(spot.nominal)
    bars = rows(_bars(spot, ruler, spelled if plain else str), y, prefix)
    top = y + bars.height + ROW + 3
    shapes = (
        _faces(before, after, y + bars.height - ROW / 2, top)
        + bars.lines
        + _blocks(spot, (before, after), top, prefix, plain)
        + _between(spot, (before, after), top, prefix, plain)
    )
    names = text(LEFT, top - 5, spot.site.before) + text(RIGHT, top - 5, spot.site.after, text_anchor="end")
    return Inset(shapes, bars.words + names, top + _HIGH, (before + after) / 2)


def _faces(before: float, after: float, top: float, bottom: float) -> Markup:
    return path("M", before, top, "V", bottom, "M", after, top, "V", bottom, stroke_width=0.7)


def enlarged(spot: Spot, main_scale: float) -> str:
    """How much larger than the section the panel is."""
    ratio = _ruler(spot).scale / main_scale
    if not 0.1 <= ratio < 1e5:
        return "not to the same scale"
    step = 10.0 ** floor(log10(ratio)) if ratio < 10 else 1.0
    return f"{round(ratio / step) * step:g} times as large"


def _blocks(spot: Spot, ends: tuple[float, float], top: float, prefix: str, plain: bool) -> Markup:
    """Two bodies: one ends at the face before, the other begins at the face after."""
    before, after = ends
    left, right = min(LEFT, before - 20), max(RIGHT, after + 20)
    return group(
        rect(left, top, before - left, _HIGH, **_look(spot, spot.site.before, prefix, plain)),
        rect(after, top, right - after, _HIGH, **_look(spot, spot.site.after, prefix, plain)),
        path("M", before, top - 3, "v", _HIGH + 6, "M", after, top - 3, "v", _HIGH + 6),
        stroke_width=1.4,
    )


def _look(spot: Spot, name: str, prefix: str, plain: bool) -> dict[str, Attr]:
    """The same hatching as the part has in the section; around metal that is left there is nothing."""
    if spot.site.solid:
        return {"fill": "none", "stroke_dasharray": "2 3"}
    if name.startswith("clip"):
        return {"fill": "currentColor"}
    chain = name.startswith(("bush", "neighbour", "chain"))
    return {**filled(prefix, "chain" if chain else "link", plain)}


def _between(spot: Spot, ends: tuple[float, float], top: float, prefix: str, plain: bool) -> Markup:
    low, width = min(ends), abs(ends[1] - ends[0])
    if spot.clashes:
        fill = pattern_fill(prefix, "clash")
        body = rect(low, top, width, _HIGH, fill=fill, stroke_width=1.6)
        return group(body, stroke="currentColor", **clash_ink())
    if spot.site.solid and spot.nominal >= 0:
        look: dict[str, Attr] = {**filled(prefix, spot.site.solid, plain)}
    else:
        look = {"fill": "#fff", "class_": "d-paper"}
    return rect(low, top, width, _HIGH, stroke_width=1.4, **look)


def _bars(spot: Spot, ruler: _Ruler, say: Callable[[str], str]) -> list[Dimension]:
    """Wanted band, interval and clearance, each a bar with its words."""
    mark = spot.mark
    bars = []
    span, wanted = range_in_words(mark), wanted_in_words(mark)
    if wanted is not None:
        x1 = LEFT if mark.wanted_low is None else ruler.x_nm(mark.wanted_low)
        x2 = RIGHT if mark.wanted_high is None else ruler.x_nm(mark.wanted_high)
        bars.append(Dimension(Span(say(f"proper: {wanted}"), x1, x2), {"stroke_width": 3}))
    if span is not None and mark.low is not None and mark.high is not None:
        could = Span(say(f"could be {span}"), ruler.x_nm(mark.low), ruler.x_nm(mark.high))
        bars.append(Dimension(could, dashed=True))
    have = Span(say(in_words(spot)), ruler.x(0.0), ruler.x_nm(spot.nominal))
    return [*bars, Dimension(have)]
