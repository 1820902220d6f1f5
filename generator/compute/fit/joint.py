"""The dimensions a joint's rules speak of: which field each symbol is, and the derived ones.

Goes in: a dataset and its options.  Comes out: columns by symbol, one entry an option, and the
fields behind each symbol for 'what to measure next'.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cache

import numpy as np

from generator.compute.fit.columns import Spread, column, dims_columns
from generator.compute.fit.forms import Form, Vocabulary
from generator.compute.fit.options import NOTHING, Bench, Options, Parts
from generator.compute.fit.rooms import least_room_read
from generator.model.chain_parts import Chain, Clip, Link
from generator.model.dataset import Dataset, Part
from generator.model.quantity import Quantity

CHAIN_FIELDS = {
    "d3": "bush_bore",
    "b2p": "over_inner_plates",
    "b2b": "over_bush_ends",
    "b3": "between_outer_plates",
    "b4": "over_riveted_pins",
    "tc": "plate_thickness",
    "h2": "plate_height",
    "Fc": "tensile",
}
LINK_FIELDS = {
    "d": "pin_diameter",
    "G": "pin_reach",
    "gw": "groove_width",
    "gd": "groove_diameter",
    "L": "pin_length",
    "M": "shoulder_depth",
    "t": "side_plate_thickness",
    "h": "side_plate_height",
    "hd": "hollow_depth",
    "Fl": "tensile",
}
CLIP_FIELDS = {
    "k": "thickness",
    "k0": "thickness_new",
    "cs": "seat_width",
    "cm": "mouth",
    "csp": "pin_spacing",
    "bow": "bow",
}
# the parts of an option that each dimension is read from
PARTS_BEHIND: Mapping[str, Parts] = {
    **dict.fromkeys((*CHAIN_FIELDS, "p", "C", "Cu", "own_out"), ("chain",)),
    **dict.fromkeys((*LINK_FIELDS, "pl"), ("link",)),
    **dict.fromkeys(CLIP_FIELDS, ("clip",)),
    **dict.fromkeys(("s", "w"), ("seal_set",)),
    "hold": ("link", "clip"),
}


@cache
def words_for(plate_fit: str) -> Vocabulary:
    """What each name in a rule stands for, where the side plate sits as `plate_fit` says."""
    words = {name: Form(((name, Fraction(1)),), Fraction(0)) for name in PARTS_BEHIND}
    # widest inside width at which this clip still enters and holds
    stop = words["hold"].plus(words["t"], Fraction(-1))
    seat = {"slip": stop, "press": words["b3"], "press-to-shoulder": words["M"]}[plate_fit]
    back = words["b3"] if plate_fit == "slip" else seat
    return Vocabulary(words | {"stop": stop, "seat": seat, "back": back})


def joint_columns(dataset: Dataset, on: Bench, options: Options) -> dict[str, Spread]:
    """Every symbol as a column over the options."""
    sizes = dataset.shelf.sizes
    by_chain = dims_columns([c.dims for c in on.chains], CHAIN_FIELDS)
    by_chain["p"] = column(
        sizes[c.record.size_code].dims["pitch"] if c.record.size_code in sizes else None for c in on.chains
    )
    by_chain["C"] = column(least_room_read(dataset, c.id) for c in on.chains)
    # of the bikes where nobody has read it, so never known
    by_chain["Cu"] = column(None for _ in on.chains)
    by_chain["Fc"] = column(_strength(c) for c in on.chains)
    by_chain["own_out"] = column(own_stick_out(dataset, c) for c in on.chains)
    by_link = dims_columns([li.dims for li in on.links], LINK_FIELDS)
    by_link["pl"] = column(
        sizes[li.record.size_code].dims["pitch"] if li.record.size_code in sizes else None for li in on.links
    )
    by_link["Fl"] = column(_strength(li) for li in on.links)
    # one more entry than there are parts: position -1 is 'none', and wholly missing
    by_clip = dims_columns([*(clip_dims(c) for c in on.clips), {}], CLIP_FIELDS)
    by_seal = dims_columns([*(s.dims for s in on.seals), {}], {"s": "thickness"})
    width = len(on.clips) + 1
    # only for links and clips that meet: a large club has many that never do
    met, place = np.unique(options.link * width + options.clip % width, return_inverse=True)
    hold = column(hold_of(on.links[n // width], _clip(on, n % width), on) for n in met.tolist())
    columns = {name: Spread(col, options.chain) for name, col in by_chain.items()}
    columns |= {name: Spread(col, options.link) for name, col in by_link.items()}
    columns |= {name: Spread(col, options.clip) for name, col in by_clip.items()}
    columns["hold"] = Spread(hold, place.reshape(-1))
    columns["s"] = columns["w"] = Spread(by_seal["s"], options.seal_set)
    return columns


def clip_dims(clip: Part[Clip]) -> Mapping[str, Quantity]:
    """A new clip is as thick as it was when new."""
    thickness = clip.dims.get("thickness")
    if clip.record.history != "new" or thickness is None or "thickness_new" in clip.dims:
        return clip.dims
    return {**clip.dims, "thickness_new": thickness}


def _clip(on: Bench, index: int) -> Part[Clip] | None:
    return on.clips[index] if index < len(on.clips) else None


def hold_of(link: Part[Link], clip: Part[Clip] | None, on: Bench) -> Quantity | None:
    """Fixed plate to the near face of this clip pulled outward: reach + groove - clip, or the clip
    stop read with a named clip, shifted by the difference of thicknesses; both where both are known."""
    known = [way.total for way in hold_ways(link, clip, on)]
    if len(known) < 2:
        return known[0] if known else None
    return known[0].meet(known[1]) or known[0]


@dataclass(frozen=True, slots=True)
class HoldWay:
    """One way to know the hold: its interval, and the (part kind, id, field) readings it rests on."""

    total: Quantity
    rests_on: tuple[tuple[str, str, str], ...]


def hold_ways(link: Part[Link], clip: Part[Clip] | None, on: Bench) -> list[HoldWay]:
    ways = []
    thickness = clip.dims.get("thickness") if clip else None
    reach, groove = link.dims.get("pin_reach"), link.dims.get("groove_width")
    if clip and thickness and reach and groove:
        fields = (
            ("link", link.id, "pin_reach"),
            ("link", link.id, "groove_width"),
            ("clip", clip.id, "thickness"),
        )
        ways.append(HoldWay(reach + groove - thickness, fields))
    stop = link.dims.get("clip_stop")
    if clip and stop:
        read_with = link.record.clip_stop_with or link.record.clip
        if read_with == clip.id:
            ways.append(HoldWay(stop, (("link", link.id, "clip_stop"),)))
        else:
            ways.extend(_shifted_stop(link, clip, stop, on, read_with))
    return ways


def _shifted_stop(
    link: Part[Link], clip: Part[Clip], stop: Quantity, on: Bench, read_with: str | None
) -> list[HoldWay]:
    named = on.clip_at(read_with)
    before = on.clips[named].dims.get("thickness") if named != NOTHING else None
    after = clip.dims.get("thickness")
    if before is None or after is None:
        return []
    fields = (
        ("link", link.id, "clip_stop"),
        ("clip", on.clips[named].id, "thickness"),
        ("clip", clip.id, "thickness"),
    )
    return [HoldWay(stop + before - after, fields)]


def _strength(part: Part[Chain] | Part[Link]) -> Quantity | None:
    """Printed on a packet, published or pulled on a bench; what somebody remembers judges nothing."""
    found = part.dims.get("tensile")
    return found if found is not None and found.evidence in ("measured", "stated", "published") else None


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
