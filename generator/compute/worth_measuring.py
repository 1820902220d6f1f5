"""Which readings would settle most: the answer to 'what shall I measure next' for a whole club.

Goes in: the fits of all pairs.  Comes out: readings with the number of open pairs each would help.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from generator.compute.fit.result import How, MeasureNext, PairFit
from generator.model.reading import Reading


@dataclass(frozen=True, slots=True)
class Worth:
    """One reading, how many open pairs name it first, and the closest ± in nm any of them asks.

    `how` is reachable where nobody has read it yet, so that the ± is what an instrument can do; question where it is
    no length.
    """

    reading: Reading
    pairs: int
    to_within: int | None
    how: How = "needed"


def worth_measuring(fits: Iterable[PairFit]) -> tuple[Worth, ...]:
    """Most helpful first; ties in the order of kind, id and field.  Pairs that only a dry fit settles are left out."""
    asked: dict[Reading, list[MeasureNext]] = {}
    for fit in fits:
        if fit.measure_next is not None and fit.measure_next.how != "dry-fit":
            asked.setdefault(fit.measure_next.reading, []).append(fit.measure_next)
    worth = (_worth(reading, found) for reading, found in asked.items())
    return tuple(sorted(worth, key=lambda w: (-w.pairs, w.reading.kind, w.reading.id, w.reading.field)))


def only_a_try(fit: PairFit) -> bool:
    """Is it open, no listed instrument can settle it, and nobody has dry-fitted it whole?"""
    return _beyond_reading(fit) and fit.strength != "dry-fitted"


def open_though_tried(fit: PairFit) -> bool:
    """The same, and it was dry-fitted whole: a hand does not tell how near to a limit something lies."""
    return _beyond_reading(fit) and fit.strength == "dry-fitted"


def _beyond_reading(fit: PairFit) -> bool:
    found = fit.measure_next
    return fit.word == "measure-first" and (found is None or found.how == "dry-fit")


def _worth(reading: Reading, asked: Sequence[MeasureNext]) -> Worth:
    closest = min((a.to_within for a in asked if a.to_within is not None), default=None)
    hows = {a.how for a in asked}
    how: How = hows.pop() if len(hows) == 1 else "needed"
    return Worth(reading, len(asked), closest, how)
