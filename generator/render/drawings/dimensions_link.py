"""How each dimension of a connecting link and its side plate is read."""

from collections.abc import Mapping

from markupsafe import Markup

from generator.render.drawings.bases_chain import BETWEEN, NEAR_PLATES, OUTER, outer_link, plate_face
from generator.render.drawings.bases_link import (
    CLIP,
    DEPTH,
    FIXED,
    GROOVE,
    HALF,
    PINS,
    SHOULDER,
    SIDE_PLATE,
    TIP,
    bores,
    clip_on,
    connecting_link,
    flared_pins,
    side_plate,
)
from generator.render.drawings.diagram import (
    body,
    dimension_across,
    dimension_along,
    feelers,
    jaws_across,
    jaws_along,
    note,
    rod_across,
)
from generator.render.drawings.svg import arrow, group
from generator.render.drawings.view import View

_MIDDLE = (PINS[0] + PINS[1]) / 2


def _pin_diameter(p: str) -> Markup:
    low, high = PINS[0] - HALF, PINS[0] + HALF
    return group(
        connecting_link(p), jaws_along(150.0, low, high), dimension_along(310.0, low, high, "d2", 161.0)
    )


def _pin_step(p: str) -> Markup:
    low, high = PINS[0] - HALF, PINS[0] + HALF
    worn = body(p, "seal", 170.0, low, 34.0, 3.0), body(p, "seal", 170.0, high - 3, 34.0, 3.0)
    jaws = jaws_along(120.0, low, high, wide=18.0), jaws_along(187.0, low + 3, high - 3, wide=18.0)
    words = note(120.0, 182.0, "largest", "middle"), note(190.0, 182.0, "smallest", "middle")
    return group(connecting_link(p), *worn, *jaws, *words)


def _with_clip(p: str, near: float, label: str, push: float) -> Markup:
    link = group(connecting_link(p), clip_on(near))
    jaws = jaws_across(FIXED, near, _MIDDLE, inside=True)
    way = group(
        arrow(near + 42 - push, 184.0, near + 42 + push, 184.0), stroke="currentColor", stroke_width=1.8
    )
    return group(link, jaws, dimension_across(FIXED, near, 184.0, label, _MIDDLE + 11), way)


def _pin_reach(p: str) -> Markup:
    return _with_clip(p, GROOVE[0], "G", -22.0)


def _clip_stop(p: str) -> Markup:
    return _with_clip(p, GROOVE[1] - CLIP, "C", 22.0)


def _pin_length(p: str) -> Markup:
    rod = rod_across(FIXED, TIP, _MIDDLE, PINS[0] - HALF, PINS[1] + HALF)
    return group(connecting_link(p), rod, dimension_across(FIXED, TIP, 184.0, "L", _MIDDLE))


def _shoulder_depth(p: str) -> Markup:
    link = group(connecting_link(p, shouldered=True), side_plate(p, SHOULDER))
    jaws = jaws_across(FIXED, SHOULDER, _MIDDLE, inside=True)
    return group(link, jaws, dimension_across(FIXED, SHOULDER, 184.0, "M", _MIDDLE + 11))


def _groove_width(p: str) -> Markup:
    width = GROOVE[1] - GROOVE[0]
    blades = [
        feelers(GROOVE[0], y, width, 22.0 + DEPTH) for y in (PINS[0] - HALF - 22, PINS[0] + HALF - DEPTH)
    ]
    return group(connecting_link(p), *blades, dimension_across(*GROOVE, 184.0, "gw", PINS[1]))


def _groove_diameter(p: str) -> Markup:
    low, high = PINS[0] - HALF + DEPTH, PINS[0] + HALF - DEPTH
    blades = jaws_along((GROOVE[0] + GROOVE[1]) / 2, low, high, wide=12.0)
    tall = feelers(241.0, low - 26, 12.0, 20.0), feelers(241.0, high + 6, 12.0, 20.0)
    return group(connecting_link(p), blades, *tall, dimension_along(310.0, low, high, "gd", 253.0))


def _tip_land(p: str) -> Markup:
    blade = feelers(GROOVE[1] - 5, PINS[0] - HALF - 24, 5.0, 24.0 + DEPTH)
    stop = feelers(TIP, PINS[0] - HALF, 9.0, 2 * HALF)
    return group(connecting_link(p), blade, stop, dimension_across(GROOVE[1], TIP, 184.0, "land", PINS[0]))


def _hollow_depth(p: str) -> Markup:
    link = group(connecting_link(p, grooved=False), bores(44.0))
    rod = rod_across(TIP - 44, TIP, PINS[0], PINS[0] - HALF, PINS[0] + HALF)
    return group(link, rod, dimension_across(TIP - 44, TIP, 184.0, "depth", PINS[0]))


def _flared(p: str) -> Markup:
    low, high = PINS[0] - HALF - 7, PINS[0] + HALF + 7
    end = SHOULDER + SIDE_PLATE + 26
    return group(
        flared_pins(p),
        jaws_along(end - 6, low, high, wide=12.0),
        dimension_along(300.0, low, high, "flare", end),
    )


def _plate_thickness(p: str) -> Markup:
    plate = body(p, "link", 160.0, 48.0, 40.0, 112.0)
    return group(plate, jaws_across(160.0, 200.0, 68.0), dimension_across(160.0, 200.0, 182.0, "t", 78.0))


def _plate_height(p: str) -> Markup:
    jaws = jaws_along(110.0, 56.0, 144.0, wide=30.0)
    return group(plate_face(p, holes=True), jaws, dimension_along(318.0, 56.0, 144.0, "h", 126.0))


def _hole_spacing(p: str) -> Markup:
    far = (
        jaws_across(93.0, 267.0, 100.0, inside=True, high=12.0),
        dimension_across(93.0, 267.0, 172.0, "far", 100.0),
    )
    near = jaws_across(127.0, 233.0, 100.0, high=12.0), dimension_across(127.0, 233.0, 46.0, "near", 100.0)
    return group(plate_face(p, holes=True), *far, *near, note(180.0, 104.0, "p = mean", "middle"))


def _trial_width(p: str) -> Markup:
    x = GROOVE[1] - CLIP - SIDE_PLATE
    faces = (FIXED - 18, x + SIDE_PLATE)
    joined = group(connecting_link(p), side_plate(p, x))
    return group(joined, jaws_across(*faces, _MIDDLE), dimension_across(*faces, 184.0, "width", _MIDDLE + 11))


def _trial_tip(p: str) -> Markup:
    x = GROOVE[1] - CLIP - SIDE_PLATE
    edge = x + SIDE_PLATE
    rod = rod_across(edge, TIP, PINS[0] - HALF - 14, PINS[0] - HALF - 22, PINS[0] + HALF)
    joined = group(connecting_link(p), side_plate(p, x))
    return group(joined, rod, dimension_across(edge, TIP, 184.0, "tip", PINS[1]))


def _trial_beyond(p: str) -> Markup:
    x = GROOVE[1] - CLIP - SIDE_PLATE
    head = x + SIDE_PLATE + 12
    rod = rod_across(head, TIP, PINS[0] - HALF - 26, PINS[0] - HALF - 34, PINS[0] + HALF)
    riveted = body(p, "chain", x + SIDE_PLATE - 12, 26.0, 24.0, 14.0)
    joined = group(connecting_link(p), side_plate(p, x), riveted)
    return group(joined, rod, dimension_across(head, TIP, 184.0, "out", PINS[1]))


def _head_stand_out(p: str) -> Markup:
    face, head = FIXED - 18, FIXED - 28
    rod = rod_across(face, head - 10, PINS[0] + HALF + 16, PINS[0] - HALF, PINS[1] + HALF)
    return group(connecting_link(p), rod, dimension_across(head, face, 184.0, "hs", PINS[1] + HALF))


def _link_pin_spacing(p: str) -> Markup:
    low, high = PINS[0] - HALF, PINS[1] + HALF
    over = jaws_along(150.0, low, high), dimension_along(318.0, low, high, "over", 161.0)
    return group(connecting_link(p), *over, dimension_along(200.0, *PINS, "ps", 170.0))


def _trial_gap(p: str) -> Markup:
    low, high = OUTER[0] + 18, NEAR_PLATES[0]
    leaves = (
        feelers(low, 92.0, high - low, 22.0),
        feelers(NEAR_PLATES[1], 92.0, BETWEEN[1] - NEAR_PLATES[1], 22.0),
    )
    return group(outer_link(p), *leaves, dimension_across(NEAR_PLATES[1], BETWEEN[1], 184.0, "gap", 114.0))


LINK_VIEWS: Mapping[str, View] = {
    "pin-diameter": View("d2: pin diameter", "jaws", _pin_diameter, "where the pin runs in the bush, turned between them"),
    "pin-step": View("Wear step: largest less smallest diameter", "jaws", _pin_step, "on the pin where it is whole and where it is worn"),
    "pin-reach": View("G: pin reach to the groove", "jaws", _pin_reach, "inside, from the fixed plate to the clip pushed toward it"),
    "clip-stop": View("C: clip stop", "jaws", _clip_stop, "inside, from the fixed plate to the clip pulled outward"),
    "pin-length": View("L: pin length from the fixed plate", "rod", _pin_length, "from the pin tips down to the fixed plate"),
    "shoulder-depth": View("M: shoulder depth", "jaws", _shoulder_depth, "inside, between the plates, the side plate pressed home"),
    "groove-width": View("gw: groove width", "feelers", _groove_width, "as thick a stack as still turns round the pin"),
    "groove-diameter": View("gd: groove diameter", "blades", _groove_diameter, "narrower than the groove, on its bottom"),
    "tip-land": View("Land between groove and pin tip", "blades", _tip_land, "one in the groove, one on the tip"),
    "hollow-depth": View("Depth of a hollow pin's bore", "rod", _hollow_depth, "from the pin tip to the bottom of the bore"),
    "flared-diameter": View("Diameter of a flared pin end", "jaws", _flared, "over the flare, two ways at 90 degrees"),
    "side-plate-thickness": View("t: side plate thickness", "jaws", _plate_thickness, "tips only, at the thinnest place"),
    "side-plate-height": View("h: side plate height", "jaws", _plate_height, "on the top and bottom edge at the tallest place"),
    "head-stand-out": View("hs: pin heads beyond the fixed plate", "rod", _head_stand_out, "from the higher head down to the plate"),
    "link-pin-spacing": View("ps = over both pins less one diameter", "jaws", _link_pin_spacing, "over both pins, close to the fixed plate"),
    "plate-hole-spacing": View("p: between the holes of a side plate", "jaws", _hole_spacing, "on the far sides, then on the near sides, of the holes"),
    "trial-width": View("Over the plates, joint and neighbour", "jaws", _trial_width, "over both plates at the waist"),
    "trial-gap": View("Gaps between inner and outer plates", "feelers", _trial_gap, "both sides, clear of the seals"),
    "trial-beyond": View("Pin tips beyond the riveted heads", "rod", _trial_beyond, "from the pin tip down to the riveted head beside it"),
    "trial-tip": View("Pin tip beyond the side plate", "rod", _trial_tip, "from the pin tip down to the side plate"),
}  # fmt: skip
