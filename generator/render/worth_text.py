"""The end of `handbook check`: what is most worth measuring next.

Goes in: readings with the pairs they would help.  Comes out: plain text.
"""

from collections.abc import Iterator, Sequence

from generator.compute.fit.result import PairFit
from generator.compute.worth_measuring import Worth, only_a_try, open_though_tried
from generator.render.say.next_step import plus_minus

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
    tries = sum(only_a_try(fit) for fit in fits)
    if tries:
        yield f"no instrument listed settles {tries} of them: dry-fit them and record the trials"
    tried = sum(open_though_tried(fit) for fit in fits)
    if tried:
        yield f"neither an instrument listed nor the dry fit settles {tried} of them: count on the worse verdict"


def _readings(worth: Sequence[Worth]) -> Iterator[str]:
    if not worth:
        return
    yield "most worth measuring next:"
    for each in worth[:MOST_SHOWN]:
        pairs = "1 open pair" if each.pairs == 1 else f"{each.pairs} open pairs"
        yield f"  {each.reading.kind} {each.reading.id}: {_asked(each)}; {pairs}"
    if len(worth) > MOST_SHOWN:
        yield f"  and {len(worth) - MOST_SHOWN} more readings, none of them for more pairs"


def _asked(worth: Worth) -> str:
    field = worth.reading.field
    if worth.how == "question":
        return f"find out {field}"
    if worth.to_within is None:
        return field
    within = f"±{plus_minus(worth.to_within).mm}"
    if worth.how == "reachable":
        return f"{field}, not read yet (best listed {within})"
    return f"{field} to within {within}"
