"""The names that the rules of a joint speak of: what each stands for, its value, and the readings behind it."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import partial

from generator.model.chain_parts import Chain, Clip, Link
from generator.model.dataset import Part
from generator.model.quantity import Quantity
from generator.model.reading import Reading
from generator.rules.hold import behind_edge, behind_hold, edge_of, hold_of
from generator.rules.joined import ONE, Behind, Joined, Parts, of_part
from generator.rules.own_joint import behind_own_out, own_stick_out
from generator.rules.pitch import behind_pitch, pitch_of
from generator.rules.place import fixed_plate, placed
from generator.rules.rooms import Side, least_room, rooms_read, rooms_unread
from generator.rules.stack import counted_bow, stacked
from generator.rules.worn import allowed_wear, bore, read_as_worn

PLATE_FITS = ("slip", "press", "press-to-shoulder")


@dataclass(frozen=True, slots=True)
class Symbol:
    """One name of the rules.  `parts` are those of an option that its value depends on, `through` the kinds of records
    that it finds by way of these; `field` is the one record field it is, where it is one."""

    name: str
    words: str
    parts: Parts
    value: Callable[[Joined], Quantity | None]
    behind: Callable[[Joined], Sequence[Behind]]
    field: str | None = None
    through: tuple[str, ...] = ()


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


def _spacer(joined: Joined) -> Quantity | None:
    return Quantity(0, 0, 0) if joined.spacer is None else joined.spacer.dims.get("thickness")


def _behind_spacer(joined: Joined) -> list[Behind]:
    return [] if joined.spacer is None else [of_part(joined.spacer, "thickness")]


def _stacked(joined: Joined) -> Quantity | None:
    return stacked(joined.clip, joined.dataset.shelf) if joined.clip is not None else None


def _bow(joined: Joined) -> Quantity | None:
    return counted_bow(joined.clip, joined.dataset.shelf) if joined.clip is not None else None


def _behind_bow(joined: Joined) -> list[Behind]:
    if joined.clip is None:
        return [Behind(Reading("link", joined.link.id, "clip"), ONE, None)]
    return [
        Behind(Reading("clip", joined.clip.id, "bow"), ONE, counted_bow(joined.clip, joined.dataset.shelf))
    ]


def _place(joined: Joined) -> Quantity | None:
    found = placed(joined)
    return found.place if found is not None else None


def _behind_place(joined: Joined) -> Sequence[Behind]:
    found = placed(joined)
    return found.behind if found is not None else ()


def _fixed(joined: Joined) -> Quantity | None:
    return fixed_plate(joined.link, joined.dataset.shelf)


def _behind_fixed(joined: Joined) -> list[Behind]:
    return [
        Behind(
            Reading("link", joined.link.id, "fixed_plate_thickness"),
            ONE,
            fixed_plate(joined.link, joined.dataset.shelf),
        )
    ]


def _edge(joined: Joined) -> Quantity | None:
    return edge_of(joined.dataset, joined.link)


def _behind_bore(joined: Joined) -> list[Behind]:
    return [Behind(Reading(joined.chain.kind, joined.chain.id, "bush_bore"), ONE, bore(joined))]


def _behind_wear(joined: Joined) -> list[Behind]:
    chain = joined.chain
    return (
        [of_part(chain, "elongation")]
        if read_as_worn(chain, joined.dataset) and "elongation" in chain.dims
        else []
    )


def _own_out(side: Side, joined: Joined) -> Quantity | None:
    return own_stick_out(joined.dataset, joined.chain, side)


def _behind_own_out(side: Side, joined: Joined) -> list[Behind]:
    return list(behind_own_out(joined.dataset, joined.chain, side))


def _hold(joined: Joined) -> Quantity | None:
    return hold_of(joined.dataset, joined.link, joined.clip)


def _listed(behind: Callable[[Joined], Iterator[Behind]]) -> Callable[[Joined], Sequence[Behind]]:
    return lambda joined: list(behind(joined))


def _never(_: Joined) -> None:
    return None


b3 = read("b3", "between the outer plates of the chain", "chain", "between_outer_plates")
ROWS: tuple[Symbol, ...] = (
    Symbol("d3", "bore of the chain's bush, and what it has grown by since it was read", ("chain",), bore, _behind_bore,
           "bush_bore"),
    Symbol("wb", "so much more play a worn chain is allowed", ("chain",), allowed_wear, _behind_wear),
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
    Symbol("f", "thickness of the fixed plate; not read, about that of the side plate", ("link",), _fixed, _behind_fixed,
           "fixed_plate_thickness"),
    read("hs", "how far the heads of the link stand out of its fixed plate", "link", "head_stand_out"),
    read("hd", "depth of the bore in a hollow pin", "link", "hollow_depth"),
    strength("Fl", "tensile strength of the link", "link"),
    read("k", "thickness of the clip at its thinnest place", "clip", "thickness"),
    read("k0", "thickness of the clip when new", "clip", "thickness_new"),
    read("cs", "width of the clip's seat", "clip", "seat_width"),
    read("cm", "mouth of the clip", "clip", "mouth"),
    read("csp", "between the two pin seats of the clip", "clip", "pin_spacing"),
    Symbol("bw", "bow of the clip, as far as it counts", ("clip",), _bow, _behind_bow, "bow"),
    Symbol("ks", "thickness of the clip where it bears, thinnest to as new", ("clip",), _stacked,
           partial(_behind_dim, "clip", "thickness")),
    Symbol("ge", "fixed plate to the far edge of the groove", ("link",), _edge, behind_edge),
    Symbol("ws", "thickness of a washer under the clip", ("spacer",), _spacer, _behind_spacer),
    Symbol("place", "how far outside its neighbours the plate was pressed", ("chain", "link", "seals", "seat"), _place,
           _behind_place),
    Symbol("hold", "fixed plate to the near face of the clip pulled outward", ("link", "clip"), _hold, behind_hold),
    Symbol("s", "free thickness of a seal", ("seal_set",), _free_thickness, _behind_seals),
    Symbol("w", "thickness of a packing washer", ("seal_set",), _free_thickness, _behind_seals),
    Symbol("p", "nominal pitch of the chain, by its size code", ("chain",), partial(pitch_of, "chain"),
           partial(behind_pitch, "chain")),
    Symbol("pl", "nominal pitch of the link, by its size code", ("link",), partial(pitch_of, "link"),
           partial(behind_pitch, "link")),
    Symbol("C", "least room read on the clip side of the bikes that run the chain", ("chain",),
           partial(least_room, "clip"), partial(rooms_read, "clip"), through=("bike",)),
    Symbol("Co", "least room read on the other side of the bikes that run the chain", ("chain",),
           partial(least_room, "other"), partial(rooms_read, "other"), through=("bike",)),
    # of the bikes where nobody has read it, so never known
    Symbol("Cu", "room on the clip side of a bike that runs the chain and where nobody has read it", ("chain",), _never,
           partial(rooms_unread, "clip"), through=("bike",)),
    Symbol("Cuo", "room on the other side of a bike that runs the chain and where nobody has read it", ("chain",),
           _never, partial(rooms_unread, "other"), through=("bike",)),
    Symbol("own_out", "how far the chain's own joint stands beyond its riveted heads, clip side", ("chain",),
           partial(_own_out, "clip"), partial(_behind_own_out, "clip"), through=("link",)),
    Symbol("own_out2", "how far the chain's own joint stands beyond its riveted heads, other side", ("chain",),
           partial(_own_out, "other"), partial(_behind_own_out, "other"), through=("link",)),
)  # fmt: skip
SYMBOLS: Mapping[str, Symbol] = {symbol.name: symbol for symbol in ROWS}


def parts_behind(name: str) -> Parts:
    return SYMBOLS[name].parts
