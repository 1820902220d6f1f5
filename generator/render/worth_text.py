"""The end of `handbook check`: what is most worth measuring next.

Goes in: readings with the pairs they would help.  Comes out: plain text.
"""

from collections.abc import Iterator, Sequence

from generator.compute.fit.result import PairFit
from generator.compute.worth_measuring import Worth
from generator.model.quantity import NM_PER_MM

MOST_SHOWN = 5


def worth_text(worth: Sequence[Worth], fits: Sequence[PairFit]) -> str:
    """How many pairs are open, and the first few readings that would help, most helpful first."""
    return "".join(f"{line}\n" for line in (*_state(fits), *_readings(worth)))


def _state(fits: Sequence[PairFit]) -> Iterator[str]:
    if not fits:
        yield "no pair to judge yet: write down a chain and a connecting link"
        return
    unjudged = sum(fit.word == "cannot-judge" for fit in fits)
    undecided = sum(fit.word == "measure-first" for fit in fits)
    if not unjudged and not undecided:
        yield f"all of {len(fits)} pairs are decided by what is known"
        return
    yield f"of {len(fits)} pairs {undecided} are measure-first and {unjudged} cannot be judged"
    unnamed = sum(fit.word == "measure-first" and fit.measure_next is None for fit in fits)
    if unnamed:
        yield f"no one reading is named for {unnamed} of them: measure the chain and the link first"


def _readings(worth: Sequence[Worth]) -> Iterator[str]:
    if not worth:
        return
    yield "most worth measuring next:"
    for each in worth[:MOST_SHOWN]:
        close = f" to within ±{each.to_within / NM_PER_MM:.3g} mm" if each.to_within else ""
        pairs = "1 open pair" if each.pairs == 1 else f"{each.pairs} open pairs"
        yield f"  {each.reading.kind} {each.reading.id}: {each.reading.field}{close} ({pairs})"
