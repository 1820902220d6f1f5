"""The room beside a chain on the clip side, of the bikes that run it.

Goes in: a dataset and a chain.  Comes out: the least room anybody has read, and the bikes where nobody has.
"""

from generator.model.dataset import Dataset, Part
from generator.model.quantity import Quantity, weakest
from generator.model.tools_and_bikes import Bike

ROOM = "clearance_clip_side"


def bikes_with(dataset: Dataset, chain_id: str) -> tuple[Part[Bike], ...]:
    return tuple(bike for bike in dataset.bikes.values() if bike.record.chain == chain_id)


def least_room_read(dataset: Dataset, chain_id: str) -> Quantity | None:
    """A joint must clear every bike that runs the chain, so the least room rules; None where none is read."""
    read = [bike.dims[ROOM] for bike in bikes_with(dataset, chain_id) if ROOM in bike.dims]
    if not read:
        return None
    low, nominal, high = (
        min(ends) for ends in zip(*((room.low, room.nominal, room.high) for room in read), strict=True)
    )
    return Quantity(low, nominal, high, weakest(room.evidence for room in read))


def some_room_unread(dataset: Dataset, chain_id: str) -> bool:
    """Also where no bike is known to run the chain: one that does has some room, and nobody has read it."""
    bikes = bikes_with(dataset, chain_id)
    return not bikes or any(ROOM not in bike.dims for bike in bikes)


def rooms_differ(dataset: Dataset, chain_id: str) -> bool:
    """Do several bikes run the chain, with not the same room?"""
    rooms = [bike.dims.get(ROOM) for bike in bikes_with(dataset, chain_id)]
    return any(room != rooms[0] for room in rooms)
