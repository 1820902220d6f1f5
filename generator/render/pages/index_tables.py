"""The lists of bikes, chains and links as tables, for files that a spreadsheet opens."""

from collections.abc import Iterable

from generator.compute.fit.result import PairFit
from generator.render.base.routes import part_route
from generator.render.base.table import Cell, Column, Row, Table
from generator.render.pages.book import Book
from generator.render.pages.fit_sections import chips_from


def bikes_table(book: Book) -> Table:
    rows = (
        (id_, (b.record.name or "", b.record.chain, _teeth(b.record.front_teeth, b.record.rear_teeth),
               str(b.record.pitches), counts_of(book.by_bike[id_])))
        for id_, b in book.dataset.bikes.items()
    )  # fmt: skip
    return _table(
        "bike", "bikes", "Bikes of the club", ("Name", "Chain", "Sprockets", "Pitches", "Links"), rows
    )


def chains_table(book: Book) -> Table:
    rows = (
        (
            id_,
            (
                c.record.name or "",
                c.record.size_code,
                c.record.kind,
                " ".join(book.bikes_of[id_]),
                counts_of(book.of_chain[id_]),
            ),
        )
        for id_, c in book.dataset.chains.items()
    )
    return _table(
        "chain", "chains", "Chains of the club", ("Name", "Size code", "Kind", "Bikes", "Links"), rows
    )


def links_table(book: Book) -> Table:
    rows = (
        (id_, (li.record.name or "", li.record.size_code, li.record.closure, li.record.plate_fit, str(li.record.count),
               li.record.kept_in or "", counts_of(book.of_link[id_])))
        for id_, li in book.dataset.links.items()
    )  # fmt: skip
    columns = ("Name", "Size code", "Closed by", "Side plate", "How many", "Kept in", "Chains")
    return _table("link", "links", "Connecting links of the club", columns, rows)


def counts_of(fits: Iterable[PairFit]) -> str:
    """`3 proper, 15 get-home, 24 no-go, 11 not settled`."""
    return ", ".join(f"{chip.count} {chip.label}" for chip in chips_from(fits)) or "none"


def _teeth(front: int, rear: int) -> str:
    return f"{front} and {rear} teeth"


def _table(
    kind: str, id_: str, caption: str, columns: Iterable[str], rows: Iterable[tuple[str, tuple[str, ...]]]
) -> Table:
    made = tuple(Row((Cell(of, to=part_route(kind, of)), *map(Cell, cells)), id=of) for of, cells in rows)
    return Table(id_, caption, (Column(kind.capitalize(), "head"), *map(Column, columns)), made)
