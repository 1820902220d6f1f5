"""The room beside a chain on either side, of the bikes that run it, from its riveted heads, the joint excluded."""

from collections.abc import Mapping
from typing import Literal

from generator.model.dataset import Dataset, Part
from generator.model.quantity import Quantity, weakest
from generator.model.tools_and_bikes import Bike

Side = Literal["clip", "other"]
ROOMS: Mapping[Side, str] = {"clip": "clearance_clip_side", "other": "clearance_other_side"}
ROOM = ROOMS["clip"]


def bikes_with(dataset: Dataset, chain_id: str) -> tuple[Part[Bike], ...]:
    return tuple(bike for bike in dataset.bikes.values() if bike.record.chain == chain_id)


def least_room_read(dataset: Dataset, chain_id: str, side: Side = "clip") -> Quantity | None:
    """A joint must clear every bike that runs the chain, so the least room rules; None where none is read."""
    field = ROOMS[side]
    read = [bike.dims[field] for bike in bikes_with(dataset, chain_id) if field in bike.dims]
    if not read:
        return None
    low, nominal, high = (
        min(ends) for ends in zip(*((room.low, room.nominal, room.high) for room in read), strict=True)
    )
    return Quantity(low, nominal, high, weakest(room.evidence for room in read))


def some_room_unread(dataset: Dataset, chain_id: str, side: Side = "clip") -> bool:
    """Also where no bike is known to run the chain: one that does has some room, and nobody has read it."""
    bikes = bikes_with(dataset, chain_id)
    return not bikes or any(ROOMS[side] not in bike.dims for bike in bikes)


def rooms_differ(dataset: Dataset, chain_id: str) -> bool:
    """Do several bikes run the chain, with not the same room or not the same joint in their manuals?"""
    found = [_judged_by(bike) for bike in bikes_with(dataset, chain_id)]
    return any(each != found[0] for each in found)


def _judged_by(bike: Part[Bike]) -> tuple[object, ...]:
    record = bike.record
    rooms = (bike.dims.get(field) for field in ROOMS.values())
    return (*rooms, record.joint_in_manual, record.clip_because is not None)
