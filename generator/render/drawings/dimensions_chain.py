"""How each dimension of a chain is read."""

from collections.abc import Mapping
from itertools import pairwise

from markupsafe import Markup

from generator.render.drawings.bases_chain import (
    BETWEEN,
    HEADS,
    INSIDES,
    NEAR_PLATES,
    OUTER,
    PLATES,
    RIMS,
    ROLLER,
    bush_face,
    inner_end,
    outer_link,
    plate_face,
    taut_run,
)
from generator.render.drawings.diagram import (
    body,
    dimension_across,
    dimension_along,
    feelers,
    jaws_across,
    jaws_along,
    note,
    pointer,
)
from generator.render.drawings.svg import group
from generator.render.drawings.view import View


def _inner_plates(p: str) -> Markup:
    return group(inner_end(p), jaws_across(*PLATES, 146.0), dimension_across(*PLATES, 184.0, "b2p", 156.0))


def _bush_ends(p: str) -> Markup:
    return group(
        inner_end(p), jaws_across(*RIMS, 98.0, high=40.0), dimension_across(*RIMS, 184.0, "b2b", 118.0)
    )


def _inner_width(p: str) -> Markup:
    jaws = jaws_across(*INSIDES, 149.0, inside=True)
    return group(inner_end(p), jaws, dimension_across(*INSIDES, 184.0, "b1", 160.0))


def _roller(p: str) -> Markup:
    return group(
        inner_end(p), jaws_along(180.0, *ROLLER, wide=46.0), dimension_along(282.0, *ROLLER, "d1", 203.0)
    )


def _over_outer(p: str) -> Markup:
    jaws = jaws_across(*OUTER, 103.0)
    words = note(14.0, 68.0, "off the"), note(14.0, 83.0, "pin heads")
    return group(outer_link(p), jaws, dimension_across(*OUTER, 184.0, "b3o", 114.0), *words)


def _between_outer(p: str) -> Markup:
    gaps = [feelers(x, 88.0, 10.0, 34.0) for x in (BETWEEN[0], NEAR_PLATES[1])]
    plates = [body(p, "chain", x, 74.0, 14.0, 62.0) for x in (NEAR_PLATES[0], NEAR_PLATES[1] - 14)]
    b2p = dimension_across(*NEAR_PLATES, 60.0, "b2p", 74.0)
    outer = [body(p, "link", x, 42.0, 18.0, 122.0) for x in (OUTER[0], BETWEEN[1])]
    words = note(14.0, 109.0, "gap"), note(320.0, 109.0, "gap")
    leads = pointer(40.0, 105.0, 127.0, 105.0), pointer(318.0, 105.0, 233.0, 105.0)
    return group(*outer, *plates, *gaps, b2p, dimension_across(*BETWEEN, 184.0, "b3", 164.0), *leads, *words)


def _outer_plate(p: str) -> Markup:
    plate = body(p, "link", 160.0, 48.0, 40.0, 112.0)
    return group(plate, jaws_across(160.0, 200.0, 104.0), dimension_across(160.0, 200.0, 182.0, "tc", 116.0))


def _pin_heads(p: str) -> Markup:
    return group(outer_link(p), jaws_across(*HEADS, 64.0), dimension_across(*HEADS, 184.0, "b4", 76.0))


def _bore(p: str) -> Markup:
    along = group(
        jaws_across(144.0, 204.0, 102.0, inside=True, high=12.0),
        dimension_across(144.0, 204.0, 182.0, "d3", 108.0),
    )
    across = jaws_along(174.0, 72.0, 132.0, inside=True, wide=12.0)
    return group(bush_face(p), along, across, note(262.0, 190.0, "and across"))


def _pitch(p: str) -> Markup:
    run = taut_run(p, (110.0, 250.0), 112.0)
    return group(
        run, dimension_across(110.0, 250.0, 160.0, "p", 112.0), note(180.0, 74.0, "pin to pin", "middle")
    )


def _plate_height(p: str) -> Markup:
    return group(
        plate_face(p),
        jaws_along(110.0, 56.0, 144.0, wide=30.0),
        dimension_along(318.0, 56.0, 144.0, "h2", 126.0),
    )


_RUN = tuple(36.0 + 48 * i for i in range(7))


def _wear_length(p: str) -> Markup:
    inside = group(
        jaws_across(_RUN[0] + 7.5, _RUN[-1] - 7.5, 104.0, inside=True, high=14.0),
        dimension_across(_RUN[0] + 7.5, _RUN[-1] - 7.5, 66.0, "inside", 104.0),
    )
    outside = group(
        jaws_across(_RUN[0] - 7.5, _RUN[-1] + 7.5, 104.0, high=14.0),
        dimension_across(_RUN[0] - 7.5, _RUN[-1] + 7.5, 142.0, "outside", 104.0),
    )
    counts = [note((a + b) / 2, 172.0, str(i + 1), "middle") for i, (a, b) in enumerate(pairwise(_RUN))]
    return group(taut_run(p, _RUN, 104.0), inside, outside, *counts)


CHAIN_VIEWS: Mapping[str, View] = {
    "over-inner-plates": View("b2p: over the inner plates", "jaws", _inner_plates, "on the flats, clear of the bush rims"),
    "over-bush-ends": View("b2b: over the bush ends", "jaws", _bush_ends, "across both bush rims"),
    "over-outer-plates": View("b3o: over the outer plates", "jaws", _over_outer, "at the waist of a neighbour"),
    "between-outer-plates": View("b3 = b2p + both gaps", "feelers", _between_outer, "between inner and outer plate, clear of the seal"),
    "outer-plate-thickness": View("tc: outer plate thickness", "jaws", _outer_plate, "on a plate of the piece cut off"),
    "over-riveted-pins": View("b4: over the riveted pins", "jaws", _pin_heads, "on both heads of one pin"),
    "bush-bore": View("d3: bore of the bush", "jaws", _bore, "inside the bore, along and across the pull; keep the largest"),
    "chain-pitch": View("p: pitch, from pin to pin", "none", _pitch, "read over ten pitches, as the wear length is"),
    "roller-diameter": View("d1: roller diameter", "jaws", _roller, "on a clean roller"),
    "inner-width": View("b1: between the inner plates", "jaws", _inner_width, "inside both plates, beside the roller"),
    "chain-plate-height": View("h2: plate height", "jaws", _plate_height, "on the top and bottom edge of the tallest plate"),
    "wear-length": View("M: length over an even number of pitches", "jaws", _wear_length, "between the insides, then over the outsides, of the end rollers; M is the mean"),
}  # fmt: skip
