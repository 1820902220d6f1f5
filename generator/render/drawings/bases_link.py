"""A connecting link from above, bare or with side plate and clip, and its pin ends."""

from markupsafe import Markup

from generator.render.drawings.diagram import body, shape
from generator.render.drawings.svg import group, line, rect

# along the pins (x)
FIXED = 74.0
GROOVE = (236.0, 258.0)
TIP = 290.0
CLIP = 12.0
SHOULDER = 198.0
SIDE_PLATE = 22.0
# the two pins (y of axis), half their thickness, depth of the groove
PINS = (68.0, 138.0)
HALF = 13.0
DEPTH = 5.0


def connecting_link(prefix: str, grooved: bool = True, shouldered: bool = False) -> Markup:
    """Fixed plate with its two pins and nothing else on them."""
    pins = [_pin(prefix, y, grooved) for y in PINS]
    heads = [body(prefix, "link", FIXED - 28, y - 16, 10.0, 32.0, rx=3.0) for y in PINS]
    steps = [
        line(SHOULDER, y - HALF, SHOULDER, y + HALF, stroke="currentColor", stroke_width=1.8) for y in PINS
    ]
    return group(
        *pins, *heads, body(prefix, "link", FIXED - 18, 42.0, 18.0, 122.0), *(steps if shouldered else [])
    )


def _pin(prefix: str, y: float, grooved: bool) -> Markup:
    low, high = y - HALF, y + HALF
    steps: list[str | float] = ["M", FIXED, low]
    if grooved:
        steps += ["H", GROOVE[0], "V", low + DEPTH, "H", GROOVE[1], "V", low, "H", TIP, "V", high]
        steps += ["H", GROOVE[1], "V", high - DEPTH, "H", GROOVE[0], "V", high]
    else:
        steps += ["H", TIP, "V", high]
    return shape(prefix, "link", *steps, "H", FIXED, "Z")


def clip_on(x: float) -> Markup:
    """A clip in both grooves with its near face at x, cut beside the pins."""
    return group(
        rect(x, PINS[0] - HALF - 10, CLIP, 10.0 + DEPTH),
        rect(x, PINS[0] + HALF - DEPTH, CLIP, PINS[1] - PINS[0] - 2 * HALF + 2 * DEPTH),
        rect(x, PINS[1] + HALF - DEPTH, CLIP, 10.0 + DEPTH),
        fill="#8f8f8f",
        class_="d-seal",
        stroke="currentColor",
        stroke_width=1.3,
    )


def side_plate(prefix: str, x: float) -> Markup:
    return body(prefix, "link", x, 42.0, SIDE_PLATE, 122.0)


def flared_pins(prefix: str) -> Markup:
    """Ends of hollow pins spread by a riveter, side plate under them."""
    edge = SHOULDER + SIDE_PLATE
    flares = [
        shape(
            prefix,
            "link",
            "M",
            edge,
            y - HALF,
            "L",
            edge + 26,
            y - HALF - 7,
            "V",
            y + HALF + 7,
            "L",
            edge,
            y + HALF,
            "Z",
        )
        for y in PINS
    ]
    stubs = [body(prefix, "link", FIXED, y - HALF, edge - FIXED, 2 * HALF) for y in PINS]
    plates = [body(prefix, "link", FIXED - 18, 42.0, 18.0, 122.0), side_plate(prefix, SHOULDER)]
    bores = [
        line(edge + 2, y + s * 8, edge + 26, y + s * 11, stroke="currentColor", stroke_dasharray="4 3")
        for y in PINS
        for s in (-1, 1)
    ]
    return group(*stubs, *plates, *flares, *bores)


def bores(depth: float) -> Markup:
    """Hidden edges of the bore in hollow pins."""
    return group(
        *(
            line(x1, y1, x2, y2)
            for y in PINS
            for x1, y1, x2, y2 in (
                (TIP - depth, y - 6, TIP, y - 6),
                (TIP - depth, y + 6, TIP, y + 6),
                (TIP - depth, y - 6, TIP - depth, y + 6),
            )
        ),
        stroke="currentColor",
        stroke_width=1.2,
        stroke_dasharray="4 3",
    )
