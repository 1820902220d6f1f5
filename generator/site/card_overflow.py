"""Says which typed text makes a card overflow, and by how many characters."""

from collections.abc import Callable
from dataclasses import replace
from functools import partial

from generator.render.cards.card import Block, CardSet, Run, rewritten, runs_of
from generator.render.cards.deck import Deck
from generator.render.cards.sides import TooTall


class CardsRefused(Exception):
    """Texts that do not fit on their cards; nothing is shrunk or cut for them."""

    def __init__(self, said: tuple[str, ...]) -> None:
        super().__init__("\n".join(said))
        self.said = said


def said_of(tall: TooTall, card: CardSet, deck: Deck, height: Callable[[Block], float]) -> str:
    """Record and field of the longest typed text of the block, and how many characters it must lose."""
    typed = [run for run in runs_of(tall.block) if run.origin]
    if not typed:
        raise AssertionError(
            f"a block of {card.title} is taller than a side, and nothing in it was typed: {tall}"
        )
    longest = max(typed, key=lambda run: len(run.text))
    keep = _longest_that_fits(tall, longest, height)
    place = deck.places.get(longest.origin.key, "") if longest.origin else ""
    where = longest.origin.words if longest.origin else ""
    lose = len(longest.text) - keep
    return f"{place}{where} does not fit on the cards ({card.title}): make it {lose} characters shorter"


def _longest_that_fits(tall: TooTall, run: Run, height: Callable[[Block], float]) -> int:
    """The most characters of the run with which the block fits; found by halving, since lines break where they do."""
    low, high = 0, len(run.text)
    while high - low > 1:
        middle = (low + high) // 2
        fits = height(rewritten(tall.block, partial(_cut, run, middle))) <= tall.room
        low, high = (middle, high) if fits else (low, middle)
    return low


def _cut(run: Run, to: int, each: Run) -> Run:
    return replace(each, text=each.text[:to]) if each == run else each
