"""Which links come out of a loop that is damaged, and how the gap is filled.

A loop of n pitches has n links, numbered round it: even numbers inner, odd numbers outer.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from generator.model.mending import Damage

# links taken out for each kind of damage; the neighbours that must open are in it
PITCHES_OUT: dict[Damage, int] = {
    "joint": 1,
    "outer": 1,
    "inner": 3,
    "outer-inner-outer": 3,
    "inner-outer-inner": 5,
    "joint-and-inner": 3,
}


@dataclass(frozen=True, slots=True)
class Gap:
    """Links `first` to `first + length - 1`, round the loop, come out; outer links at both ends of it.

    `to_open` are those of its two end links that still hold good links and are not the clip link: a breaker opens them.
    """

    first: int
    length: int
    to_open: tuple[int, ...]


def taken_out(pitches: int, damaged: Iterable[int]) -> frozenset[int]:
    """The damaged links, and each outer link that would be left hanging on a damaged inner one."""
    gone = {at % pitches for at in damaged}
    beside = {(at + side) % pitches for at in gone if at % 2 == 0 for side in (-1, 1)}
    return frozenset(gone | beside)


def gaps(
    pitches: int, damaged: Iterable[int], clip_link: int | None = None, torn: Iterable[int] = ()
) -> tuple[Gap, ...]:
    """Every gap of the loop; `torn` are outer links that have let go already.  ValueError for an odd loop, or one of
    which nothing would be left."""
    if pitches % 2:
        raise ValueError("a loop has an even number of pitches")
    out = taken_out(pitches, damaged)
    if len(out) >= pitches:
        raise ValueError("no good link is left")
    open_already = {at % pitches for at in torn} | ({clip_link % pitches} if clip_link is not None else set())
    return tuple(_gap(run, open_already) for run in _runs(pitches, out))


def _gap(run: tuple[int, ...], open_already: set[int]) -> Gap:
    ends = dict.fromkeys((run[0], run[-1]))
    return Gap(run[0], len(run), tuple(end for end in ends if end not in open_already))


def _runs(pitches: int, out: frozenset[int]) -> Iterator[tuple[int, ...]]:
    """Runs round the loop, each from its first link on."""
    for first in sorted(at for at in out if (at - 1) % pitches not in out):
        run = [first]
        while (run[-1] + 1) % pitches in out:
            run.append((run[-1] + 1) % pitches)
        yield tuple(run)


@dataclass(frozen=True, slots=True)
class Filling:
    """What goes into a gap: `links` connecting links, and a piece of `strip` pitches between two of them (0: none)."""

    links: int
    strip: int
    change: int


def filling(gap: int, put_in: int) -> Filling:
    """`put_in` pitches into a gap of `gap`, both odd as both ends of each are outer links."""
    if gap % 2 == 0 or put_in % 2 == 0 or put_in < 1:
        raise ValueError("a gap and what fills it have an odd number of pitches")
    return Filling(1, 0, put_in - gap) if put_in == 1 else Filling(2, put_in - 2, put_in - gap)


def fillings(gap: int, longest: int) -> tuple[Filling, ...]:
    """All that a piece of at most `longest` pitches allows, nearest to the old length first, shorter before longer."""
    most = max(1, longest + 2 if longest % 2 else longest + 1)
    found = [filling(gap, put_in) for put_in in range(1, most + 1, 2)]
    return tuple(sorted(found, key=lambda one: (abs(one.change), one.change)))
