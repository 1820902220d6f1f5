"""The end of `handbook check`: what is worth doing next, most helpful first."""

from collections.abc import Iterator, Sequence

from generator.compute.fit.result import PairFit
from generator.compute.worth_doing import Evening, Worth
from generator.model.dataset import Dataset
from generator.render.say.acts import act_title
from generator.render.say.worth import pairs_in_words

MOST_SHOWN = 5


def worth_text(dataset: Dataset, evening: Evening, fits: Sequence[PairFit], pairs: int) -> str:
    """How many of all pairs are open, by the fits that are not settled, and the first few acts that would help."""
    return "".join(f"{line}\n" for line in (*_state(evening, fits, pairs), *_acts(dataset, evening.worth)))


def _state(evening: Evening, fits: Sequence[PairFit], pairs: int) -> Iterator[str]:
    if not pairs:
        yield "no pair to judge yet: write down a chain and a connecting link"
        return
    unjudged = sum(fit.word == "cannot-judge" for fit in fits)
    undecided = sum(fit.word == "measure-first" for fit in fits)
    if not unjudged and not undecided:
        yield f"{'the one pair is' if pairs == 1 else f'all of {pairs} pairs are'} decided by what is known"
        return
    yield f"of {pairs} {'pair' if pairs == 1 else 'pairs'} {undecided} are not settled and {unjudged} cannot be judged"
    if evening.stand:
        yield f"nothing the club owns settles {len(evening.stand)} of them: each counts as the worst it could be"


def _acts(dataset: Dataset, worth: Sequence[Worth]) -> Iterator[str]:
    if not worth:
        return
    yield "worth doing next:"
    for each in worth[:MOST_SHOWN]:
        asked = ", ".join(dict.fromkeys(reading.field for reading in each.act.ask))
        title = act_title(dataset, each.act)
        about = f" ({asked})" if each.act.kind in ("look", "measure") else ""
        yield f"  {title}{about}; {pairs_in_words(each.pairs)}, {each.act.effort} minutes"
    if len(worth) > MOST_SHOWN:
        yield f"  and {len(worth) - MOST_SHOWN} more, all on the page 'worth doing next'"
