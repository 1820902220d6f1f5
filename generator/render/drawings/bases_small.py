"""Clip, seal, tool and bike as they are held up to a gauge."""

from markupsafe import Markup

from generator.render.drawings.diagram import body, hollow, ring, shape
from generator.render.drawings.svg import el, group, line, path, rect

# clip seen flat: its two seats (x), their radius, and the narrowest place between the tips
SEATS = (118.0, 224.0)
SEAT = 19.0
AXIS = 100.0
MOUTH = (248.0, 11.0)


def clip_flat(prefix: str) -> Markup:
    """A spring clip from the front: closed end left, two legs, tips apart at the right."""
    x1, x2 = SEATS
    m, gap = MOUTH
    return shape(
        prefix, "link",
        # outside: round the closed end, along the upper leg to the flared tip
        "M", x1, AXIS - 36, "C", x1 + 40, AXIS - 36, x2 - 40, AXIS - 34, x2, AXIS - 34,
        "C", x2 + 20, AXIS - 34, m + 26, AXIS - 46, m + 44, AXIS - 46, "L", m + 48, AXIS - 36,
        # inside: down to the mouth, round the far seat, along the slot, round the near seat, and back below
        "C", m + 30, AXIS - 26, m + 12, AXIS - gap, m, AXIS - gap,
        "L", x2 + 15, AXIS - 12, f"A {SEAT:g} {SEAT:g} 0 0 0", x2 - 17, AXIS - 9,
        "L", x1 + 17, AXIS - 9, f"A {SEAT:g} {SEAT:g} 0 1 0", x1 + 17, AXIS + 9,
        "L", x2 - 17, AXIS + 9, f"A {SEAT:g} {SEAT:g} 0 0 0", x2 + 15, AXIS + 12,
        "L", m, AXIS + gap, "C", m + 12, AXIS + gap, m + 30, AXIS + 26, m + 48, AXIS + 36,
        "L", m + 44, AXIS + 46, "C", m + 26, AXIS + 46, x2 + 20, AXIS + 34, x2, AXIS + 34,
        "C", x2 - 40, AXIS + 34, x1 + 40, AXIS + 36, x1, AXIS + 36,
        "A 36 36 0 0 1", x1, AXIS - 36, "Z",
    )  # fmt: skip


def clip_edge(prefix: str, bow: float) -> Markup:
    """A clip from its edge, lying on glass, bowed up in the middle."""
    y = 128.0
    strip = shape(
        prefix, "link", "M", 90.0, y - 14, "Q", 180.0, y - 14 - 2 * bow, 270.0, y - 14, "V", y,
        "Q", 180.0, y - 2 * bow, 90.0, y, "Z",
    )  # fmt: skip
    return group(strip, line(50.0, y + 1, 310.0, y + 1, stroke="currentColor", stroke_width=1.6))


def seal_flat(prefix: str) -> Markup:
    """A ring seal seen flat."""
    return group(ring(180.0, 104.0, 56.0, fill=f"url(#{prefix}-seal)"), hollow(180.0, 104.0, 36.0))


def seal_edge(prefix: str) -> Markup:
    """A ring seal on its edge: its thickness lies across."""
    return rect(
        164.0,
        48.0,
        32.0,
        112.0,
        rx=15.0,
        fill=f"url(#{prefix}-seal)",
        stroke="currentColor",
        stroke_width=1.3,
    )


def press(prefix: str) -> Markup:
    """A screw press: an open frame, its screw from the right and a pushing pin."""
    return group(
        shape(prefix, "link", "M", 70.0, 50.0, "H", 250.0, "V", 88.0, "H", 226.0, "V", 74.0, "H", 96.0, "V", 134.0, "H", 226.0, "V", 120.0, "H", 250.0, "V", 158.0, "H", 70.0, "Z"),
        body(prefix, "link", 214.0, 88.0, 76.0, 32.0),
        body(prefix, "link", 190.0, 96.0, 24.0, 16.0),
        rect(290.0, 80.0, 22.0, 48.0, fill="#fff", class_="d-paper", stroke="currentColor", stroke_width=1.3),
        *(line(x, 88.0, x - 6, 120.0, stroke="currentColor") for x in (236.0, 248.0, 260.0, 272.0, 284.0)),
    )  # fmt: skip


# bike from the side: front sprocket, rear axle, their radii
FRONT = (86.0, 104.0, 17.0)
REAR = (252.0, 104.0, 38.0)


def bike_side(tyre: bool = False) -> Markup:
    """Sprockets, chain and swingarm, the front of the bike to the left; the front of the rear tyre where asked for."""
    (fx, fy, fr), (rx, ry, rr) = FRONT, REAR
    tread = path(
        "M", rx - 26, ry - 69.3, "A 74 74 0 0 0", rx - 26, ry + 69.3, stroke_width=5.0, stroke_dasharray="5 2"
    )
    return group(
        tread if tyre else Markup(""),
        path("M", fx - 10, fy - 7, "L", rx + 34, ry - 8, "V", ry + 8, "L", fx - 10, fy + 7, "Z", fill="#fff", class_="d-paper"),
        rect(rx - 20, ry - 6, 46.0, 12.0, rx=6.0),
        el("circle", cx=fx, cy=fy, r=fr),
        el("circle", cx=rx, cy=ry, r=rr),
        line(fx - 2, fy - fr, rx - 3, ry - rr, stroke_width=3.0, stroke_dasharray="6 2"),
        line(fx - 2, fy + fr, rx - 3, ry + rr, stroke_width=3.0, stroke_dasharray="6 2"),
        el("circle", cx=fx, cy=fy, r=2.5, fill="currentColor"),
        el("circle", cx=rx, cy=ry, r=4.5, fill="currentColor"),
        stroke="currentColor",
        stroke_width=1.4,
    )  # fmt: skip
