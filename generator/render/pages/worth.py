"""What is worth doing next: for the whole club, and for one part."""

from collections.abc import Iterable, Iterator

from generator.compute.fit.result import PairFit
from generator.compute.worth_doing import Evening, Worth, worth_doing
from generator.render.base.components import GoRow
from generator.render.base.page import Page
from generator.render.base.routes import FOLDERS, pair_route_of, part_route
from generator.render.pages.book import Book
from generator.render.say.acts import act_doing, act_questions, act_subject, act_title
from generator.render.say.names import recipe_of
from generator.render.say.worth import helps, lead_of, stand_note

PAGE = "worth-doing/"
MOST_OF_A_PART = 5


def worth_page(book: Book) -> Page:
    fits = book.fits
    counts = {word: sum(fit.word == word for fit in fits) for word in ("measure-first", "cannot-judge")}
    evening = worth_doing(fits, book.acts)
    return Page(
        path=PAGE,
        title="Worth doing next",
        description="What would settle most of the club's open pairs, most helpful first.",
        template="handbook/worth.html",
        context={
            "lead": lead_of(len(fits), counts["measure-first"], counts["cannot-judge"]),
            "rows": tuple(_rows(book, evening.worth)),
            "sheets": tuple(_sheets(book, evening)),
            "notes": stand_note(len(evening.stand)),
        },
        search=(
            "worth doing next",
            "worth measuring next",
            "what to measure next",
            "measure next",
            "open pairs",
            "to do at the bench",
        ),
        kind="worth-doing",
        in_nav=True,
    )


def worth_of_part(book: Book, fits: Iterable[PairFit]) -> tuple[GoRow, ...]:
    """The first few for the open pairs of one chain or link."""
    return tuple(_rows(book, worth_doing(fits, book.acts).worth[:MOST_OF_A_PART]))


def _rows(book: Book, worth: Iterable[Worth]) -> Iterator[GoRow]:
    """What is handled leads to the way it is read, else to the part or the pair."""
    for each in worth:
        name, tag = act_subject(book.dataset, each.act)
        detail = helps(act_doing(book.dataset, each.act), each.pairs, each.act.effort)
        yield GoRow(_leads_to(book, each), name, tag, detail=detail)


def _leads_to(book: Book, worth: Worth) -> str:
    act = worth.act
    recipe = recipe_of(book.dataset, act.ask[0].kind, act.ask[0].field) if act.kind == "measure" else None
    how = f"measuring/{recipe[0]}/" if recipe else ""
    if how in book.elsewhere:
        return how
    kind, id_ = act.part
    return part_route(kind, id_) if kind in FOLDERS else pair_route_of(*worth.pairs[0])


def _sheets(book: Book, evening: Evening) -> Iterator[tuple[str, tuple[str, ...]]]:
    """What to print for an evening: each act with its questions, and a place for the answers."""
    for worth in evening.worth[:MOST_ON_A_SHEET]:
        questions = (question.split(" [")[0] for question in act_questions(book.dataset, worth.act))
        yield act_title(book.dataset, worth.act), tuple(questions)


MOST_ON_A_SHEET = 12
