"""How far the joint a chain runs with sticks out beyond its riveted heads: what is known to clear the bike."""

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction

from generator.model.chain_parts import Chain, Link
from generator.model.dataset import Dataset, Part, Shelf
from generator.model.quantity import Quantity
from generator.model.reading import Reading
from generator.rules.joined import NO_END, ONE, Behind, of_part
from generator.rules.place import fixed_plate
from generator.rules.rooms import Side

RIVETED = ("rivet", "endless")
NOT_KNOWN = Quantity(0, 0, NO_END, "unknown")


def own_stick_out(dataset: Dataset, chain: Part[Chain], side: Side = "clip") -> Quantity:
    """The riveted heads clear the bike themselves, so never less than nothing."""
    if chain.record.own_joint in RIVETED:
        return Quantity(0, 0, 0)
    own = dataset.links.get(chain.record.own_link or "")
    out = None if own is None or chain.record.in_use is False else _out(dataset, chain, own, side)
    if out is None:
        return NOT_KNOWN
    low, nominal, high = (max(end, 0) for end in (out.low, out.nominal, out.high))
    return replace(out, low=low, nominal=nominal, high=high)


def _out(dataset: Dataset, chain: Part[Chain], own: Part[Link], side: Side) -> Quantity | None:
    heads, inner = chain.dims.get("over_riveted_pins"), _inner(chain, own)
    length = own.dims.get("pin_length") if side == "clip" else _other_side(own, dataset.shelf)
    if length is None or heads is None or inner is None:
        return None
    return length - halved(inner + heads) if side == "clip" else length + halved(inner) - halved(heads)


def _other_side(own: Part[Link], shelf: Shelf) -> Quantity | None:
    plate, head = fixed_plate(own, shelf), own.dims.get("head_stand_out")
    return None if plate is None or head is None else plate + head


def _inner(chain: Part[Chain], own: Part[Link]) -> Quantity | None:
    """Without seals a joint can shift to one side; on a plain chain the neighbours do so alike.  Where nobody knows what
    lies between its plates, it may be either."""
    held, free = chain.dims.get("between_outer_plates"), chain.dims.get("over_bush_ends")
    between = chain.record.own_seals
    if between == "unknown" and own.record.seals not in (None, "none", "unknown"):
        between = "fitted"
    if chain.record.kind == "plain" or between == "fitted":
        return held
    if between in ("left-out", "none"):
        return free
    if held is None or free is None:
        return None
    return replace(held, low=min(held.low, free.low), high=max(held.high, free.high))


def halved(quantity: Quantity) -> Quantity:
    """Half of an interval, its ends rounded outward."""
    return Quantity(quantity.low // 2, quantity.nominal // 2, -(-quantity.high // 2), quantity.evidence)


def behind_own_out(dataset: Dataset, chain: Part[Chain], side: Side) -> Iterator[Behind]:
    if chain.record.own_joint in RIVETED:
        return
    own = dataset.links.get(chain.record.own_link or "")
    if own is None:
        yield Behind(Reading("chain", chain.id, "own_link"), ONE, None)
        return
    if side == "clip":
        yield of_part(own, "pin_length")
    else:
        yield of_part(own, "head_stand_out")
    yield of_part(chain, "over_riveted_pins", Fraction(1, 2))
