"""Dimension lines in rows, each with its words.

Goes in: spans.  Comes out: lines with end ticks and text that never meets other text.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from markupsafe import Markup

from generator.render.drawings.section_labels import ROW, Box, Placed, Span, stack
from generator.render.drawings.svg import Attr, group, line, num, path, rect, text

_TICK = 3.5


@dataclass(frozen=True, slots=True)
class Dimension:
    """A span to draw and the attributes its line carries."""

    span: Span
    attrs: Mapping[str, Attr] = field(default_factory=dict)
    dashed: bool = False


def rows(dimensions: Sequence[Dimension], top: float, decimals: int = 2) -> tuple[Markup, float]:
    """All dimensions stacked from top downward, and the height they take."""
    placed, count = stack([dimension.span for dimension in dimensions])
    drawn = [_drawn(d, p, top, decimals) for d, p in zip(dimensions, placed, strict=True)]
    lines = group(*(shape for shape, _ in drawn), stroke="currentColor", stroke_width=1.2)
    return Markup("").join((lines, *(words for _, words in drawn))), count * ROW


def _drawn(dimension: Dimension, placed: Placed, top: float, decimals: int) -> tuple[Markup, Markup]:
    words = Markup("").join(row_text(box, top) for box in placed.boxes)
    if placed.span.bare:
        return Markup(""), words
    y = top + ROW * (placed.row + 0.5)
    x1, x2 = placed.span.x1, placed.span.x2
    dash = "3 2" if dimension.dashed else None
    behind = [
        rect(box.x - 3, y - 7, box.width + 6, 14, fill="#fff", class_="d-paper", stroke="none")
        for box in placed.boxes
        if box.row == placed.row
    ]
    return group(
        line(num(x1, decimals), y, num(x2, decimals), y, stroke_dasharray=dash, **dimension.attrs),
        *behind,
        path("M", x1, y - _TICK, "V", y + _TICK, "M", x2, y - _TICK, "V", y + _TICK),
    ), words


def row_text(box: Box, top: float) -> Markup:
    anchor = None if box.anchor == "start" else box.anchor
    return text(box.at, top + ROW * (box.row + 0.5) + 4, box.words, text_anchor=anchor)
