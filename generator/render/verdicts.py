"""A verdict as a reader sees it: word, shape and a place on the track from proper to no-go.

Goes in: the word and the range of rungs.  Comes out: the texts and names that the verdict macro prints.
"""

from dataclasses import dataclass
from typing import Literal

from generator.model.shipped import RUNGS

CANNOT_JUDGE = "cannot-judge"
MEASURE_FIRST = "measure-first"
_SLOT_WIDTH = 15
NO_TRACK = "track-none"

Slot = Literal["is", "may-be", "not"]


@dataclass(frozen=True, slots=True)
class ShownSlot:
    """One of the four rungs on a track; `x` is where it starts."""

    state: Slot
    x: int


@dataclass(frozen=True, slots=True)
class Track:
    """The picture of a range of rungs, from proper on the left to no-go on the right."""

    name: str
    slots: tuple[ShownSlot, ...]


@dataclass(frozen=True, slots=True)
class ShownVerdict:
    """`word` names the shape and the colour; `track` the picture of the four rungs."""

    word: str
    label: str
    span: str
    track: str


def shown_verdict(word: str, best: int | None, worst: int | None) -> ShownVerdict:
    """Both rungs None where no verdict is given: the track stays empty."""
    if best is None or worst is None:
        return ShownVerdict(CANNOT_JUDGE, "cannot judge", "", NO_TRACK)
    track = _track_name(best, worst)
    if word != MEASURE_FIRST:
        return ShownVerdict(word, RUNGS[best], "", track)
    return ShownVerdict(word, "measure first", f"{RUNGS[best]} to {RUNGS[worst]}", track)


def all_tracks() -> tuple[Track, ...]:
    """The tracks of every possible range, and the empty one."""
    rungs = range(len(RUNGS))
    ranges = [(best, worst) for best in rungs for worst in rungs if best <= worst]
    return (Track(NO_TRACK, _slots(range(0), "not")), *(_range_track(*ends) for ends in ranges))


def _track_name(best: int, worst: int) -> str:
    return f"track-{best}-{worst}"


def _range_track(best: int, worst: int) -> Track:
    filled: Slot = "is" if best == worst else "may-be"
    return Track(_track_name(best, worst), _slots(range(best, worst + 1), filled))


def _slots(touched: range, filled: Slot) -> tuple[ShownSlot, ...]:
    states: list[Slot] = [filled if rung in touched else "not" for rung in range(len(RUNGS))]
    return tuple(ShownSlot(state, index * _SLOT_WIDTH) for index, state in enumerate(states))
