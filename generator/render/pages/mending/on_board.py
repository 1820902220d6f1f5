"""What can happen to one bike, and what the club's spares as planned make of it; for the page of the bike."""

from collections.abc import Iterator

from generator.compute.spares.result import Served
from generator.model.shipped import RUNGS
from generator.render.base.components import FitRow
from generator.render.base.verdicts import shown_verdict
from generator.render.pages.book import Book
from generator.render.pages.mending.failure import failure_route
from generator.render.say.names import listed
from generator.render.say.repair import BEARERS, parts_text, reason_text
from generator.render.say.said import capital


def on_board(book: Book, bike: str) -> tuple[FitRow, ...]:
    """A row a failure that can happen to its joint, in the order of the failures; each leads to its steps."""
    carriers = {
        (item.kind, item.id): BEARERS[load.bearer.kind].lower()
        for load in reversed(book.plans.club.loads)
        for item in load.items
    }
    return tuple(_row(book, each, carriers) for each in book.plans.club.demands if each.bike == bike)


def _row(book: Book, each: Served, carriers: dict[tuple[str, str], str]) -> FitRow:
    mending = book.dataset.shelf.mending
    verdict = shown_verdict(RUNGS[each.rung], each.rung, each.rung)
    return FitRow(
        verdict,
        mending.failures[each.failure].title,
        goes_in=mending.ways[each.repair.way].title if each.repair is not None else "",
        why=tuple(_why(book, each, carriers)),
        to=failure_route(each.failure, each.bike),
        label="" if each.served else "none",
    )


def _why(book: Book, each: Served, carriers: dict[tuple[str, str], str]) -> Iterator[str]:
    """The parts and who has them, or why nothing mends it."""
    if each.repair is None:
        yield f"{capital(reason_text(book.dataset, each.reason))}." if each.reason is not None else ""
        return
    parts = parts_text(book.dataset, each.repair)
    who = list(dict.fromkeys(carriers[kind, id_] for kind, id_, _ in each.takes if (kind, id_) in carriers))
    yield f"{parts}. " if parts else ""
    yield f"With the {listed(who)}." if who else ""
