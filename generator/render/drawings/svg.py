"""A tiny SVG builder: every element goes through `el`, every text through `safe_text`."""

import re
from collections.abc import Iterable
from functools import lru_cache

from markupsafe import Markup, escape

Attr = str | int | float | None

WIDTH = 360.0  # of every drawing

# what XML 1.0 cannot hold at all, escaped or not
_NOT_XML = re.compile("[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
_NOT_ID = re.compile(r"[^A-Za-z0-9_-]")


def clean(text: str) -> str:
    """Text as typed; characters that XML forbids become the replacement character."""
    return _NOT_XML.sub("\ufffd", text)


@lru_cache(maxsize=1 << 13)  # classes, colours and words come again in every drawing
def safe_text(text: str) -> Markup:
    """Text as typed, escaped."""
    return escape(clean(text))


def safe_id(text: str) -> str:
    """An id that is also safe inside url(#...)."""
    return "d" + _NOT_ID.sub("-", text)


def num(value: float, decimals: int = 2) -> str:
    """A coordinate with a fixed number of decimals, trailing zeros and minus zero taken off."""
    text = f"{value:.{decimals}f}"
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def _attr(value: Attr) -> str:
    if isinstance(value, float):
        return num(value, 1)
    return str(safe_text(str(value)))


def el(name: str, *children: Markup, **attrs: Attr) -> Markup:
    """One element; class_ and data_dim become class and data-dim, None leaves an attribute out."""
    written = "".join(
        f' {key.rstrip("_").replace("_", "-")}="{_attr(value)}"'
        for key, value in attrs.items()
        if value is not None
    )
    inside = Markup("").join(children)
    if name == "g" and not (inside and written):
        return inside
    return Markup(f"<{name}{written}>{inside}</{name}>" if inside else f"<{name}{written}/>")


def group(*children: Markup, **attrs: Attr) -> Markup:
    return el("g", *children, **attrs)


def line(x1: Attr, y1: Attr, x2: Attr, y2: Attr, *children: Markup, **attrs: Attr) -> Markup:
    return el("line", *children, x1=x1, y1=y1, x2=x2, y2=y2, **attrs)


def rect(x: float, y: float, width: float, height: float, **attrs: Attr) -> Markup:
    return el("rect", x=x, y=y, width=max(0.0, width), height=max(0.0, height), **attrs)


def path(*steps: str | float, **attrs: Attr) -> Markup:
    """A path from letters and numbers, such as path("M", 0.0, 0.0, "H", 4.0)."""
    return el("path", d=_steps(steps), **attrs)


def _steps(steps: Iterable[str | float]) -> str:
    """Without a space where a letter or a minus sign parts two numbers anyway."""
    written = ""
    after_number = False
    for step in steps:
        word = step if isinstance(step, str) else num(step, 1)
        is_number = not isinstance(step, str)
        written += f" {word}" if is_number and after_number and not word.startswith("-") else word
        after_number = is_number
    return written


def box_path(boxes: Iterable[tuple[float, float, float, float]], **attrs: Attr) -> Markup:
    """Boxes of x, y, width and height that look alike, as one shape."""
    steps = [
        step
        for x, y, width, height in boxes
        for step in ("M", x, y, "h", max(0.0, width), "v", max(0.0, height), "h", -max(0.0, width), "z")
    ]
    return path(*steps, **attrs) if steps else Markup("")


def text(x: float, y: float, words: str, **attrs: Attr) -> Markup:
    return el("text", safe_text(words), x=round(x), y=y, **attrs)


def lettering(*children: Markup, size: float = 12.0) -> Markup:
    """Text with a rim of paper colour, so that it reads on hatching and on lines."""
    return group(
        *children,
        fill="currentColor",
        font_size=size,
        stroke="#fff",
        stroke_width=3.0,
        stroke_linejoin="round",
        class_="d-halo",
    )


def arrow(x1: float, y1: float, x2: float, y2: float, size: float = 5.0, **attrs: Attr) -> Markup:
    """A line with a filled head at its second end."""
    length = max(1e-9, ((x2 - x1) ** 2 + (y2 - y1) ** 2) ** 0.5)
    ux, uy = (x2 - x1) / length, (y2 - y1) / length
    bx, by = x2 - ux * size, y2 - uy * size
    wx, wy = -uy * size * 0.5, ux * size * 0.5
    head = path(
        "M", x2, y2, "L", bx + wx, by + wy, "L", bx - wx, by - wy, "Z", fill="currentColor", stroke="none"
    )
    return group(line(x1, y1, bx, by), head, **attrs)


def document(
    prefix: str, height: float, title: str, desc: str, *body: Markup, cut: float = 0.0, **attrs: Attr
) -> Markup:
    """The root element: an image with its title and its description in words; `cut` of it is left away on the left, for
    as much more on the right, and on top."""
    title_id, desc_id = f"{prefix}-title", f"{prefix}-desc"
    return el(
        "svg",
        el("title", safe_text(title), id=title_id),
        el("desc", safe_text(desc), id=desc_id),
        *body,
        xmlns="http://www.w3.org/2000/svg",
        viewBox=f"{num(cut)} {num(cut)} {num(WIDTH)} {num(height - cut)}",
        role="img",
        aria_labelledby=f"{title_id} {desc_id}",
        font_family="system-ui, sans-serif",
        fill="none",
        **attrs,
    )
