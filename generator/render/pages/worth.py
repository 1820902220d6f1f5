"""What is most worth measuring next: for the whole club, and for one part.

Goes in: a book and fits.  Comes out: tables with the part and the way to read it, and a page.
"""

from collections.abc import Iterable, Iterator, Sequence

from generator.compute.fit.result import PairFit
from generator.compute.worth_measuring import Worth, only_a_try, open_though_tried, worth_measuring
from generator.render.base.page import Page
from generator.render.base.routes import FOLDERS, part_route
from generator.render.base.table import Cell, Column, Row, Table
from generator.render.pages.book import Book
from generator.render.say.names import PART_WORDS, dimension_title, parts_of, reading_name, recipe_of
from generator.render.say.next_step import plus_minus

PAGE = "worth-measuring/"
MOST_OF_A_PART = 5
_COLUMNS = (
    Column("Part", "head"),
    Column("Read or look at", "long"),
    Column("To within ±", "number"),
    Column("Open pairs it helps", "number"),
)


def worth_page(book: Book) -> Page:
    worth = worth_measuring(book.fits)
    return Page(
        path=PAGE,
        title="Worth measuring next",
        description="The readings that would settle most of the club's open pairs, most helpful first.",
        template="handbook/worth.html",
        context={
            "open": sum(fit.word == "measure-first" for fit in book.fits),
            "unjudged": sum(fit.word == "cannot-judge" for fit in book.fits),
            "tries": sum(only_a_try(fit) for fit in book.fits),
            "tried": sum(open_though_tried(fit) for fit in book.fits),
            "total": len(book.fits),
            "table": worth_table(book, "worth-measuring", "Readings that help most, first", worth),
        },
        search=(
            "worth measuring next",
            "what to measure next",
            "measure next",
            "open pairs",
            "to do at the bench",
        ),
        kind="worth-measuring",
        in_nav=True,
    )


def worth_of_part(book: Book, id_: str, fits: Iterable[PairFit]) -> Table | None:
    """The first few for the open pairs of one chain or link."""
    few = worth_measuring(fits)[:MOST_OF_A_PART]
    return worth_table(book, f"worth-{id_}", f"Worth measuring next for {id_}", few)


def worth_table(book: Book, id_: str, caption: str, worth: Sequence[Worth]) -> Table | None:
    rows = tuple(_rows(book, worth))
    return Table(id_, caption, _COLUMNS, rows) if rows else None


def _rows(book: Book, worth: Iterable[Worth]) -> Iterator[Row]:
    for each in worth:
        kind, part = each.reading.kind, each.reading.id
        to = part_route(kind, part) if kind in FOLDERS and part in parts_of(book.dataset, kind) else ""
        yield Row(
            (
                Cell(part, to=to, note=PART_WORDS.get(kind, kind)),
                _how(book, each),
                _within(each),
                Cell(str(each.pairs)),
            )
        )


def _within(each: Worth) -> Cell:
    if each.how == "question" or each.to_within is None:
        return Cell("a word" if each.how == "question" else "any")
    note = "not read yet: the best listed" if each.how == "reachable" else ""
    return Cell(length=plus_minus(each.to_within), note=note)


def _how(book: Book, each: Worth) -> Cell:
    """The name of the reading, leading to the way it is read."""
    reading, dataset = each.reading, book.dataset
    recipe = recipe_of(dataset, reading.kind, reading.field)
    if recipe is None:
        return Cell(reading_name(dataset, reading))
    to = f"measuring/{recipe[0]}/"
    return Cell(dimension_title(dataset, reading.kind, reading.field), to=to if to in book.elsewhere else "")
