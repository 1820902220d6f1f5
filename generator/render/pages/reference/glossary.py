"""The words of the trade, British and American, each with an anchor of its own."""

from collections.abc import Iterator
from dataclasses import dataclass

from generator.model.dataset import Shelf
from generator.model.shipped import Term
from generator.render.base.page import Download, Page
from generator.render.base.table import Cell
from generator.render.pages.book import Book
from generator.render.pages.reference.cells import source_cell


@dataclass(frozen=True, slots=True)
class ShownTerm:
    """A word, its meaning and what others call it."""

    id: str
    title: str
    meaning: str
    us: str
    uk: str
    also: str
    source: Cell | None


@dataclass(frozen=True, slots=True)
class Letter:
    """Words that start alike."""

    letter: str
    terms: tuple[ShownTerm, ...]


def glossary_page(book: Book) -> Page:
    dataset = book.dataset
    terms = sorted(dataset.shelf.glossary.items(), key=lambda pair: pair[1].title.lower())
    return Page(
        path="glossary/",
        title="Words",
        description="The words of the trade, with what Americans and Britons call the same thing.",
        template="handbook/glossary.html",
        context={"letters": tuple(_letters(dataset.shelf, terms))},
        search=(
            "glossary",
            "dictionary",
            "terms",
            "vocabulary",
            "what is it called",
            "American words",
            "British words",
        ),
        kind="glossary",
        in_nav=True,
        files=(Download("JSON", "data/v1/glossary.json"),),
    )


def _letters(shelf: Shelf, terms: list[tuple[str, Term]]) -> Iterator[Letter]:
    letters = sorted({term.title[0].upper() for _, term in terms})
    for letter in letters:
        yield Letter(letter, tuple(_term(shelf, id_, t) for id_, t in terms if t.title[0].upper() == letter))


def _term(shelf: Shelf, id_: str, term: Term) -> ShownTerm:
    source = source_cell(shelf, term.source) if term.source else None
    us, uk, also = (", ".join(words) for words in (term.us, term.uk, term.also))
    return ShownTerm(id_, term.title, term.meaning, us, uk, also, source)
