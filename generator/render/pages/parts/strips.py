"""The list of spare strips, and a page a strip: which chains it can mend, and with which links."""

from collections.abc import Iterator, Sequence

from generator.compute.grouped import grouped
from generator.compute.others.result import NeighbourFit, PartFit
from generator.model.chain_parts import Strip
from generator.model.dataset import Dataset, Part
from generator.model.shipped import NO_GO
from generator.render.base.page import Page
from generator.render.base.table import Cell, Column, Row
from generator.render.pages.book import Book
from generator.render.pages.facts import Fact, fact
from generator.render.pages.parts.frame import (
    STOCK_COLUMNS,
    list_head,
    list_page,
    meets,
    part_page,
    size_fact,
    stock_cells,
    stock_facts,
)
from generator.render.pages.parts.met import entry_of, join_entries
from generator.render.say.parts import (
    JOINS,
    JOINS_SAY,
    LET_INTO,
    NO_CHAIN_FOR_STRIP,
    NO_LINK_FOR_STRIP,
    STRIP_SAYS,
    left_out,
)

CAUTIONS = ("steady-bike", "flying-parts", "after-repair")
SEALS = {
    "O": "O-rings",
    "X": "X-rings",
    "other": "other seals",
    "none": "no seals",
    "unknown": "seals not known",
}


def strip_pages(book: Book) -> Iterator[Page]:
    of_strip = grouped(book.others.strips, lambda fit: fit.id_of("strip"))
    joins = grouped(book.others.neighbours, lambda fit: fit.strip)
    yield _list(book.dataset)
    for strip in book.dataset.strips.values():
        yield _page(book, strip, of_strip.get(strip.id, []), joins.get(strip.id, []))


def _list(dataset: Dataset) -> Page:
    columns = (
        Column("Strip", "head"),
        Column("Size code"),
        Column("Kind"),
        Column("Pitches", "number", "pitches: {}"),
        *STOCK_COLUMNS,
    )
    description = "Every spare strip of chain the club has, how many pitches long and where it is kept."
    return list_page(
        dataset, "strip", description, columns, (_row(strip) for strip in dataset.strips.values())
    )


def _row(strip: Part[Strip]) -> Row:
    record = strip.record
    cells = (list_head(strip), Cell(record.size_code), Cell(_kind(record)), Cell(str(record.pitches)))
    return Row((*cells, *stock_cells(strip)), id=strip.id)


def _kind(record: Strip) -> str:
    if record.kind == "unknown":
        return "not known whether plain or sealed"
    return "plain" if record.kind == "plain" else f"sealed, {SEALS[record.seal]}"


def _page(book: Book, strip: Part[Strip], fits: Sequence[PartFit], joins: Sequence[NeighbourFit]) -> Page:
    """Links that are no-go whatever is measured are only counted: what joins a strip is asked, not what does not."""
    able = [fit for fit in joins if fit.best != NO_GO]
    says = f"{JOINS_SAY} {left_out(len(joins) - len(able))}".rstrip()
    return part_page(
        book.dataset,
        strip,
        f"Spare strip {strip.id}, {strip.record.pitches} pitches of {strip.record.size_code}: what it can mend.",
        _facts(book.dataset, strip),
        CAUTIONS,
        lambda: [
            meets(LET_INTO, STRIP_SAYS, [entry_of(book, fit, "chain") for fit in fits], NO_CHAIN_FOR_STRIP),
            meets(JOINS, says, join_entries(book, able), NO_LINK_FOR_STRIP, "joined-"),
        ],
    )


def _facts(dataset: Dataset, strip: Part[Strip]) -> Iterator[Fact | None]:
    record = strip.record
    yield from stock_facts(dataset, strip)
    yield size_fact(strip)
    yield fact("Kind", _kind(record))
    yield fact("Pitches", f"{record.pitches}, both ends inner")
    worn = record.elongation
    yield fact("Longer than new", f"{worn} %" if worn and worn != "unknown" else "not known")
