"""How far the rear axle moves when the loop becomes shorter or longer, and whether the bike has the room."""

from dataclasses import dataclass

from generator.compute.geometry.loop import centre_exact
from generator.model.quantity import Quantity


@dataclass(frozen=True, slots=True)
class Drive:
    """The loop as it is: pitches, teeth, nominal pitch in nm, elongation as shares (least, most)."""

    pitches: int
    front: int
    rear: int
    pitch: int
    elongation: tuple[float, float]


@dataclass(frozen=True, slots=True)
class Room:
    """What is read of the bike, in nm, None: nobody has read it; and what the tyre keeps in front of it."""

    forward: Quantity | None
    back: Quantity | None
    tyre: Quantity | None
    tyre_keeps: int


@dataclass(frozen=True, slots=True)
class AxleMove:
    """The axle goes forward (or back, below zero) by `low` to `high` nm.

    `fits` is True, False or None for not known; `short_of` names the first room that is not enough or not read.
    """

    low: int
    high: int
    fits: bool | None
    short_of: str | None = None


def axle_move(drive: Drive, change: int, room: Room) -> AxleMove:
    """For a loop that becomes longer by `change` pitches (below zero: shorter)."""
    ends = sorted(_forward(drive, change, share) for share in drive.elongation)
    low, high = int(ends[0]), -int(-ends[1] // 1)
    asked = _asked(low, high, room)
    short = next((name for name, fits in asked if fits is False), None)
    unread = next((name for name, fits in asked if fits is None), None)
    fits = False if short else None if unread else True
    return AxleMove(low, high, fits, short or unread)


def _forward(drive: Drive, change: int, share: float) -> float:
    """The same for one elongation: pitch and pitch circles both grow with it."""
    pitch = drive.pitch * (1 + share)
    before = centre_exact(drive.pitches, pitch, drive.front, drive.rear)
    return before - centre_exact(drive.pitches + change, pitch, drive.front, drive.rear)


def _asked(low: int, high: int, room: Room) -> tuple[tuple[str, bool | None], ...]:
    if high < 0:
        return (("adjuster_back", _enough(-high, -low, room.back, 0)),)
    return (
        ("adjuster_forward", _enough(low, high, room.forward, 0)),
        ("tyre_clearance", _enough(low, high, room.tyre, room.tyre_keeps)),
    )


def _enough(low: int, high: int, has: Quantity | None, keeps: int) -> bool | None:
    """Over both intervals; None where it could be either."""
    if has is None:
        return None
    if has.low - keeps >= high:
        return True
    return False if has.high - keeps < low else None
