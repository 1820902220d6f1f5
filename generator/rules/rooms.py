"""The room beside a chain on either side, of the bikes that run it, from its riveted heads, the joint excluded."""

from collections.abc import Iterator, Mapping
from typing import Literal

from generator.model.dataset import Dataset, Part
from generator.model.quantity import Quantity, weakest
from generator.model.reading import Reading
from generator.model.tools_and_bikes import Bike
from generator.rules.joined import ONE, Behind, Joined

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


def _rooms(side: Side, joined: Joined) -> Iterator[Behind]:
    bikes = bikes_with(joined.dataset, joined.chain.id)
    if not bikes:
        yield Behind(Reading("chain", joined.chain.id, "bike"), ONE, None)
    for bike in bikes:
        yield Behind(Reading("bike", bike.id, ROOMS[side]), ONE, bike.dims.get(ROOMS[side]))


def least_room(side: Side, joined: Joined) -> Quantity | None:
    """Of the bikes that run the chain of a joint, in nm; None where none is read."""
    return least_room_read(joined.dataset, joined.chain.id, side)


def rooms_read(side: Side, joined: Joined) -> list[Behind]:
    """Behind the least room: those of the bikes where somebody read it."""
    return [each for each in _rooms(side, joined) if each.quantity is not None]


def rooms_unread(side: Side, joined: Joined) -> list[Behind]:
    """Those of the bikes where nobody has, and that of a bike which nobody named."""
    return [each for each in _rooms(side, joined) if each.quantity is None]
