"""The names that the rules of a joint speak of: what each stands for, its value, and the readings behind it."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cache, partial

from generator.model.chain_parts import Chain, Clip, Link
from generator.model.dataset import Dataset, Part
from generator.model.quantity import Quantity
from generator.model.reading import Reading
from generator.rules.forms import Vocabulary, dimension, minus
from generator.rules.hold import behind_hold, hold_of
from generator.rules.joined import ONE, Behind, Joined, Parts, of_part
from generator.rules.rooms import ROOM, bikes_with, least_room_read

PLATE_FITS = ("slip", "press", "press-to-shoulder")


@dataclass(frozen=True, slots=True)
class Symbol:
    """One name of the rules.  `parts` are those of an option that its value depends on; `field` is the one record
    field it is, where it is one."""

    name: str
    words: str
    parts: Parts
    value: Callable[[Joined], Quantity | None]
    behind: Callable[[Joined], Sequence[Behind]]
    field: str | None = None


def _part(kind: str, joined: Joined) -> Part[Chain] | Part[Link] | Part[Clip] | None:
    return {"chain": joined.chain, "link": joined.link, "clip": joined.clip}[kind]


def _dim(kind: str, field: str, joined: Joined) -> Quantity | None:
    part = _part(kind, joined)
    dims = clip_dims(joined.clip) if kind == "clip" and joined.clip is not None else part.dims if part else {}
    return dims.get(field)


def _behind_dim(kind: str, field: str, joined: Joined) -> list[Behind]:
    part = _part(kind, joined)
    if part is None:
        return [Behind(Reading("link", joined.link.id, "clip"), ONE, None)]
    return [Behind(Reading(part.kind, part.id, field), ONE, _dim(kind, field, joined))]


def read(name: str, words: str, kind: str, field: str) -> Symbol:
    """A dimension of one part, as it stands in its record."""
    return Symbol(name, words, (kind,), partial(_dim, kind, field), partial(_behind_dim, kind, field), field)


def clip_dims(clip: Part[Clip]) -> Mapping[str, Quantity]:
    """A new clip is as thick as it was when new."""
    thickness = clip.dims.get("thickness")
    if clip.record.history != "new" or thickness is None or "thickness_new" in clip.dims:
        return clip.dims
    return {**clip.dims, "thickness_new": thickness}


def _strength(kind: str, joined: Joined) -> Quantity | None:
    """Printed on a packet, published or pulled on a bench; what somebody remembers judges nothing."""
    found = _dim(kind, "tensile", joined)
    return found if found is not None and found.evidence in ("measured", "stated", "published") else None


def strength(name: str, words: str, kind: str) -> Symbol:
    behind = partial(_behind_dim, kind, "tensile")
    return Symbol(name, words, (kind,), partial(_strength, kind), behind, "tensile")


def _pitch(kind: str, joined: Joined) -> Quantity | None:
    size = joined.dataset.shelf.sizes.get(_size_code(kind, joined))
    return size.dims["pitch"] if size is not None else None


def _size_code(kind: str, joined: Joined) -> str:
    return (joined.chain if kind == "chain" else joined.link).record.size_code


def _behind_pitch(kind: str, joined: Joined) -> list[Behind]:
    return [Behind(Reading("size", _size_code(kind, joined), "pitch"), ONE, _pitch(kind, joined))]


def _between_outer_plates(joined: Joined) -> Iterator[Behind]:
    """Read directly, or from the width over the plates less both plates."""
    chain = joined.chain
    parts = (of_part(chain, "over_outer_plates"), of_part(chain, "plate_thickness", Fraction(2)))
    derived = all(part.quantity is not None for part in parts)
    if chain.record.between_outer_plates is not None and not chain.record.between_outer_plates.is_unknown:
        yield of_part(chain, "between_outer_plates")
    elif derived or "between_outer_plates" not in chain.dims:
        yield from parts


def _free_thickness(joined: Joined) -> Quantity | None:
    return joined.seal_set.dims.get("thickness") if joined.seal_set is not None else None


def _behind_seals(joined: Joined) -> list[Behind]:
    if joined.seal_set is None:
        return [Behind(Reading("link", joined.link.id, "seals"), ONE, None)]
    return [of_part(joined.seal_set, "thickness")]


def _room(joined: Joined) -> Quantity | None:
    return least_room_read(joined.dataset, joined.chain.id)


def _rooms(joined: Joined) -> Iterator[Behind]:
    bikes = bikes_with(joined.dataset, joined.chain.id)
    if not bikes:
        yield Behind(Reading("chain", joined.chain.id, "bike"), ONE, None)
    for bike in bikes:
        yield Behind(Reading("bike", bike.id, ROOM), ONE, bike.dims.get(ROOM))


def _rooms_read(joined: Joined) -> list[Behind]:
    return [each for each in _rooms(joined) if each.quantity is not None]


def _rooms_unread(joined: Joined) -> list[Behind]:
    return [each for each in _rooms(joined) if each.quantity is None]


def _own_out(joined: Joined) -> Quantity | None:
    return own_stick_out(joined.dataset, joined.chain)


def own_stick_out(dataset: Dataset, chain: Part[Chain]) -> Quantity | None:
    """How far the chain's own joint stands beyond its riveted pins: 0 for a riveted or endless loop."""
    if chain.record.own_joint in ("rivet", "endless"):
        return Quantity(0, 0, 0)
    own = dataset.links.get(chain.record.own_link or "")
    if own is None:
        return None
    length, heads = own.dims.get("pin_length"), chain.dims.get("over_riveted_pins")
    # without seals a joint can shift to one side; on a plain chain the neighbours do so alike
    shifts = chain.record.kind == "sealed" and not own.record.seals
    inner = chain.dims.get("over_bush_ends" if shifts else "between_outer_plates")
    if length is None or heads is None or inner is None:
        return None
    return length - halved(inner + heads)


def halved(quantity: Quantity) -> Quantity:
    """Half of an interval, its ends rounded outward."""
    return Quantity(quantity.low // 2, quantity.nominal // 2, -(-quantity.high // 2), quantity.evidence)


def _behind_own_out(joined: Joined) -> Iterator[Behind]:
    if joined.chain.record.own_joint in ("rivet", "endless"):
        return
    own = joined.dataset.links.get(joined.chain.record.own_link or "")
    if own is None:
        yield Behind(Reading("chain", joined.chain.id, "own_link"), ONE, None)
        return
    yield of_part(own, "pin_length")
    yield of_part(joined.chain, "over_riveted_pins", Fraction(1, 2))


def _hold(joined: Joined) -> Quantity | None:
    return hold_of(joined.dataset, joined.link, joined.clip)


def _listed(behind: Callable[[Joined], Iterator[Behind]]) -> Callable[[Joined], Sequence[Behind]]:
    return lambda joined: list(behind(joined))


def _never(_: Joined) -> None:
    return None


b3 = read("b3", "between the outer plates of the chain", "chain", "between_outer_plates")
ROWS: tuple[Symbol, ...] = (
    read("d3", "bore of the chain's bush", "chain", "bush_bore"),
    read("b2p", "over the inner plates of the chain", "chain", "over_inner_plates"),
    read("b2b", "over the bush ends of the chain", "chain", "over_bush_ends"),
    Symbol("b3", b3.words, b3.parts, b3.value, _listed(_between_outer_plates), b3.field),
    read("b4", "over two riveted heads of the chain", "chain", "over_riveted_pins"),
    read("tc", "thickness of the chain's outer plate", "chain", "plate_thickness"),
    read("h2", "height of the chain's plates", "chain", "plate_height"),
    strength("Fc", "tensile strength of the chain", "chain"),
    read("d", "pin of the link where it runs in the bush", "link", "pin_diameter"),
    read("G", "reach: fixed plate to the near edge of the groove", "link", "pin_reach"),
    read("gw", "width of the groove", "link", "groove_width"),
    read("gd", "diameter at the bottom of the groove", "link", "groove_diameter"),
    read("L", "fixed plate to the tip of the pin", "link", "pin_length"),
    read("M", "fixed plate to the shoulder that stops the side plate", "link", "shoulder_depth"),
    read("t", "thickness of the side plate", "link", "side_plate_thickness"),
    read("h", "height of the side plate", "link", "side_plate_height"),
    read("hd", "depth of the bore in a hollow pin", "link", "hollow_depth"),
    strength("Fl", "tensile strength of the link", "link"),
    read("k", "thickness of the clip at its thinnest place", "clip", "thickness"),
    read("k0", "thickness of the clip when new", "clip", "thickness_new"),
    read("cs", "width of the clip's seat", "clip", "seat_width"),
    read("cm", "mouth of the clip", "clip", "mouth"),
    read("csp", "between the two pin seats of the clip", "clip", "pin_spacing"),
    read("bow", "bow of the clip", "clip", "bow"),
    Symbol("hold", "fixed plate to the near face of the clip pulled outward", ("link", "clip"), _hold, behind_hold),
    Symbol("s", "free thickness of a seal", ("seal_set",), _free_thickness, _behind_seals),
    Symbol("w", "thickness of a packing washer", ("seal_set",), _free_thickness, _behind_seals),
    Symbol("p", "nominal pitch of the chain, by its size code", ("chain",), partial(_pitch, "chain"),
           partial(_behind_pitch, "chain")),
    Symbol("pl", "nominal pitch of the link, by its size code", ("link",), partial(_pitch, "link"),
           partial(_behind_pitch, "link")),
    Symbol("C", "least room read on the clip side of the bikes that run the chain", ("chain",), _room, _rooms_read),
    # of the bikes where nobody has read it, so never known
    Symbol("Cu", "room on the clip side of a bike that runs the chain and where nobody has read it", ("chain",),
           _never, _rooms_unread),
    Symbol("own_out", "how far the chain's own joint stands beyond its riveted heads", ("chain",), _own_out,
           _listed(_behind_own_out)),
)  # fmt: skip
SYMBOLS: Mapping[str, Symbol] = {symbol.name: symbol for symbol in ROWS}
# what a limit calls by a short name, and what that is made of
MACROS: Mapping[str, str] = {
    "stop": "widest inside width at which this clip still enters and holds: reach + groove − clip − side plate",
    "seat": "where the side plate rests: the stop if it slides on, the neighbour's width if it is pressed, its shoulder",
    "back": "what the clip stands behind: the neighbour's width if the plate slides on, else the seat",
}


@cache
def words_for(plate_fit: str) -> Vocabulary:
    """What each name in a rule stands for, where the side plate sits as `plate_fit` says."""
    words = {name: dimension(name) for name in SYMBOLS}
    stop = minus(words["hold"], words["t"])
    seat = {"slip": stop, "press": words["b3"], "press-to-shoulder": words["M"]}[plate_fit]
    back = words["b3"] if plate_fit == "slip" else seat
    return Vocabulary(words | {"stop": stop, "seat": seat, "back": back})


def parts_behind(name: str) -> Parts:
    return SYMBOLS[name].parts
