"""A joint cut along one pin, to scale: numbered dots for the reasons beside it, and the one width the hand needs."""

from collections.abc import Mapping
from dataclasses import dataclass

from markupsafe import Markup

from generator.model.shipped import Drawn
from generator.render.drawings.section.geometry import BUSH_OUTSIDE, Faces, faces_of
from generator.render.drawings.section.input import SectionDimensions
from generator.render.drawings.section.shapes import Sheet, below, bodies
from generator.render.drawings.svg import el, num, path, safe_text

WIDTH = 330.0  # in units of 1 px on a phone of 360
DOT = 11.5
_EDGE, _TOP, _BARE_TOP, _MOST_SCALE = 9.0, 64.0, 28.0, 14.0
_HATCH = Markup(
    '<defs><pattern id="hatch" width="7" height="7" patternUnits="userSpaceOnUse">'
    '<path class="d-hatch" d="M-1 8L8 -1"/></pattern></defs>'
)


@dataclass(frozen=True, slots=True)
class Dot:
    """Where a number stands, and the place it points at if that is elsewhere."""

    x: float
    y: float
    of: tuple[float, float] | None = None


def section_drawing(
    dims: SectionDimensions, title: str, width: str = "", numbers: Mapping[Drawn, int] | None = None
) -> Markup:
    """`width` is what stands over both outer plates, `numbers` those of the reasons by their place."""
    faces = faces_of(dims)
    sheet = _sheet(faces, _TOP if width else _BARE_TOP)
    places = _dots(faces, sheet)
    dots = [_dot(places[place], number) for place, number in (numbers or {}).items() if place in places]
    end = sheet.y(below(faces)) + 34
    return el(
        "svg",
        el("title", safe_text(title)),
        _HATCH,
        bodies(faces, sheet),
        _across(faces, sheet, width),
        _room(faces, sheet),
        *dots,
        viewBox=f"0 0 {num(WIDTH)} {num(end, 0)}",
        role="img",
    )


def _sheet(faces: Faces, top: float) -> Sheet:
    """As large as the width allows."""
    left = min(-faces.mm("side_plate_thickness"), faces.seat, faces.bush[0]) - 0.4
    right = max(faces.tip, faces.plate_outer, faces.groove_far, left + 1.0)
    spare = 2 * _EDGE + (14 if faces.guide is not None else 2 * DOT)
    right = right if faces.guide is None else max(right, faces.guide)
    scale = min(_MOST_SCALE, (WIDTH - spare) / (right - left))
    return Sheet(scale, _EDGE - left * scale, top + faces.half_height * scale)


def _across(faces: Faces, sheet: Sheet, width: str) -> Markup:
    if not width:
        return Markup("")
    left, right = sheet.x(-faces.mm("side_plate_thickness")), sheet.x(faces.plate_outer)
    top = sheet.y(-faces.half_height)
    leads = path("M", left, 26.0, "V", top, "M", right, 26.0, "V", top, class_="d-line")
    arrow = path(
        "M", left, 34.0, "H", right, "M", left + 9, 29.0, "L", left, 34.0, "L", left + 9, 39.0,
        "M", right - 9, 29.0, "L", right, 34.0, "L", right - 9, 39.0, class_="d-line",
    )  # fmt: skip
    words = el("text", safe_text(width), x=max((left + right) / 2, 100.0), y=21.0, class_="d-text d-mid")
    return leads + arrow + words


def _room(faces: Faces, sheet: Sheet) -> Markup:
    """From the pin's tip to the bike."""
    if faces.guide is None:
        return Markup("")
    tip, guide = sheet.x(faces.tip), sheet.x(faces.guide)
    y = sheet.y(below(faces)) + 16
    steps: list[str | float] = [
        "M",
        tip,
        sheet.y(faces.pin[1]),
        "V",
        y + 7,
        "M",
        guide,
        y - 16,
        "V",
        y + 7,
        "M",
        tip,
        y,
        "H",
        guide,
    ]
    return path(*steps, class_="d-line")


def _dots(faces: Faces, sheet: Sheet) -> Mapping[Drawn, Dot]:
    """None stands on another: the upper row goes from left to right."""
    top = sheet.y(-faces.half_height)
    bush = (faces.bush[0] + faces.bush[1]) / 2
    plate = sheet.x((faces.seat + faces.plate_outer) / 2)
    closing = sheet.x((faces.clip_near + faces.groove_far) / 2 if faces.has_clip else faces.tip)
    clip_top = sheet.y(-faces.clip_outside if faces.has_clip else faces.pin[0])
    ring = sheet.y(-faces.mm("bush_bore") * BUSH_OUTSIDE / 2) - 8
    seal = sheet.x(faces.inner[0] / 2)
    seals, plate, clip = _apart(max(seal, DOT + 1), plate, closing + 16)
    found: dict[Drawn, Dot] = {
        # a bush longer than all else reaches off the sheet, its pin too
        "pin": Dot(min(sheet.x(bush), WIDTH - DOT - 2), sheet.y0),
        "plate": Dot(plate, top + DOT + 6),
        "clip": Dot(clip, top + DOT + 6, (closing, clip_top)),
        "seals": Dot(seals, top + DOT + 6, (seal, ring - 4)),
    }
    return found | {"room": _room_dot(faces, sheet)}


def _apart(seals: float, plate: float, clip: float) -> tuple[float, float, float]:
    """Moved as little as keeps the numbers of the upper row beside each other and inside."""
    wide = 2 * DOT + 1.5
    clip = min(max(clip, plate + wide, seals + 2 * wide), WIDTH - DOT - 2)
    plate = min(max(plate, seals + wide), clip - wide)
    plate = max(plate, DOT + 1 + wide)
    return max(min(seals, plate - wide), DOT + 1), plate, max(clip, plate + wide)


def _room_dot(faces: Faces, sheet: Sheet) -> Dot:
    y = sheet.y(below(faces)) + 16
    if faces.guide is None:
        return Dot(WIDTH - DOT - 2, y - DOT, (sheet.x(faces.tip), sheet.y(faces.pin[1] / 2)))
    return Dot((sheet.x(faces.tip) + sheet.x(faces.guide)) / 2, y - 2 * DOT)


def _dot(dot: Dot, number: int) -> Markup:
    lead = path("M", dot.of[0], dot.of[1], "L", dot.x, dot.y, class_="d-line") if dot.of else Markup("")
    disc = el("circle", class_="d-dot", cx=dot.x, cy=dot.y, r=DOT)
    return lead + disc + el("text", safe_text(str(number)), class_="d-dot-n", x=dot.x, y=dot.y + 5.3)
