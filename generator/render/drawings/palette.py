"""How parts are told apart in every drawing: by hatching first, by colour second."""

from typing import Literal

from markupsafe import Markup

from generator.render.drawings.svg import el, path

Look = Literal["link", "chain", "seal", "washer", "clash", "guide"]

# look -> (fallback fill, hatch path inside its tile, hatch width, tile side); the link alone is plain
_HATCH: dict[Look, tuple[str, str, float, float]] = {
    "link": ("#cfe0f2", "", 0.8, 6.0),
    "chain": ("#ece6d8", "M-1 -1L9 9M7 -1L9 1M-1 7L1 9", 0.8, 8.0),
    "seal": ("#8f8f8f", "M1 1H2.6M3.2 3.2H4.8", 1.6, 4.0),
    "washer": ("#ffffff", "M0 2H4M2 0V4", 0.8, 4.0),
    "clash": ("#ffd9d4", "M-1 -1L6 6M-1 6L6 -1", 1.1, 5.0),
    "guide": ("#ffffff", "M-1 9L9 -1", 1.6, 8.0),
}


def clash_ink() -> dict[str, str]:
    """Everything inside draws in currentColor; the class gives it, the attribute stands in."""
    return {"class_": "d-clash-ink", "color": "#8a1414"}


def pattern_fill(prefix: str, look: Look) -> str:
    return f"url(#{prefix}-{look})"


def filled(prefix: str, look: Look, plain: bool = False) -> dict[str, str]:
    """The attributes of a shape: hatched, or in one tone where the drawing must be short; a clash is always hatched."""
    if plain and look != "clash":
        return {"fill": _HATCH[look][0], "class_": f"d-{look}"}
    return {"fill": pattern_fill(prefix, look)}


def hatches(prefix: str, *looks: Look) -> Markup:
    """The pattern definitions a drawing uses, under ids of its own."""
    return el("defs", *(_pattern(prefix, look) for look in looks))


def hatches_in(prefix: str, shapes: Markup, *more: Markup) -> Markup:
    """Those of the patterns that the shapes are filled with, and other definitions."""
    used = [look for look in _HATCH if f'"{pattern_fill(prefix, look)}"' in shapes]
    return el("defs", *(_pattern(prefix, look) for look in used), *more)


def _pattern(prefix: str, look: Look) -> Markup:
    fill, hatch, width, side = _HATCH[look]
    ink = clash_ink() if look == "clash" else {}
    return el(
        "pattern",
        path(f"M0 0h{side:g}v{side:g}H0z", fill=fill, class_=f"d-{look}"),
        *([path(hatch, stroke="currentColor", stroke_width=width, **ink)] if hatch else []),
        id=f"{prefix}-{look}",
        width=side,
        height=side,
        patternUnits="userSpaceOnUse",
    )
