"""Which readings would settle most: the answer to 'what shall I measure next' for a whole club.

Goes in: the fits of all pairs.  Comes out: readings with the number of open pairs each would help.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from generator.compute.fit.result import PairFit, Reading


@dataclass(frozen=True, slots=True)
class Worth:
    """One reading, how many open pairs name it first, and the closest ± in nm any of them asks."""

    reading: Reading
    pairs: int
    to_within: int | None


def worth_measuring(fits: Iterable[PairFit]) -> tuple[Worth, ...]:
    """Most helpful first; ties in the order of kind, id and field."""
    asked: dict[Reading, list[int | None]] = {}
    for fit in fits:
        if fit.measure_next is not None:
            asked.setdefault(fit.measure_next.reading, []).append(fit.measure_next.to_within)
    worth = [
        Worth(reading, len(withins), min((w for w in withins if w is not None), default=None))
        for reading, withins in asked.items()
    ]
    return tuple(sorted(worth, key=lambda w: (-w.pairs, w.reading.kind, w.reading.id, w.reading.field)))
