"""Strokes the explaining drawings share: jaws, dimension arrows, bodies."""

from collections.abc import Iterable, Sequence

from markupsafe import Markup

from generator.render.drawings.letters import BOLD, LEFT, RIGHT, wrap
from generator.render.drawings.palette import Look, hatches, pattern_fill
from generator.render.drawings.svg import (
    Attr,
    arrow,
    document,
    el,
    group,
    lettering,
    line,
    path,
    rect,
    text,
)

SCHEMATIC = "Schematic, not to scale."
_PAD = 9.0
_NARROW = 46.0


def body(prefix: str, look: Look, x: float, y: float, width: float, height: float, **attrs: Attr) -> Markup:
    fill = pattern_fill(prefix, look)
    return rect(x, y, width, height, fill=fill, stroke="currentColor", stroke_width=1.3, **attrs)


def shape(prefix: str, look: Look, *steps: str | float, **attrs: Attr) -> Markup:
    fill = pattern_fill(prefix, look)
    return path(*steps, fill=fill, stroke="currentColor", stroke_width=1.3, **attrs)


def ring(x: float, y: float, r: float, **attrs: Attr) -> Markup:
    given: dict[str, Attr] = {"stroke": "currentColor", "stroke_width": 1.3, **attrs}
    return el("circle", cx=x, cy=y, r=r, **given)


def hollow(x: float, y: float, r: float, **attrs: Attr) -> Markup:
    return ring(x, y, r, fill="#fff", class_="d-paper", **attrs)


def torn(x1: float, x2: float, y: float) -> Markup:
    """A torn edge across an upright body."""
    step = (x2 - x1) / 4
    return path(
        "M", x1 - 1, y, "L", x1 + step, y - 4, "L", x1 + 3 * step, y + 4, "L", x2 + 1, y,
        stroke="#fff", stroke_width=4.0, class_="d-halo",
    )  # fmt: skip


def _solid(x: float, y: float, width: float, height: float) -> Markup:
    return rect(x, y, width, height, fill="currentColor", class_="d-jaw")


def jaws_across(x1: float, x2: float, y: float, inside: bool = False, high: float = 22.0) -> Markup:
    """Two jaws touching faces at x1 and x2, from outside or from inside."""
    left, right = (x1, x2 - _PAD) if inside else (x1 - _PAD, x2)
    return group(_solid(left, y - high / 2, _PAD, high), _solid(right, y - high / 2, _PAD, high))


def jaws_along(x: float, y1: float, y2: float, inside: bool = False, wide: float = 22.0) -> Markup:
    """Two jaws touching faces at y1 (above) and y2 (below)."""
    top, bottom = (y1, y2 - _PAD) if inside else (y1 - _PAD, y2)
    return group(_solid(x - wide / 2, top, wide, _PAD), _solid(x - wide / 2, bottom, wide, _PAD))


def rod_across(face: float, tip: float, y: float, low: float, high: float) -> Markup:
    """A depth rod: its foot stands on tips at x = tip, its rod reaches the face."""
    return group(_solid(tip, low, _PAD, high - low), _solid(face, y - 2.5, tip - face, 5.0))


def feelers(x: float, y: float, width: float, height: float) -> Markup:
    return _solid(x, y, width, height)


def dimension_across(x1: float, x2: float, y: float, label: str, faces: float | None = None) -> Markup:
    """Arrows from x1 to x2 at y; thin lines lead to the faces."""
    leads = [] if faces is None else [line(x, faces, x, y + (4 if y > faces else -4)) for x in (x1, x2)]
    if x2 - x1 < _NARROW:
        marks = [arrow(x1 - 18, y, x1, y), arrow(x2 + 18, y, x2, y)]
        words = [text(x2 + 22, y + 4, label)] if label else []
    else:
        middle = (x1 + x2) / 2
        marks = [arrow(middle, y, x1, y), arrow(middle, y, x2, y)]
        words = [text(middle, y + 4, label, text_anchor="middle")]
    return _dimension(leads, marks, words)


def dimension_along(x: float, y1: float, y2: float, label: str, faces: float | None = None) -> Markup:
    """Arrows from y1 to y2 at x; the label stands to the right."""
    leads = [] if faces is None else [line(faces, y, x + (4 if x > faces else -4), y) for y in (y1, y2)]
    if y2 - y1 < 26:
        marks = [arrow(x, y1 - 16, x, y1), arrow(x, y2 + 16, x, y2)]
    else:
        marks = [arrow(x, (y1 + y2) / 2, x, y1), arrow(x, (y1 + y2) / 2, x, y2)]
    return _dimension(leads, marks, [text(x + 6, (y1 + y2) / 2 + 4, label)])


def _dimension(leads: Iterable[Markup], marks: Iterable[Markup], words: Iterable[Markup]) -> Markup:
    return group(
        group(*leads, stroke_width=0.7),
        group(*marks, stroke_width=1.8, class_="d-dim"),
        lettering(group(*words, font_weight="bold")),
        stroke="currentColor",
    )


def note(x: float, y: float, words: str, anchor: str = "start") -> Markup:
    return lettering(text(x, y, words, text_anchor=anchor))


def pointer(x1: float, y1: float, x2: float, y2: float) -> Markup:
    """A thin line from a word to the thing it names."""
    return group(
        line(x1, y1, x2, y2), ring(x2, y2, 1.6, fill="currentColor"), stroke="currentColor", stroke_width=0.9
    )


def sheet(
    name: str,
    prefix: str,
    title: str,
    desc: str,
    bottom: float,
    shapes: Sequence[Markup],
    foot: Sequence[str],
) -> Markup:
    """A whole explaining drawing under a safe prefix: its title on top, its shapes, and what to know below."""
    heads = wrap(title, RIGHT - LEFT, 13.5 * BOLD)
    feet = [row for sentence in foot for row in wrap(sentence, RIGHT - LEFT)]
    down = 18.0 * (len(heads) - 1)
    lines = [
        text(LEFT, 17 + 18.0 * i, row, font_size=13.5, font_weight="bold") for i, row in enumerate(heads)
    ]
    lines += [text(LEFT, bottom + down + 16 + 15 * i, row) for i, row in enumerate(feet)]
    return document(
        prefix,
        bottom + down + 22 + 15 * len(feet),
        title,
        desc,
        hatches(prefix, "link", "chain", "seal", "guide"),
        group(*shapes, transform=f"translate(0 {down:g})" if down else None),
        lettering(*lines),
        class_=f"drawing {name}",
        color="#14181d",
    )
