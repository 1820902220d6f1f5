"""Two boxes of the start page: what is on the bike, what is in the bag, and the verdicts between them in few bytes."""

import json
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Any

from markupsafe import Markup

from generator.compute.fit.result import PairFit
from generator.compute.grouped import grouped
from generator.render.base.verdicts import ShownVerdict, shown_verdict
from generator.render.pages.all_pairs import by_size
from generator.render.pages.book import Book
from generator.render.say.names import small_named

DIGITS = "0123456789abcdefghijklmnopqrstuvwxyz"
# as they are told apart by a character of the data
WORDS = ("proper", "get-home", "last-resort", "no-go", "measure-first", "cannot-judge")


@dataclass(frozen=True, slots=True)
class Choice:
    """One line of a box."""

    id: str
    says: str


@dataclass(frozen=True, slots=True)
class Choices:
    """Lines under a head."""

    title: str
    choices: tuple[Choice, ...]


@dataclass(frozen=True, slots=True)
class Finder:
    """`data` is JSON: links in their order, and for each bike or chain its chain, a character a link, and the
    panels of the pages that speak of that bike alone."""

    on: tuple[Choices, ...]
    bag: tuple[Choices, ...]
    answers: tuple[ShownVerdict, ...]
    data: Markup


def finder_of(book: Book) -> Finder:
    bikes = Choices("Bikes", tuple(_choice(id_, book.dataset.bikes[id_]) for id_ in book.dataset.bikes))
    chains = tuple(_choice(id_, book.dataset.chains[id_]) for id_ in loose_chains(book))
    spare = (Choices("Chains on no bike", chains),) if chains else ()
    on = tuple(each for each in (bikes, *spare) if each.choices)
    answers = tuple(shown_verdict(word, rung, rung) for rung, word in enumerate(WORDS[:4]))
    open_ = (
        ShownVerdict("measure-first", "measure first"),
        shown_verdict("cannot-judge", None, None),
    )
    return Finder(on, tuple(_bag(book)), (*answers, *open_), _in_page(_data(book)))


def loose_chains(book: Book) -> list[str]:
    return [id_ for id_ in book.dataset.chains if not book.bikes_of[id_]]


def _choice(id_: str, part: Any) -> Choice:
    name = small_named(part)
    return Choice(id_, id_ if name == id_ else f"{id_} {name}")


def _bag(book: Book) -> Iterator[Choices]:
    links = by_size(book, book.dataset.links.values())
    for code, group in grouped(links, lambda link: str(getattr(link.record, "size_code", ""))).items():
        known = code in book.dataset.shelf.sizes
        yield Choices(code if known else "Size not known", tuple(_choice(link.id, link) for link in group))


def _data(book: Book) -> dict[str, Any]:
    links = [choice.id for choices in _bag(book) for choice in choices.choices]
    on = {bike: _answers(bike_chain(book, bike), book.by_bike[bike], links) for bike in book.dataset.bikes}
    on |= {chain: _answers(chain, book.of_chain[chain], links) for chain in loose_chains(book)}
    return {"links": links, "words": WORDS, "on": on}


def bike_chain(book: Book, bike: str) -> str:
    return book.dataset.bikes[bike].record.chain


def _answers(chain: str, fits: Iterable[PairFit], links: list[str]) -> list[str]:
    """The chain, and twice the place of the word, plus one for a page of its own."""
    found = {fit.link: fit for fit in fits}
    return [
        chain,
        "".join(DIGITS[2 * WORDS.index(found[link].word) + found[link].own_page] for link in links),
    ]


def _in_page(data: dict[str, Any]) -> Markup:
    """JSON that no tag can end."""
    return Markup(json.dumps(data, sort_keys=True, separators=(",", ":")).replace("<", "\\u003c"))
