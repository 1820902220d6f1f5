"""One reading of a joint taken again: what every symbol of its rules would then be.

Goes in: the parts of one option, a reading and what it would say.  Comes out: quantities by symbol, of those symbols
that rest on a part the reading is of.
"""

from collections.abc import Mapping
from dataclasses import replace
from typing import Any, TypeVar

from generator.compute.fit.joint import (
    CHAIN_FIELDS,
    CLIP_FIELDS,
    LINK_FIELDS,
    clip_dims,
    hold_of,
    own_stick_out,
)
from generator.compute.fit.options import Bench
from generator.compute.fit.readings import Joined
from generator.compute.fit.result import Reading
from generator.compute.fit.rooms import least_room_read
from generator.model.chain_parts import Chain
from generator.model.dataset import Dataset, Part
from generator.model.quantity import Quantity
from generator.model.record import Record
from generator.validate.measure import with_between_outer_plates

R = TypeVar("R", bound=Record)


def symbols_if(parts: Joined, again: Mapping[Reading, Quantity]) -> Mapping[str, Quantity | None]:
    """Through the same functions as the columns of all options, so that both say the same."""
    changed = parts
    for reading, value in again.items():
        changed = _joined_if(changed, reading, value)
    found: dict[str, Quantity | None] = {}
    for kind in {reading.kind for reading in again}:
        found |= _symbols_of(changed, kind)
    return found


def _symbols_of(parts: Joined, kind: str) -> Mapping[str, Quantity | None]:
    """Those that rest on parts of one kind."""
    chain, link, clip = parts.chain, parts.link, parts.clip
    own_out = {"own_out": own_stick_out(parts.dataset, chain)}
    if kind == chain.kind:
        return own_out | {symbol: chain.dims.get(field) for symbol, field in CHAIN_FIELDS.items()}
    if kind == "bike":
        return {"C": least_room_read(parts.dataset, chain.id)}
    if kind == "seal":
        free = parts.seal_set.dims.get("thickness") if parts.seal_set is not None else None
        return {"s": free, "w": free}
    hold = {"hold": hold_of(link, clip, parts.on)}
    if kind == "link":
        return own_out | hold | {symbol: link.dims.get(field) for symbol, field in LINK_FIELDS.items()}
    dims = clip_dims(clip) if clip is not None else {}
    return hold | {symbol: dims.get(field) for symbol, field in CLIP_FIELDS.items()}


def _joined_if(parts: Joined, reading: Reading, value: Quantity) -> Joined:
    dataset, on = parts.dataset, parts.on

    def of(part: Part[R] | None) -> Part[R] | None:
        same = part is not None and (part.kind, part.id) == (reading.kind, reading.id)
        return _part_if(part, reading.field, value) if same and part is not None else part

    chain, link = of(parts.chain), of(parts.link)
    assert chain is not None and link is not None
    if reading.kind == "clip":
        on = Bench(on.chains, on.links, tuple(of(each) or each for each in on.clips), on.seals)
    return Joined(_dataset_if(dataset, reading, value), on, chain, link, of(parts.clip), of(parts.seal_set))


def _dataset_if(dataset: Dataset, reading: Reading, value: Quantity) -> Dataset:
    """Bikes and the link a chain runs with are looked up in the dataset."""
    kinds: Mapping[str, Mapping[str, Part[Any]]] = {"bike": dataset.bikes, "link": dataset.links}
    known = kinds.get(reading.kind, {})
    if reading.id not in known:
        return dataset
    changed = {**known, reading.id: _part_if(known[reading.id], reading.field, value)}
    return replace(dataset, bikes=changed) if reading.kind == "bike" else replace(dataset, links=changed)


def _part_if(part: Part[R], field: str, value: Quantity) -> Part[R]:
    dims = {**part.dims, field: value}
    if isinstance(part.record, Chain) and field in ("over_outer_plates", "plate_thickness"):
        direct = part.record.between_outer_plates
        if direct is None or direct.is_unknown:
            # derived from what was just read again
            dims.pop("between_outer_plates", None)
            dims = with_between_outer_plates(dims)
    return replace(part, dims=dims)
