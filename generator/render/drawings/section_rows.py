"""Dimension lines in rows, each with its words.

Goes in: spans.  Comes out: lines with end ticks, and text that never meets other text.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from markupsafe import Markup

from generator.render.drawings.section_labels import ROW, Box, Placed, Span, stack
from generator.render.drawings.svg import Attr, box_path, el, group, line, num, path, text

_TICK = 3.5


@dataclass(frozen=True, slots=True)
class Dimension:
    """A span to draw and the attributes its line carries."""

    span: Span
    attrs: Mapping[str, Attr] = field(default_factory=dict)
    dashed: bool = False


@dataclass(frozen=True, slots=True)
class Rows:
    """Lines and their words apart, since all words of a drawing share one look; `height` is the room they take."""

    lines: Markup
    words: Markup
    height: float


def rows(dimensions: Sequence[Dimension], top: float, prefix: str, decimals: int = 2) -> Rows:
    """All dimensions stacked from top downward."""
    placed, count = stack([dimension.span for dimension in dimensions])
    pairs = list(zip(dimensions, placed, strict=True))
    lines = group(
        *(_line(d, p, top, decimals) for d, p in pairs if not p.span.bare),
        marker_start=f"url(#{prefix}-tick)",
        marker_end=f"url(#{prefix}-tick)",
    )
    behind = box_path(
        (
            (box.x - 3, top + ROW * (p.row + 0.5) - 7, box.width + 6, 14.0)
            for _, p in pairs
            if not p.span.bare
            for box in p.boxes
            if box.anchor == "middle"
        ),
        fill="#fff",
        class_="d-paper",
        stroke="none",
    )
    return Rows(Markup("").join((lines, behind)), _words([p for _, p in pairs], top), count * ROW)


def tick(prefix: str) -> Markup:
    """Both ends of every dimension line."""
    mark = path(f"M0-{_TICK}V{_TICK}", stroke="currentColor", stroke_width=1.2)
    return el("marker", mark, id=f"{prefix}-tick", markerUnits="userSpaceOnUse", overflow="visible")


def _line(dimension: Dimension, placed: Placed, top: float, decimals: int) -> Markup:
    y = num(top + ROW * (placed.row + 0.5), 1)
    x1, x2 = num(placed.span.x1, decimals), num(placed.span.x2, decimals)
    return line(x1, y, x2, y, stroke_dasharray="3 2" if dimension.dashed else None, **dimension.attrs)


def _words(placed: Sequence[Placed], top: float) -> Markup:
    """By the end they hang on."""
    boxes = [box for each in placed for box in each.boxes]
    groups: list[Markup] = []
    for anchor in ("start", "middle", "end"):
        texts = [row_text(box, top) for box in boxes if box.anchor == anchor]
        if texts:
            groups += texts if anchor == "start" else [group(*texts, text_anchor=anchor)]
    return Markup("").join(groups)


def row_text(box: Box, top: float) -> Markup:
    return text(box.at, top + ROW * (box.row + 0.5) + 4, box.words)
