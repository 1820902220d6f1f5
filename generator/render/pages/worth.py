"""What is worth doing next: for the whole club, and for one part."""

from collections.abc import Iterable, Iterator

from generator.compute.fit.result import PairFit
from generator.compute.worth_measuring import Worth, only_a_try, open_though_tried, worth_measuring
from generator.render.base.components import GoRow
from generator.render.base.page import Page
from generator.render.base.routes import FOLDERS, part_route
from generator.render.pages.book import Book
from generator.render.say.names import dimension_title, named, parts_of, reading_name, recipe_of
from generator.render.say.next_step import plus_minus
from generator.render.say.worth import as_closely, helps, lead_of, worth_notes

PAGE = "worth-measuring/"
MOST_OF_A_PART = 5


def worth_page(book: Book) -> Page:
    fits = book.fits
    counts = {word: sum(fit.word == word for fit in fits) for word in ("measure-first", "cannot-judge")}
    return Page(
        path=PAGE,
        title="Worth doing next",
        description="What would settle most of the club's open pairs, most helpful first.",
        template="handbook/worth.html",
        context={
            "lead": lead_of(len(fits), counts["measure-first"], counts["cannot-judge"]),
            "rows": tuple(_rows(book, worth_measuring(fits))),
            "notes": worth_notes(
                sum(only_a_try(fit) for fit in fits), sum(open_though_tried(fit) for fit in fits)
            ),
        },
        search=(
            "worth doing next",
            "worth measuring next",
            "what to measure next",
            "measure next",
            "open pairs",
            "to do at the bench",
        ),
        kind="worth-measuring",
        in_nav=True,
    )


def worth_of_part(book: Book, fits: Iterable[PairFit]) -> tuple[GoRow, ...]:
    """The first few for the open pairs of one chain or link."""
    return tuple(_rows(book, worth_measuring(fits)[:MOST_OF_A_PART]))


def _rows(book: Book, worth: Iterable[Worth]) -> Iterator[GoRow]:
    """What to read leads to the way it is read, else to the part."""
    for each in worth:
        reading, dataset = each.reading, book.dataset
        kind, id_ = reading.kind, reading.id
        known = kind in FOLDERS and id_ in parts_of(dataset, kind)
        recipe = recipe_of(dataset, kind, reading.field)
        how = f"measuring/{recipe[0]}/" if recipe else ""
        title = dimension_title(dataset, kind, reading.field) if recipe else reading_name(dataset, reading)
        of = named(parts_of(dataset, kind)[id_]) if known else ""
        within = (
            ""
            if each.how == "question"
            else as_closely(plus_minus(each.to_within).mm if each.to_within else "")
        )
        yield GoRow(
            how if how in book.elsewhere else part_route(kind, id_) if known else "measuring/",
            f"{title[:1].upper()}{title[1:]}",
            tag=id_,
            detail=helps(of, within, each.pairs),
        )
