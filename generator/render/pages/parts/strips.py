"""The list of spare strips, and a page a strip: which chains it can mend, and with which links.

Goes in: a dataset and the fits of its strips.  Comes out: pages.
"""

from collections.abc import Iterator, Sequence

from generator.compute.grouped import grouped
from generator.compute.others.result import NeighbourFit, PartFit
from generator.model.chain_parts import Strip
from generator.model.dataset import Dataset, Part
from generator.model.shipped import NO_GO
from generator.render.base.page import Page
from generator.render.base.table import Cell, Column, Row, Table
from generator.render.base.verdicts import best_first
from generator.render.many import many_pairs
from generator.render.pages.facts import Fact, fact
from generator.render.pages.fit_cells import VERDICT
from generator.render.pages.parts.frame import (
    STOCK_COLUMNS,
    list_head,
    list_page,
    part_page,
    size_fact,
    stock_cells,
    stock_facts,
)
from generator.render.pages.parts.goes_with import (
    deciding_cells,
    deciding_columns,
    goes_with,
    part_cell,
    ruled_out,
    title_cell,
    verdict_cell,
    with_files,
)
from generator.render.say.joint import SEALS_SHORT
from generator.render.say.part_why import neighbour_why

CAUTIONS = ("steady-bike", "flying-parts", "after-repair")
COLUMNS = (
    Column("Connecting link", "head"),
    VERDICT,
    Column("Chain"),
    Column("Clip"),
    Column("Seals", "short"),
)
SEALS = {
    "O": "O-seals",
    "X": "X-seals",
    "other": "other seals",
    "none": "no seals",
    "unknown": "seals not known",
}


def strip_pages(
    dataset: Dataset, fits: Sequence[PartFit], neighbours: Sequence[NeighbourFit]
) -> Iterator[Page]:
    of_strip = grouped(fits, lambda fit: fit.id_of("strip"))
    yield _list(dataset)
    for strip in dataset.strips.values():
        joins = [fit for fit in neighbours if fit.strip == strip.id]
        yield _page(dataset, strip, of_strip.get(strip.id, []), joins)


def _list(dataset: Dataset) -> Page:
    columns = (
        Column("Strip", "head"),
        Column("Size code"),
        Column("Kind"),
        Column("Pitches", "number"),
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


def _page(
    dataset: Dataset, strip: Part[Strip], fits: Sequence[PartFit], joins: Sequence[NeighbourFit]
) -> Page:
    caption = f"Chains of the club with {strip.id} let in, best first"
    hopeless = sum(fit.best == NO_GO for fit in joins)
    return part_page(
        dataset,
        strip,
        f"Spare strip {strip.id}, {strip.record.pitches} pitches of {strip.record.size_code}: what it can mend.",
        _facts(dataset, strip),
        CAUTIONS,
        {
            "chains": goes_with(dataset, f"strip-{strip.id}-chains", caption, "chain", fits),
            "ruled_out": ruled_out("chain", fits),
            "links": _links(dataset, strip, joins),
            "hopeless": hopeless,
            "in_file": not many_pairs(dataset),
        },
    )


def _links(dataset: Dataset, strip: Part[Strip], joins: Sequence[NeighbourFit]) -> Table | None:
    """Links with one pin in the strip and one in the chain; what is no-go for sure has no row."""
    shown = sorted(
        (fit for fit in joins if fit.best != NO_GO),
        key=lambda fit: (best_first(fit.best, fit.worst), fit.link, fit.chain),
    )
    brief = many_pairs(dataset)
    groups = grouped(shown, lambda fit: _all_but_the_chain(fit, brief)).values()
    rows = tuple(_join_row(dataset, group) for group in groups)
    caption = f"Links that join {strip.id} to a chain, best first"
    columns = (*COLUMNS, *deciding_columns(dataset))
    return with_files(dataset, Table(f"strip-{strip.id}-links", caption, columns, rows)) if rows else None


def _all_but_the_chain(fit: NeighbourFit, brief: bool) -> tuple[object, ...]:
    """In a club with many pairs, chains that a row would say the same of share it."""
    check = fit.deciding_check
    shown = (fit.link, fit.best, fit.worst, fit.clip, fit.seals, check and check.rule_id)
    return shown if brief else (*shown, fit.chain)


def _join_row(dataset: Dataset, group: Sequence[NeighbourFit]) -> Row:
    fit = group[0]
    cells = (
        part_cell(dataset, "link", fit.link),
        verdict_cell(fit.word, fit.best, fit.worst),
        Cell(", ".join(each.chain for each in group)),
        Cell(fit.clip or "none"),
        Cell(SEALS_SHORT[fit.seals] if fit.seals else "none"),
    )
    if many_pairs(dataset):
        return Row((*cells, title_cell(dataset, fit.deciding_check)))
    why = Cell(said=neighbour_why(dataset, fit))
    deciding = deciding_cells(dataset, fit.deciding_check, fit.measure_next, fit.best, fit.worst)
    return Row((*cells, why, *deciding))


def _facts(dataset: Dataset, strip: Part[Strip]) -> Iterator[Fact | None]:
    record = strip.record
    yield from stock_facts(dataset, strip)
    yield size_fact(strip)
    yield fact("Kind", _kind(record))
    yield fact("Pitches", f"{record.pitches}, both ends inner")
    worn = record.elongation
    yield fact("Longer than new", f"{worn} %" if worn and worn != "unknown" else "not known")
