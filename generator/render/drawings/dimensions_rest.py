"""How each dimension of a clip, a seal, a tool and a bike is read."""

from collections.abc import Mapping

from markupsafe import Markup

from generator.render.drawings.bases_chain import HEADS, outer_link
from generator.render.drawings.bases_small import (
    AXIS,
    FRONT,
    MOUTH,
    REAR,
    SEAT,
    SEATS,
    bike_side,
    clip_edge,
    clip_flat,
    press,
    seal_edge,
    seal_flat,
)
from generator.render.drawings.diagram import (
    body,
    dimension_across,
    dimension_along,
    feelers,
    jaws_across,
    jaws_along,
    note,
    ring,
)
from generator.render.drawings.svg import el, group, path
from generator.render.drawings.view import View


def _thickness(p: str) -> Markup:
    jaws = [jaws_along(x, 114.0, 128.0, wide=16.0) for x in (104.0, 254.0)]
    words = note(84.0, 176.0, "closed end", "middle"), note(254.0, 176.0, "legs", "middle")
    return group(clip_edge(p, 0.0), *jaws, dimension_along(300.0, 114.0, 128.0, "k", 264.0), *words)


def _thickness_new(p: str) -> Markup:
    jaws = jaws_along(104.0, 114.0, 128.0, wide=16.0)
    words = note(180.0, 70.0, "before it is first fitted", "middle")
    return group(clip_edge(p, 0.0), jaws, dimension_along(300.0, 114.0, 128.0, "k0", 264.0), words)


def _bow(p: str) -> Markup:
    high, top, glass = 20.0, 94.0, 129.0
    labels = dimension_along(284.0, top, glass, "k + bow", 180.0), note(54.0, 148.0, "glass")
    return group(clip_edge(p, high), feelers(172.0, glass - 21, 16.0, 20.0), *labels)


def _seat(p: str) -> Markup:
    ends = [jaws_along(x, AXIS - SEAT, AXIS + SEAT, inside=True, wide=14.0) for x in SEATS]
    size = dimension_along(40.0, AXIS - SEAT, AXIS + SEAT, "seat", SEATS[0] - 7)
    return group(clip_flat(p), *ends, size)


def _mouth(p: str) -> Markup:
    low, high = AXIS - MOUTH[1], AXIS + MOUTH[1]
    return group(
        clip_flat(p),
        jaws_along(MOUTH[0], low, high, inside=True, wide=12.0),
        dimension_along(288.0, low, high, "mouth", MOUTH[0] + 6),
    )


def _spacing(p: str) -> Markup:
    ends = (SEATS[0] - SEAT, SEATS[1] + SEAT)
    over = jaws_across(*ends, AXIS, inside=True, high=12.0), dimension_across(*ends, 168.0, "over", AXIS)
    return group(clip_flat(p), *over, dimension_across(*SEATS, 50.0, "spacing", AXIS))


def _seal_thickness(p: str) -> Markup:
    return group(
        seal_edge(p), jaws_across(164.0, 196.0, 76.0), dimension_across(164.0, 196.0, 182.0, "s", 86.0)
    )


def _seal_inside(p: str) -> Markup:
    shank = ring(180.0, 104.0, 35.0, fill="currentColor", fill_opacity=0.45)
    return group(seal_flat(p), shank, dimension_across(144.0, 216.0, 182.0, "inner", 104.0))


def _seal_outside(p: str) -> Markup:
    return group(
        seal_flat(p), jaws_across(124.0, 236.0, 104.0), dimension_across(124.0, 236.0, 184.0, "outer", 114.0)
    )


def _jaw_opening(p: str) -> Markup:
    return group(
        press(p),
        jaws_across(96.0, 190.0, 104.0, inside=True),
        dimension_across(96.0, 190.0, 184.0, "opening", 115.0),
    )


def _tool_pin(p: str) -> Markup:
    return group(
        press(p), jaws_along(202.0, 96.0, 112.0, wide=16.0), dimension_along(160.0, 96.0, 112.0, "pin", 194.0)
    )


def _bike_room(p: str) -> Markup:
    wall = HEADS[1] + 30
    guide = body(p, "guide", wall, 36.0, 16.0, 134.0)
    shank = el(
        "circle",
        cx=(HEADS[1] + wall) / 2,
        cy=64.0,
        r=15.0,
        fill="currentColor",
        fill_opacity=0.45,
        stroke="currentColor",
    )
    return group(
        outer_link(p),
        guide,
        shank,
        dimension_across(HEADS[1], wall, 184.0, "room", 78.0),
        note(340.0, 30.0, "guide or cover", "end"),
    )


def _centres(_p: str) -> Markup:
    return group(_bike(), dimension_across(FRONT[0], REAR[0], 186.0, "a", 104.0))


def _bike(tyre: bool = False) -> Markup:
    return group(bike_side(tyre), note(14.0, 60.0, "front of the bike"))


def _adjusters(_p: str) -> Markup:
    block, slot = 9.0, (REAR[0] - 20, REAR[0] + 26)
    forward = dimension_across(slot[0], REAR[0] - block, 186.0, "", REAR[1])
    back = dimension_across(REAR[0] + block, slot[1], 44.0, "", REAR[1])
    words = note(214.0, 190.0, "forward", "end"), note(298.0, 48.0, "back")
    axle = ring(REAR[0], REAR[1], block, fill="none")
    return group(_bike(), axle, forward, back, *words)


def _tyre(p: str) -> Markup:
    tread, part = 178.0, 146.0
    ahead = body(p, "guide", part - 14, 78.0, 14.0, 18.0), body(p, "guide", part - 14, 112.0, 14.0, 18.0)
    return group(_bike(tyre=True), *ahead, dimension_across(part, tread, 186.0, "room", 124.0))


def _slack(_p: str) -> Markup:
    """The lower run pulled down as far as it goes; slack is how far it moves in all."""
    middle = 168.0
    down = path(
        "M",
        84.0,
        121.0,
        "Q",
        middle,
        182.0,
        249.0,
        142.0,
        stroke="currentColor",
        stroke_width=1.6,
        stroke_dasharray="3 3",
    )
    return group(_bike(), down, dimension_along(middle, 131.0, 156.0, "slack"))


CLIP_AND_SEAL_VIEWS: Mapping[str, View] = {
    "clip-thickness": View("k: clip thickness", "jaws", _thickness, "tips only, at the closed end and on both legs"),
    "clip-thickness-new": View("k0: clip thickness when new", "jaws", _thickness_new, "as for the thickness"),
    "clip-bow": View("Bow: highest point less thickness", "feelers", _bow, "under the bow, or the depth rod over it"),
    "clip-seat": View("Seat width of a clip", "jaws", _seat, "inside, where the clip sits on each pin"),
    "clip-mouth": View("Mouth of a clip", "jaws", _mouth, "inside, at the narrowest place between the tips"),
    "clip-spacing": View("Spacing = over both seats less one seat", "jaws", _spacing, "inside, at the far ends of both seats"),
    "seal-free-thickness": View("s: free thickness of a seal", "jaws", _seal_thickness, "flats just touching, at four places"),
    "seal-inner-diameter": View("Inner diameter of a seal", "shank", _seal_inside, "which the seal slides over without being stretched"),
    "seal-outer-diameter": View("Outer diameter of a seal", "jaws", _seal_outside, "just touching, two ways"),
}  # fmt: skip
TOOL_AND_BIKE_VIEWS: Mapping[str, View] = {
    "jaw-opening": View("Jaw opening of a tool", "jaws", _jaw_opening, "inside, the tool fully open"),
    "tool-pin-diameter": View("Diameter of a tool's pushing pin", "jaws", _tool_pin, "just behind the tip of the pushing pin"),
    "bike-clearance": View("Room beside the chain", "shank", _bike_room, "the thickest that never touches, the wheel turned by hand"),
    "centre-distance": View("a: between the sprocket centres", "none", _centres, "with a tape, from shaft to axle"),
    "adjuster-travel": View("Adjuster travel left", "none", _adjusters, "with a rule, from the axle block to each end"),
    "tyre-clearance": View("Room in front of the tyre", "none", _tyre, "with a rule, from the highest knob to the nearest part"),
    "slack-range": View("Slack: how far the run moves up and down", "none", _slack, "with a rule, where the bike's manual says"),
}  # fmt: skip
