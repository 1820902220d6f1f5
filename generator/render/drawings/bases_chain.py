"""Bodies of a chain as they are held up to a gauge: inner link end, outer link, plates seen flat, a taut run."""

from itertools import pairwise

from markupsafe import Markup

from generator.render.drawings.diagram import body, hollow, ring, shape, torn
from generator.render.drawings.svg import group, line, rect

# inner link end from above: plate flats, bush rims, plate insides (x); roller (y)
PLATES = (118.0, 242.0)
RIMS = (108.0, 252.0)
INSIDES = (138.0, 222.0)
ROLLER = (62.0, 134.0)
# outer link from above: outsides and insides of its plates, inner plates, riveted heads
OUTER = (104.0, 256.0)
BETWEEN = (122.0, 238.0)
NEAR_PLATES = (132.0, 228.0)
HEADS = (92.0, 268.0)


def inner_end(prefix: str) -> Markup:
    """A bare end: two plates torn off below, the bush standing proud of both, the roller between them."""
    plates = [body(prefix, "chain", x, 42.0, 20.0, 122.0) for x in (PLATES[0], INSIDES[1])]
    return group(
        *plates,
        torn(PLATES[0], INSIDES[0], 164.0),
        torn(INSIDES[1], PLATES[1], 164.0),
        rect(142.0, ROLLER[0], 76.0, ROLLER[1] - ROLLER[0], fill="#fff", class_="d-paper", stroke="currentColor", stroke_width=1.3),
        body(prefix, "chain", RIMS[0], 76.0, RIMS[1] - RIMS[0], 44.0),
        rect(142.0, ROLLER[0], 76.0, ROLLER[1] - ROLLER[0], fill="#fff", class_="d-paper", stroke="currentColor", stroke_width=1.3),
        *(line(x1, y, x2, y, stroke="currentColor", stroke_dasharray="4 3") for y in (84.0, 112.0) for x1, x2 in ((RIMS[0], 142.0), (218.0, RIMS[1]))),
    )  # fmt: skip


def outer_link(prefix: str) -> Markup:
    """Two pins, two plates over the inner links of both sides, heads riveted over."""
    pins = [body(prefix, "link", HEADS[0] + 4, y - 11, HEADS[1] - HEADS[0] - 8, 22.0) for y in (64.0, 142.0)]
    heads = [
        body(prefix, "link", x, y - 14, 12.0, 28.0, rx=3.0)
        for x in (HEADS[0], OUTER[1])
        for y in (64.0, 142.0)
    ]
    inner = [
        body(prefix, "chain", x, y, 14.0, 46.0)
        for x in (NEAR_PLATES[0], NEAR_PLATES[1] - 14)
        for y in (38.0, 122.0)
    ]
    outer = [body(prefix, "link", x, 42.0, 18.0, 122.0) for x in (OUTER[0], BETWEEN[1])]
    return group(*pins, *inner, *outer, *heads)


def plate_face(prefix: str, holes: bool = False) -> Markup:
    """A plate seen flat: two round ends and a waist; riveted pin heads, or bare holes."""
    outline = shape(
        prefix, "link", "M", 110.0, 56.0, "C", 150.0, 56.0, 150.0, 66.0, 180.0, 66.0, "S", 210.0, 56.0, 250.0, 56.0,
        "A 44 44 0 0 1", 250.0, 144.0, "C", 210.0, 144.0, 210.0, 134.0, 180.0, 134.0,
        "S", 150.0, 144.0, 110.0, 144.0, "A 44 44 0 0 1", 110.0, 56.0, "Z",
    )  # fmt: skip
    ends = [hollow(x, 100.0, 17.0) if holes else _head(x) for x in (110.0, 250.0)]
    return group(outline, *ends)


def _head(x: float) -> Markup:
    return group(hollow(x, 100.0, 19.0), ring(x, 100.0, 12.0))


def bush_face(prefix: str) -> Markup:
    """An inner link end seen flat: plate, bush ring and bore."""
    plate = shape(
        prefix, "chain", "M", 300.0, 66.0, "C", 250.0, 66.0, 230.0, 52.0, 180.0, 48.0,
        "A 54 54 0 1 0", 180.0, 156.0, "C", 230.0, 152.0, 250.0, 138.0, 300.0, 138.0, "Z",
    )  # fmt: skip
    return group(plate, hollow(174.0, 102.0, 40.0), hollow(174.0, 102.0, 30.0))


def taut_run(prefix: str, xs: tuple[float, ...], y: float) -> Markup:
    """A run of chain from the side: inner and outer plates in turn, a roller at every joint."""
    shapes = []
    for i, (x1, x2) in enumerate(pairwise(xs)):
        shapes.append(link_side(prefix, x1, x2, y, outer=bool(i % 2)))
    return group(*shapes, *(group(ring(x, y, 7.5), hollow(x, y, 4.0)) for x in xs))


def link_side(prefix: str, x1: float, x2: float, y: float, outer: bool) -> Markup:
    """One pitch from the side: an outer link shows pin heads, an inner link its bushes."""
    r = 11.0 if outer else 13.0
    waist = 0.55 * r
    middle = (x1 + x2) / 2
    plate = shape(
        prefix, "link" if outer else "chain",
        "M", x1, y - r, "Q", middle, y - waist, x2, y - r, f"A {r:g} {r:g} 0 0 1", x2, y + r,
        "Q", middle, y + waist, x1, y + r, f"A {r:g} {r:g} 0 0 1", x1, y - r, "Z",
    )  # fmt: skip
    joints = [hollow(x, y, 4.0 if outer else 7.5) for x in (x1, x2)]
    return group(plate, *joints)
