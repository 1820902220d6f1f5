"""The bodies of a joint cut along one pin: plates, inner link, bush, pin, clip, seals, and the nearest part of the bike.

The upper half stands whole; the lower ends below the bush, since it says nothing more.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from markupsafe import Markup

from generator.render.drawings.section.geometry import BUSH_OUTSIDE, ROLLER_OUTSIDE, Faces
from generator.render.drawings.svg import box_path, el, path

Ends = tuple[float, float]
Place = tuple[Ends, Ends]  # from x to x and from y to y, in mm
DASH = "5 4"
_BELOW_MM = 2.0  # of plates and inner link, below the bush


@dataclass(frozen=True, slots=True)
class Sheet:
    """Millimetres to drawing units; x0 and y0 are where the fixed plate's face and the pin's axis lie."""

    scale: float
    x0: float
    y0: float

    def x(self, mm: float) -> float:
        return self.x0 + mm * self.scale

    def y(self, mm: float) -> float:
        return self.y0 + mm * self.scale


def below(faces: Faces) -> float:
    """How far below the axis the drawing goes, in mm."""
    return faces.mm("bush_bore") * BUSH_OUTSIDE / 2 + _BELOW_MM


def bodies(faces: Faces, sheet: Sheet) -> Markup:
    """From the back to the front."""
    parts = (_bike(faces, sheet), *_link_plates(faces, sheet), *_inner_link(faces, sheet), _seals(faces, sheet),
             _pin(faces, sheet), _neighbour(faces, sheet), *_closing(faces, sheet))  # fmt: skip
    return Markup("").join(parts)


def _cut(sheet: Sheet, places: Iterable[Place], look: str, dashed: bool = False) -> Markup:
    """Bodies of one kind as one shape; those of the chain and the bike are hatched."""
    boxes = tuple(_boxes(sheet, places))
    dash = DASH if dashed else None
    drawn = box_path(boxes, class_=f"d-{look}", stroke_dasharray=dash)
    return drawn + box_path(boxes, class_="d-hat") if look == "chain" else drawn


def _boxes(sheet: Sheet, places: Iterable[Place]) -> Iterator[tuple[float, float, float, float]]:
    for x, y in places:
        yield sheet.x(min(x)), sheet.y(min(y)), abs(x[1] - x[0]) * sheet.scale, abs(y[1] - y[0]) * sheet.scale


def _link_plates(faces: Faces, sheet: Sheet) -> Iterator[Markup]:
    high = (-faces.half_height, below(faces))
    fixed = ((-faces.mm("side_plate_thickness"), 0.0), high)
    side = ((faces.seat, faces.plate_outer), high)
    seat = "shoulder_depth" if faces.plate_fit == "press-to-shoulder" else "between_outer_plates"
    unread = faces.missing("side_plate_thickness", seat)
    if unread == faces.missing("side_plate_thickness"):
        yield _cut(sheet, (fixed, side), "link", unread)
    else:
        yield _cut(sheet, (fixed,), "link") + _cut(sheet, (side,), "link", dashed=True)


def _inner_link(faces: Faces, sheet: Sheet) -> Iterator[Markup]:
    """Inner plates, the roller between them, and the bush, which is cut above and below the pin."""
    left, right = faces.inner
    plate = min(faces.mm("plate_thickness"), (right - left) / 3)
    width, (up, down) = faces.mm("bush_bore"), faces.bore
    bush, roller = width * (BUSH_OUTSIDE - 1) / 2, width * (ROLLER_OUTSIDE - 1) / 2
    high = (-faces.half_height * 0.96, below(faces))
    yield _cut(
        sheet,
        (((left, left + plate), high), ((right - plate, right), high)),
        "chain",
        faces.missing("over_inner_plates"),
    )
    inside = (left + plate * 1.05, right - plate * 1.05)
    yield _cut(sheet, ((inside, (up - roller, up - bush)), (inside, (down + bush, below(faces)))), "void")
    yield _cut(
        sheet,
        ((faces.bush, (up - bush, up)), (faces.bush, (down, down + bush))),
        "chain",
        faces.missing("over_bush_ends", "bush_bore"),
    )
    yield _cut(sheet, ((faces.bush, (up, down)),), "void")


def _seals(faces: Faces, sheet: Sheet) -> Markup:
    """Squeezed to the room they have, washers, or an empty outline where they were left out."""
    if faces.seals == "none":
        return Markup("")
    y = -faces.mm("bush_bore") * BUSH_OUTSIDE / 2
    rooms = ((0.0, faces.inner[0]), (faces.inner[1], faces.seat))
    if faces.seals == "packed":
        half = faces.mm("washer_thickness") / 2
        middles = [(low + high) / 2 for low, high in rooms]
        return _cut(
            sheet,
            [((m - half, m + half), (y - 1.9, y - 0.1)) for m in middles],
            "seal",
            faces.missing("washer_thickness"),
        )
    return Markup("").join(_seal(faces, sheet, low, high, y) for low, high in rooms)


def _seal(faces: Faces, sheet: Sheet, low: float, high: float, y: float) -> Markup:
    """Squeezed rubber keeps its section: as much higher as it is narrower."""
    free, out = faces.mm("seal_thickness"), faces.seals == "left-out"
    width = free if out else min(max(0.05, high - low), free)
    height = min(free * free / width, free * 1.8)
    dash = DASH if out or faces.missing("seal_thickness") else None
    return el(
        "ellipse", cx=sheet.x((low + high) / 2), cy=sheet.y(y - height / 2 - 0.1), rx=width / 2 * sheet.scale,
        ry=height / 2 * sheet.scale, class_="d-ghost" if out else "d-seal", stroke_dasharray=dash,
    )  # fmt: skip


def _pin(faces: Faces, sheet: Sheet) -> Markup:
    """With its head in the fixed plate, its groove and its shoulder where it has them, and its axis."""
    head = -faces.mm("side_plate_thickness") - 0.35
    x = [sheet.x(v) for v in (head, faces.reach, faces.groove_far, faces.tip)]
    top, bottom = (sheet.y(v) for v in faces.pin)
    dash = DASH if faces.missing("pin_diameter", "pin_length") else None
    shape: list[str | float] = ["M", x[0], top, "H", x[3], "V", bottom, "H", x[0], "Z"]
    if faces.has_clip:
        above, under = (sheet.y(side * faces.mm("groove_diameter") / 2) for side in (-1, 1))
        shape = ["M", x[0], top, "H", x[1], "V", above, "H", x[2], "V", top, "H", x[3], "V", bottom,
                 "H", x[2], "V", under, "H", x[1], "V", bottom, "H", x[0], "Z"]  # fmt: skip
    drawn = path(*shape, class_="d-link", stroke_dasharray=dash)
    if faces.plate_fit == "press-to-shoulder":
        drawn += path("M", sheet.x(faces.mm("shoulder_depth")), top, "V", bottom, class_="d-line")
    return drawn + path("M", x[0] - 6, sheet.y0, "H", x[3] + 8, class_="d-ghost")


def _closing(faces: Faces, sheet: Sheet) -> Iterator[Markup]:
    """The clip on the far edge of its groove, and where it and the plate want the same room; or the end to be flared."""
    if not faces.has_clip:
        low, high = (sheet.y(v * 1.12) for v in faces.pin)
        yield path("M", sheet.x(faces.plate_outer), low, "H", sheet.x(max(faces.tip, faces.plate_outer)), "V", high,
                   "H", sheet.x(faces.plate_outer), class_="d-ghost")  # fmt: skip
        return
    inside, outside = faces.mm("groove_diameter") / 2, faces.clip_outside
    sides = ((-outside, -inside), (inside, min(outside, below(faces))))
    ends = (faces.clip_near, faces.clip_near + faces.mm("clip_thickness"))
    unread = faces.missing("clip_thickness", "pin_reach", "groove_width")
    yield _cut(sheet, [(ends, y) for y in sides], "void" if unread else "clip", dashed=unread)
    if faces.clip_near < faces.plate_outer - 0.02:
        clash = (faces.clip_near, min(faces.plate_outer, ends[1]))
        yield _cut(sheet, [(clash, y) for y in sides], "gone")


def _neighbour(faces: Faces, sheet: Sheet) -> Markup:
    """Where the neighbours' plates have their inner face, if this plate is not level with them."""
    level = faces.mm("between_outer_plates")
    if abs(level - faces.seat) < 0.1 or faces.missing("between_outer_plates"):
        return Markup("")
    return path(
        "M", sheet.x(level), sheet.y(-faces.half_height - 0.6), "V", sheet.y(below(faces)), class_="d-ghost"
    )


def _bike(faces: Faces, sheet: Sheet) -> Markup:
    if faces.guide is None:
        return Markup("")
    high = (-faces.half_height - 1.5, below(faces))
    return _cut(sheet, [((faces.guide, faces.guide + 14 / sheet.scale), high)], "chain")
