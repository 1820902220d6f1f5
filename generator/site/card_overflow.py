"""Says which typed text makes a card overflow, and by how many characters."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from functools import partial

from generator.render.cards.card import Block, Run, rewritten, runs_of
from generator.render.cards.deck import Deck
from generator.render.cards.sides import TooTall
from generator.site.typesetter import TypesettingFailed


@dataclass(frozen=True, slots=True)
class Refusal:
    """One typed text that does not fit: where it is written, on which card it stands, and what it must lose."""

    text: str
    card: str
    lose: int

    def __str__(self) -> str:
        return f"{self.text} does not fit on {self.card}: make it {self.lose} characters shorter"


class CardsRefused(Exception):
    """Texts that do not fit on their cards; nothing is shrunk or cut for them."""

    def __init__(self, refused: Iterable[Refusal]) -> None:
        """Of the same text on the same card in several formats, the one that loses most."""
        most: dict[tuple[str, str], Refusal] = {}
        for each in sorted(refused, key=lambda each: each.lose):
            most[each.text, each.card] = each
        self.said = tuple(str(most[key]) for key in sorted(most))
        super().__init__("\n".join(self.said))


def refusal_of(tall: TooTall, card: str, deck: Deck, height: Callable[[Block], float]) -> Refusal:
    """Record and field of the longest typed text of the block, and how many characters it must lose."""
    typed = [run for run in runs_of(tall.block) if run.origin]
    if not typed:
        raise TypesettingFailed(f"on {card} a block that nobody typed is taller than a side: {tall}")
    longest = max(typed, key=lambda run: len(run.text))
    assert longest.origin is not None
    place = deck.places.get(longest.origin.key, "")
    lose = len(longest.text) - _longest_that_fits(tall, longest, height)
    return Refusal(f"{place}{longest.origin.words}", card, lose)


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
