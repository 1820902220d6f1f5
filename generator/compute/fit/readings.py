"""Which readings stand behind each symbol of one option, and how strongly each counts.

Goes in: the parts of one option.  Comes out: (reading, weight, quantity) for every symbol, so that
results can name what is missing, how good the evidence is, and what to measure next.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from generator.compute.fit.joint import CHAIN_FIELDS, CLIP_FIELDS, LINK_FIELDS, clip_dims, hold_ways
from generator.compute.fit.options import Bench
from generator.compute.fit.result import Reading
from generator.compute.fit.rooms import ROOM, bikes_with
from generator.model.chain_parts import Chain, Clip, Link, SealSet
from generator.model.dataset import Dataset, Part
from generator.model.quantity import Quantity


@dataclass(frozen=True, slots=True)
class Behind:
    """One reading behind a symbol; the symbol moves `weight` times as far as the reading does."""

    reading: Reading
    weight: Fraction
    quantity: Quantity | None


@dataclass(frozen=True, slots=True)
class Joined:
    """The parts of one option."""

    dataset: Dataset
    on: Bench
    chain: Part[Chain]
    link: Part[Link]
    clip: Part[Clip] | None
    seal_set: Part[SealSet] | None


ONE = Fraction(1)


def behind(symbol: str, joined: Joined) -> list[Behind]:
    """Every reading the symbol rests on, known or missing."""
    match symbol:
        case "b3":
            return list(_between_outer_plates(joined.chain))
        case "hold":
            return list(_hold(joined))
        case "C":
            return [each for each in _rooms(joined) if each.quantity is not None]
        case "Cu":
            return [each for each in _rooms(joined) if each.quantity is None]
        case "own_out":
            return list(_own_out(joined))
        case "p" | "pl":
            return [_pitch(joined, joined.chain if symbol == "p" else joined.link)]
        case _:
            return list(_direct(symbol, joined))


def _direct(symbol: str, joined: Joined) -> Iterator[Behind]:
    if symbol in CHAIN_FIELDS:
        yield _of(joined.chain, CHAIN_FIELDS[symbol])
    elif symbol in LINK_FIELDS:
        yield _of(joined.link, LINK_FIELDS[symbol])
    elif symbol in CLIP_FIELDS:
        yield _of_clip(joined, CLIP_FIELDS[symbol])
    elif joined.seal_set is not None:
        yield _of(joined.seal_set, "thickness")
    else:
        yield Behind(Reading("link", joined.link.id, "seals"), ONE, None)


def _of(
    part: Part[Chain] | Part[Link] | Part[Clip] | Part[SealSet], field: str, weight: Fraction = ONE
) -> Behind:
    return Behind(Reading(part.kind, part.id, field), weight, part.dims.get(field))


def _of_clip(joined: Joined, field: str) -> Behind:
    if joined.clip is not None:
        return Behind(Reading("clip", joined.clip.id, field), ONE, clip_dims(joined.clip).get(field))
    return Behind(Reading("link", joined.link.id, "clip"), ONE, None)


def _between_outer_plates(chain: Part[Chain]) -> Iterator[Behind]:
    """Read directly, or from the width over the plates less both plates."""
    parts = (_of(chain, "over_outer_plates"), _of(chain, "plate_thickness", Fraction(2)))
    derived = all(part.quantity is not None for part in parts)
    if chain.record.between_outer_plates is not None and not chain.record.between_outer_plates.is_unknown:
        yield _of(chain, "between_outer_plates")
    elif derived or "between_outer_plates" not in chain.dims:
        yield from parts


def _hold(joined: Joined) -> Iterator[Behind]:
    ways = hold_ways(joined.link, joined.clip, joined.on)
    if ways:
        narrowest = min(ways, key=lambda way: way.total.high - way.total.low)
        for kind, id_, field in narrowest.rests_on:
            yield Behind(Reading(kind, id_, field), ONE, _known(joined, kind, id_, field))
        return
    if joined.link.record.closure != "clip":
        # no groove and no clip: whether the plate slides at all is what can be looked at again
        yield Behind(Reading("link", joined.link.id, "plate_fit"), ONE, None)
        return
    yield _of(joined.link, "pin_reach")
    yield _of(joined.link, "groove_width")
    yield _of_clip(joined, "thickness")


def _known(joined: Joined, kind: str, id_: str, field: str) -> Quantity | None:
    part = joined.link if kind == "link" else joined.dataset.clips[id_]
    return part.dims.get(field)


def _rooms(joined: Joined) -> Iterator[Behind]:
    bikes = bikes_with(joined.dataset, joined.chain.id)
    if not bikes:
        yield Behind(Reading("chain", joined.chain.id, "bike"), ONE, None)
    for bike in bikes:
        yield Behind(Reading("bike", bike.id, ROOM), ONE, bike.dims.get(ROOM))


def _own_out(joined: Joined) -> Iterator[Behind]:
    if joined.chain.record.own_joint in ("rivet", "endless"):
        return
    own = joined.dataset.links.get(joined.chain.record.own_link or "")
    if own is None:
        yield Behind(Reading("chain", joined.chain.id, "own_link"), ONE, None)
        return
    yield _of(own, "pin_length")
    yield _of(joined.chain, "over_riveted_pins", Fraction(1, 2))


def _pitch(joined: Joined, part: Part[Chain] | Part[Link]) -> Behind:
    code = part.record.size_code
    return Behind(Reading("size", code, "pitch"), ONE, joined.dataset.shelf.sizes[code].dims["pitch"])
