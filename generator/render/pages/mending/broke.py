"""Chain broke: what is missing, in three pictures; every other failure; what covers what, as a grid."""

from collections.abc import Iterator, Mapping
from dataclasses import replace

from generator.compute.grouped import grouped
from generator.compute.repair.result import Case
from generator.model.shipped import NO_GO, RUNGS
from generator.render.base.components import GoRow, GridRow, Mark, TrailWay
from generator.render.base.page import Page
from generator.render.base.routes import part_route
from generator.render.base.table import Cell, Column, Row, Table
from generator.render.base.verdicts import ShownVerdict, shown_verdict
from generator.render.cards.kinds import repair_card_links
from generator.render.pages.book import Book
from generator.render.pages.mending.failure import failure_route
from generator.render.say.cautions import shown_caution
from generator.render.say.names import listed, named
from generator.render.say.repair import reason_text

BROKE = "repair/"
COVERAGE = "repair/coverage/"
# the three pictures: failure, words, what one sees, drawing
CHOICES = (
    ("connecting-link-lost", "The joint", "both ends are narrow links", "joint-gone"),
    ("outer-plate-broken", "A plate or pin", "an outer link hangs on one end", "outer-torn"),
    ("inner-link-broken", "A roller link", "a narrow link is torn", "inner-torn"),
)
GROUPS: Mapping[str, str] = {
    "joint": "At the joint",
    "outer": "An outer link",
    "inner": "A narrow link",
    "other": "Something else",
}
NO_CELL = "far"


def broke_page(book: Book) -> Page:
    shelf = book.dataset.shelf
    groups = tuple((id_, title, tuple(_rows(book, id_))) for id_, title in GROUPS.items())
    return Page(
        path=BROKE,
        title="Chain broke",
        description="A chain has broken, come off or lost a part: find what is missing, then the repair for your bike.",
        template="handbook/broke.html",
        context={
            "cards": repair_card_links(),
            "danger": shown_caution("engine-off", shelf.cautions["engine-off"]),
            "locking": shown_caution("locking-wheel", shelf.cautions["locking-wheel"]),
            "choices": tuple(
                TrailWay(failure_route(id_), name, sees, picture) for id_, name, sees, picture in CHOICES
            ),
            "groups": groups,
            "left_out": tuple(shelf.mending.left_out.values()),
            "coverage": COVERAGE,
            "key": _key(),
        },
        search=("chain broke", "chain snapped", "chain came off", "repair", "mend the chain", "broken chain"),
        kind="repair",
        in_nav=True,
    )


def _key() -> tuple[ShownVerdict, ...]:
    """The verdicts of repairs: the worst of them is that there is none."""
    return tuple(
        replace(shown_verdict(word, rung, rung), label="no repair" if rung == NO_GO else word)
        for rung, word in enumerate(RUNGS)
    )


def _rows(book: Book, choice: str) -> Iterator[GoRow]:
    for id_, failure in book.dataset.shelf.mending.failures.items():
        if failure.choice == choice:
            cases = [case for (_, of), case in book.repairs.items() if of == id_ and case.happens]
            yield GoRow(failure_route(id_), failure.title, detail=failure.looks, counts=_counts(cases))


def _counts(cases: list[Case]) -> tuple[tuple[str, int], ...]:
    return tuple((word, sum(case.rung == rung for case in cases)) for rung, word in enumerate(RUNGS))


def coverage_page(book: Book) -> Page:
    alike = grouped(book.dataset.bikes, lambda bike: _word_column(book, bike))
    columns = [tuple(bikes) for bikes in alike.values()]
    failures = book.dataset.shelf.mending.failures
    return Page(
        path=COVERAGE,
        title="What can be mended on which bike",
        description="Every bike with every failure: the best that the club's parts and tools make of it.",
        template="handbook/coverage.html",
        context={
            "columns": tuple((" ".join(bikes), part_route("bike", bikes[0])) for bikes in columns),
            "rows": tuple(
                GridRow(
                    failure.title,
                    to=failure_route(id_),
                    marks=tuple(_mark(book, book.repairs[bikes[0], id_], bikes) for bikes in columns),
                )
                for id_, failure in failures.items()
            ),
            "bikes": tuple(_bike(book, bike) for bike in book.dataset.bikes),
            "key": _key(),
        },
        search=("coverage", "bikes and failures", "what can be mended"),
        kind="coverage",
        wide=True,
        tables=(_table(book),),
    )


def _word_column(book: Book, bike: str) -> tuple[int, ...]:
    """Bikes with the same one share a column."""
    cases = (book.repairs[bike, failure] for failure in book.dataset.shelf.mending.failures)
    return tuple(case.rung if case.happens else -1 for case in cases)


def _mark(book: Book, case: Case, bikes: tuple[str, ...]) -> Mark:
    failure = book.dataset.shelf.mending.failures[case.failure].title
    on = listed(list(bikes))
    if not case.happens:
        return Mark(NO_CELL, f"{failure} on {on}: cannot happen to its joint")
    said = RUNGS[case.rung] if case.rung < NO_GO else "no repair"
    return Mark(RUNGS[case.rung], f"{failure} on {on}: {said}", failure_route(case.failure, case.bike))


def _bike(book: Book, bike: str) -> GoRow:
    cases = [case for (of, _), case in book.repairs.items() if of == bike and case.happens]
    none = sum(case.rung == NO_GO for case in cases)
    return GoRow(
        part_route("bike", bike),
        named(book.dataset.bikes[bike]),
        tag=bike,
        detail=f"{len(cases) - none} of {len(cases)} can be mended",
        counts=_counts(cases),
    )


def _table(book: Book) -> Table:
    columns = (
        Column("Bike", "head"),
        Column("Failure"),
        Column("Counts as"),
        Column("Way"),
        Column("Change in pitches", "number"),
        Column("Reason", "long"),
    )
    rows = (_row(book, case) for case in book.repairs.values() if case.happens)
    return Table("repairs", "Every failure of every bike and what mends it best", columns, tuple(rows))


def _row(book: Book, case: Case) -> Row:
    best = case.repairs[0] if case.repairs else None
    reason = reason_text(book.dataset, case.reason) if case.reason is not None else ""
    return Row(
        (
            Cell(case.bike),
            Cell(case.failure),
            Cell(RUNGS[case.rung]),
            Cell(best.way if best else ""),
            Cell(str(best.change) if best else ""),
            Cell(reason),
        )
    )
