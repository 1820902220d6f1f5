"""Tables of fits: the links of a chain, the chains of a link.

Goes in: a book and fits.  Comes out: tables with the verdict right after the first column.
"""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace

from generator.compute.fit.result import PairFit
from generator.model.shipped import RUNGS
from generator.render.base.routes import part_route
from generator.render.base.table import Cell, Column, Row, Table
from generator.render.base.verdicts import CANNOT_JUDGE, MEASURE_FIRST
from generator.render.pages.book import Book
from generator.render.pages.downloads import with_downloads, with_fits
from generator.render.pages.fit_cells import (
    NUMBER_COLUMNS,
    VERDICT,
    WAY_COLUMNS,
    number_cells,
    verdict_cell,
    way_cells,
)
from generator.render.say.names import listed

LINK = Column("Connecting link", "head")
CHAIN = Column("Chain", "head")
FOUND, *ENDS = NUMBER_COLUMNS[:3]
WORDS = (*RUNGS[:3], MEASURE_FIRST, CANNOT_JUDGE, RUNGS[3])


def links_on_chain(
    book: Book, id_: str, caption: str, fits: Sequence[PairFit], anchors: bool = False
) -> Table:
    """A row a link of the fits of one chain, at least one; with anchors each can be led to."""
    table = _table(book, id_, caption, LINK, fits, lambda fit: _link_cell(book, fit), anchors)
    if not book.brief:
        return with_downloads(table)
    return with_fits(without_ends(table), f"pairs-{fits[0].chain}", "all links on this chain")


def all_on_chain(book: Book, chain: str) -> Table:
    """Every link with every column, for a file."""
    fits = book.of_chain[chain]
    table = _table(
        book, f"pairs-{chain}", f"Every link on {chain}", LINK, fits, lambda f: _link_cell(book, f), True
    )
    return with_fits(table)


def chains_for_link(book: Book, id_: str, caption: str, fits: Sequence[PairFit]) -> Table:
    table = _table(book, id_, caption, CHAIN, fits, lambda fit: _chain_cell(book, fit), False)
    return with_fits(without_ends(table)) if book.brief else with_downloads(table)


def _table(
    book: Book,
    id_: str,
    caption: str,
    head: Column,
    fits: Sequence[PairFit],
    cell: Callable[[PairFit], Cell],
    anchors: bool,
) -> Table:
    columns = (head, VERDICT, *WAY_COLUMNS, *NUMBER_COLUMNS)
    rows = tuple(
        Row(
            (cell(fit), verdict_cell(fit), *way_cells(book.dataset, fit), *number_cells(book.dataset, fit)),
            id=fit.link if anchors else "",
        )
        for fit in fits
    )
    return Table(id_, caption, columns, rows)


def without_ends(table: Table) -> Table:
    """Where there are many pairs the least, the most and what they are stand in the file of all links on a chain."""
    kept = [at for at, column in enumerate(table.columns) if column not in ENDS]
    found = table.columns.index(FOUND)
    rows = tuple(
        Row(tuple(replace(row.cells[at], note="") if at == found else row.cells[at] for at in kept), row.id)
        for row in table.rows
    )
    return replace(table, columns=tuple(table.columns[at] for at in kept), rows=rows)


def _link_cell(book: Book, fit: PairFit) -> Cell:
    name = book.dataset.links[fit.link].record.name or ""
    return Cell(fit.link, to=part_route("link", fit.link), note=name)


def _chain_cell(book: Book, fit: PairFit) -> Cell:
    name = book.dataset.chains[fit.chain].record.name or ""
    return Cell(fit.chain, to=part_route("chain", fit.chain), note=name)


def in_count(fits: Iterable[PairFit]) -> str:
    """`2 proper, 3 get-home and 1 no-go`."""
    words = [fit.word for fit in fits]
    counted = [f"{words.count(word)} {word}" for word in WORDS if word in words]
    return listed(counted) if counted else "none"
