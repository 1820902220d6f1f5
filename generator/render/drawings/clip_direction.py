"""Which way round a spring clip goes: its closed end leads, whichever run of the chain it is on."""

from markupsafe import Markup

from generator.render.drawings.diagram import SCHEMATIC, hollow, note, sheet
from generator.render.drawings.svg import arrow, el, group, line, path, safe_id

# front sprocket and rear sprocket: centre and radius
_FRONT = (96.0, 150.0, 19.0)
_REAR = (264.0, 150.0, 36.0)
_TITLE = "The closed end of the clip leads"
_DESC = (
    "Seen from the left side of a bike, front to the left. The chain runs forward on the top run and "
    "rearward on the bottom run. The closed, round end of the clip points the way the chain runs: "
    "forward on the top run, rearward on the bottom run. The open end trails, so that what the chain "
    "brushes against pushes the clip on and not off. Schematic, not to scale."
)


def clip_direction_drawing(prefix: str = "clip-direction") -> Markup:
    """A clip the right way round on both runs, larger than life above and below the loop."""
    shapes = [
        _loop(),
        note(16.0, 154.0, "front"),
        note(344.0, 154.0, "rear", "end"),
        note(180.0, 44.0, "top run: the chain moves forward", "middle"),
        _clip_on_run(74.0, 124.0, -1.0),
        note(180.0, 264.0, "bottom run: the chain moves rearward", "middle"),
        _clip_on_run(226.0, 177.0, 1.0),
    ]
    foot = [
        "The open end trails: what the chain brushes against pushes the clip on, not off.",
        f"Seen from the left; from the right it is the mirror image. {SCHEMATIC}",
    ]
    return sheet("clip-direction", safe_id(prefix), _TITLE, _DESC, 274.0, shapes, foot)


def _loop() -> Markup:
    (fx, fy, fr), (rx, ry, rr) = _FRONT, _REAR
    runs = [
        line(fx - 2, fy + s * fr, rx - 3, ry + s * rr, stroke_width=4.0, stroke_dasharray="7 2")
        for s in (-1, 1)
    ]
    wheels = [el("circle", cx=x, cy=y, r=r) for x, y, r in (_FRONT, _REAR)]
    hubs = [el("circle", cx=x, cy=y, r=3.0, fill="currentColor") for x, y, _ in (_FRONT, _REAR)]
    turns = [_turn(x, y, r * 0.62) for x, y, r in (_FRONT, _REAR)]
    return group(*runs, *wheels, *hubs, *turns, stroke="currentColor", stroke_width=1.4)


def _turn(x: float, y: float, r: float) -> Markup:
    """Both wheels turn against the clock when the bike goes forward, to the left."""
    bend = path("M", x + r, y, f"A {r:g} {r:g} 0 0 0", x - r * 0.71, y - r * 0.71)
    return group(bend, arrow(x - r * 0.5, y - r * 0.87, x - r * 0.95, y - r * 0.3))


def _clip_on_run(y: float, run: float, way: float) -> Markup:
    """A clip at y, a line to its place on the run; way is -1 when the chain moves to the left, else 1."""
    lead = line(180.0, y + (20 if run > y else -20), 180.0, run, stroke="currentColor", stroke_width=0.9)
    ahead, behind = ("start", "end") if way > 0 else ("end", "start")
    return group(
        lead,
        _clip(y, way),
        arrow(180 + way * 58, y, 180 + way * 96, y, size=10.0, stroke="currentColor", stroke_width=3.0),
        note(180 + way * 102, y + 4, "closed", ahead),
        note(180 - way * 66, y + 4, "open", behind),
    )


def _clip(y: float, way: float) -> Markup:
    """Round and closed on the side the chain moves to, tips apart on the other."""
    tips, legs, bend = (180 + way * along for along in (-56.0, -44.0, 34.0))
    sweep = 1 if way > 0 else 0
    outline = path(
        "M", tips, y - 18, "L", legs, y - 13, "H", bend, f"A 13 13 0 0 {sweep}", bend, y + 13,
        "H", legs, "L", tips, y + 18,
        stroke_width=6.0, stroke_linejoin="round",
    )  # fmt: skip
    pins = [hollow(180 + way * along, y, 8.0) for along in (-26.0, 31.0)]
    return group(outline, *pins, stroke="currentColor")
