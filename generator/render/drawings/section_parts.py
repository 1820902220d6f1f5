"""The bodies of a joint cut along one pin: plates, inner link, pin, clip, seals, ghosts.

Goes in: faces and a sheet.  Comes out: shapes, hatched by part, dashed where a dimension is missing.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from markupsafe import Markup

from generator.render.drawings.palette import Look, filled, pattern_fill
from generator.render.drawings.section_geometry import BUSH_OUTSIDE, ROLLER_OUTSIDE, Faces
from generator.render.drawings.svg import box_path, el, group, line, path, rect
from generator.render.drawings.units import spelled

DASH = "4 3"

Ends = tuple[float, float]
Place = tuple[Ends, Ends]  # from x to x and from y to y, in mm


@dataclass(frozen=True, slots=True)
class Sheet:
    """Millimetres to drawing units; x0 and y0 are where the fixed plate's face and the pin's axis lie."""

    scale: float
    x0: float
    y0: float
    decimals: int
    prefix: str
    plain: bool = False  # parts in tones, not hatched

    def x(self, mm: float) -> float:
        return self.x0 + mm * self.scale

    def y(self, mm: float) -> float:
        return self.y0 + mm * self.scale

    def say(self, words: str) -> str:
        """A short page has no room for words in two units at one place: both stand there."""
        return spelled(words) if self.plain else words


def bodies(faces: Faces, sheet: Sheet) -> Markup:
    """Everything that is cut, from the back to the front."""
    return Markup("").join(
        (
            inner_link(faces, sheet),
            outer_plates(faces, sheet),
            seals(faces, sheet),
            pin(faces, sheet),
            clip(faces, sheet) if faces.has_clip else flare(faces, sheet),
        )
    )


def _plate_is_guess(faces: Faces) -> bool:
    if faces.plate_fit == "slip":
        return faces.missing("side_plate_thickness", "clip_thickness", "groove_width", "pin_reach")
    seat = "shoulder_depth" if faces.plate_fit == "press-to-shoulder" else "between_outer_plates"
    return faces.missing("side_plate_thickness", seat)


def _cut(sheet: Sheet, places: Iterable[Place], look: Look, dashed: bool) -> Markup:
    """Bodies of one kind, hatched."""
    attrs = filled(sheet.prefix, look, sheet.plain)
    return box_path(_boxes(sheet, places), stroke_dasharray=DASH if dashed else None, **attrs)


def _boxes(sheet: Sheet, places: Iterable[Place]) -> Iterator[tuple[float, float, float, float]]:
    for x, y in places:
        left, top = sheet.x(min(x)), sheet.y(min(y))
        yield left, top, abs(x[1] - x[0]) * sheet.scale, abs(y[1] - y[0]) * sheet.scale


def _torn(sheet: Sheet, edges: Iterable[tuple[Ends, float]]) -> Markup:
    """Torn edges: the plates go on to the other pin."""
    steps: list[str | float] = []
    for x, y in edges:
        x1, x2, top = sheet.x(min(x)) - 1, sheet.x(max(x)) + 1, sheet.y(y)
        step = (x2 - x1) / 4
        steps += ["M", x1, top, "l", step, -4.0, 2 * step, 8.0, step, -4.0]
    return path(*steps, stroke="#fff", stroke_width=3.0, class_="d-halo")


def outer_plates(faces: Faces, sheet: Sheet) -> Markup:
    """The fixed plate and the side plate; they end below the pin and go on above it."""
    half = faces.half_height
    sides = ((-faces.mm("side_plate_thickness"), 0.0), (faces.seat, faces.plate_outer))
    places = [(side, (-half, half * 0.92)) for side in sides]
    guesses = (faces.missing("side_plate_thickness"), _plate_is_guess(faces))
    if guesses[0] == guesses[1]:
        plates = _cut(sheet, places, "link", guesses[0])
    else:
        plates = Markup("").join(
            _cut(sheet, [place], "link", guess) for place, guess in zip(places, guesses, strict=True)
        )
    return plates + _torn(sheet, [(side, -half) for side in sides])


def inner_link(faces: Faces, sheet: Sheet) -> Markup:
    """Inner plates, which go on below the pin, with roller and bush between them."""
    half = faces.half_height
    plate = min(faces.mm("plate_thickness"), (faces.inner[1] - faces.inner[0]) / 3)
    sides = ((faces.inner[0], faces.inner[0] + plate), (faces.inner[1] - plate, faces.inner[1]))
    dashed = faces.missing("over_inner_plates")
    gap = plate * 1.08
    return Markup("").join(
        (
            _cut(sheet, [(side, (-half * 0.92, half)) for side in sides], "chain", dashed),
            _torn(sheet, [(side, half) for side in sides]),
            *_bush_and_roller(faces, sheet, (faces.inner[0] + gap, faces.inner[1] - gap)),
        )
    )


def _bush_and_roller(faces: Faces, sheet: Sheet, roller: tuple[float, float]) -> list[Markup]:
    """Both cut twice, above and below the pin, round a bore as wide as it was measured."""
    bore, width = faces.bore, faces.mm("bush_bore")
    bush, outside = width * (BUSH_OUTSIDE - 1) / 2, width * (ROLLER_OUTSIDE - 1) / 2
    dashed = faces.missing("over_bush_ends", "bush_bore")
    cuts = [((bore[0] - outside, bore[0] - bush), (bore[0] - bush, bore[0])),
            ((bore[1] + bush, bore[1] + outside), (bore[1], bore[1] + bush))]  # fmt: skip
    rollers = _hollow(sheet, [(roller, y) for y, _ in cuts])
    bushes = _cut(sheet, [(faces.bush, y) for _, y in cuts], "chain", dashed)
    return [rollers, bushes, _hollow(sheet, [(faces.bush, bore)])]


def _hollow(sheet: Sheet, places: Iterable[Place]) -> Markup:
    return box_path(_boxes(sheet, places), fill="#fff", class_="d-paper")


def pin(faces: Faces, sheet: Sheet) -> Markup:
    """The pin with its head in the fixed plate, its groove and, if it has one, its shoulder."""
    low, high = faces.pin
    head = -faces.mm("side_plate_thickness")
    x = [sheet.x(v) for v in (head, faces.reach, faces.groove_far, faces.tip)]
    y_low, y_high = sheet.y(low), sheet.y(high)
    dashed = DASH if faces.missing("pin_diameter", "pin_length") else None
    shape: list[str | float] = ["M", x[0], y_low]
    if faces.has_clip:
        g_low, g_high = (sheet.y(side * faces.mm("groove_diameter") / 2) for side in (-1, 1))
        shape += ["H", x[1], "V", g_low, "H", x[2], "V", y_low, "H", x[3], "V", y_high]
        shape += ["H", x[2], "V", g_high, "H", x[1], "V", y_high]
    else:
        shape += ["H", x[3], "V", y_high]
    return Markup("").join(
        (
            path(*shape, "H", x[0], "Z", fill="#cfe0f2", class_="d-link", stroke_dasharray=dashed),
            path("M", x[0] - 6, sheet.y0, "H", x[3] + 6, stroke_width=0.7, stroke_dasharray="9 3 2 3"),
            shoulder(faces, sheet),
        )
    )


def shoulder(faces: Faces, sheet: Sheet) -> Markup:
    if faces.plate_fit != "press-to-shoulder":
        return Markup("")
    x = sheet.x(faces.mm("shoulder_depth"))
    ends = (sheet.y(faces.pin[0]), sheet.y(faces.pin[1]))
    return line(x, ends[0], x, ends[1], stroke_width=2.0)


def clip(faces: Faces, sheet: Sheet) -> Markup:
    """The clip on both sides of the groove, bearing on the groove's far edge."""
    inside = faces.mm("groove_diameter") / 2
    outside = faces.clip_outside
    dashed = DASH if faces.missing("clip_thickness", "pin_reach", "groove_width") else None
    x, width = sheet.x(faces.clip_near), faces.mm("clip_thickness") * sheet.scale
    height = (outside - inside) * sheet.scale
    return box_path(
        [(x, y, width, height) for y in (sheet.y(-outside), sheet.y(inside))],
        fill="#fff" if dashed else "currentColor",
        class_="d-paper" if dashed else None,
        stroke_dasharray=dashed,
    )


def flare(faces: Faces, sheet: Sheet) -> Markup:
    """No clip: the pin end is to be flared, shown as a dashed collar beyond the plate."""
    x = sheet.x(faces.plate_outer)
    end = max(sheet.x(faces.tip), x)
    low, high = sheet.y(faces.pin[0] * 1.12), sheet.y(faces.pin[1] * 1.12)
    return path("M", x, low, "H", end, "V", high, "H", x, stroke_dasharray=DASH)


def seals(faces: Faces, sheet: Sheet) -> Markup:
    """Seals squeezed to the room they have, washers, or an empty outline where seals were left out."""
    if faces.seals == "none":
        return Markup("")
    rooms = ((0.0, faces.inner[0]), (faces.inner[1], faces.seat))
    where = faces.mm("bush_bore") * BUSH_OUTSIDE / 2
    attrs = {} if faces.seals == "left-out" else filled(sheet.prefix, "seal", sheet.plain)
    drawn = (_seal(faces, sheet, low, high, side * where) for low, high in rooms for side in (-1, 1))
    return group(*drawn, **attrs)


def _seal(faces: Faces, sheet: Sheet, low: float, high: float, y: float) -> Markup:
    room, free = max(0.0, high - low), faces.mm("seal_thickness")
    middle = (low + high) / 2
    if faces.seals == "packed":
        half = faces.mm("washer_thickness") / 2
        place = ((middle - half, middle + half), (y * 1.02, y * 1.45))
        return _cut(sheet, [place], "washer", faces.missing("washer_thickness"))
    # squeezed rubber keeps its section: as much higher as it is narrower
    width = min(room, free)
    height = min(free if width <= 0 else free * free / width, free * 1.8, faces.half_height * 0.4)
    out = faces.seals == "left-out"
    return el(
        "ellipse",
        cx=sheet.x(middle),
        cy=sheet.y(y * 1.04 + (height / 2 if y > 0 else -height / 2)),
        rx=(free if out else width) / 2 * sheet.scale,
        ry=(min(free, height) if out else height) / 2 * sheet.scale,
        stroke_dasharray="2 2" if out else DASH if faces.missing("seal_thickness") else None,
    )


def ghosts(faces: Faces, sheet: Sheet, top: float, bottom: float) -> Markup:
    """The neighbour's width and heads as thin lines, and the nearest part of the bike."""
    b3 = faces.mm("between_outer_plates")
    steps: list[str | float] = ["M", sheet.x(b3), top, "V", bottom]
    for x in faces.heads:
        head = faces.half_height * 0.6
        steps += ["M", sheet.x(x), sheet.y(-head), "V", sheet.y(head)]
    shapes = [path(*steps, stroke_width=1.0, stroke_dasharray="7 3")]
    if faces.guide is not None:
        x = sheet.x(faces.guide)
        if not sheet.plain:
            fill = pattern_fill(sheet.prefix, "guide")
            shapes.append(rect(x, top, 8.0, bottom - top, fill=fill, stroke="none"))
        shapes.append(path("M", x, top, "V", bottom, stroke_width=1.6))
    return Markup("").join(shapes)
