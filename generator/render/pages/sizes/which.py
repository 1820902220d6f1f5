"""Which size is it, and which goes on which: the finder, the grids of size against size, every code in a table."""

from collections.abc import Iterable

from generator.compute.size_by_size import Crossing
from generator.model.dataset import Dataset, SizeCodeEntry
from generator.model.quantity import weakest
from generator.model.shipped import RUNGS
from generator.render.base.page import Page
from generator.render.base.routes import part_route
from generator.render.base.table import Cell, Column, Row, Table
from generator.render.base.verdicts import shown_verdict
from generator.render.pages.reference.cells import evidence_cell, length_cell
from generator.render.pages.sizes.by_pitch import by_pitch
from generator.render.pages.sizes.crossing_words import both_kinds
from generator.render.pages.sizes.crossings import alone, grids, relations_table, rules_table
from generator.render.pages.sizes.finder import SMALLEST_ROLLER, finder_of, measured

FAMILIES = {"motorcycle": "Size codes of motorcycle chain", "industrial": "Industrial chain nearest to them"}
_FIELDS = ("pitch", "roller_diameter", "inner_width", "pin_diameter", "plate_height")
_COLUMNS = (
    Column("Size code", "head"),
    Column("What it says"),
    Column("Pitch", "number"),
    Column("Roller diameter", "number"),
    Column("Inner width", "number"),
    Column("Pin diameter", "number"),
    Column("Plate height", "number"),
    Column("Weakest grade"),
)
_SMALL_COLUMNS = (
    Column("Size code", "head"),
    Column("Roller", "number"),
    Column("Inner width", "number"),
    Column("Pitch", "number"),
)


def which_size_page(dataset: Dataset, crossings: Iterable[Crossing]) -> Page:
    sizes = by_pitch(dataset)
    every = both_kinds(crossings)
    tables = tuple(_table(family, sizes) for family in FAMILIES)
    relations = relations_table(every)
    return Page(
        path="sizes/",
        title="Which size is it?",
        description="From roller, inner width and pitch to the size code, and which size goes on which.",
        template="handbook/sizes.html",
        context={
            "finder": finder_of(sizes),
            "small": _small(sizes),
            "key": tuple(
                (shown_verdict(RUNGS[rung], rung, rung), f"at best {RUNGS[rung]}") for rung in range(3)
            ),
            "no_go": shown_verdict("no-go", 3, 3),
            "grids": grids(dataset, every),
            "alone": alone(dataset),
            "tables": tables,
            "count": len(sizes),
            "relations": relations,
            "rules": rules_table(dataset),
        },
        search=(
            "chain size",
            "chain sizes",
            "size code",
            "size codes",
            "size chart",
            "chain number",
            "pitch and width table",
            "which size",
            "size finder",
            "roller and width",
            "size against size",
            "which size fits which",
            "interchange chart",
            "cross reference of sizes",
            "428 on 420",
            "520 on 525",
            "525 on 520",
            "530 on 520",
            "standard link on heavy chain",
            "compatibility chart",
        ),
        kind="sizes",
        in_nav=True,
        tables=(*tables, relations),
    )


def _small(sizes: Iterable[SizeCodeEntry]) -> Table:
    rows = tuple(
        Row(
            (
                Cell(size.code, to=part_route("size", size.code)),
                *(
                    length_cell(size.dims[field].nominal)
                    for field in ("roller_diameter", "inner_width", "pitch")
                ),
            )
        )
        for size in measured(sizes)
        if size.dims["roller_diameter"].nominal < SMALLEST_ROLLER
    )
    return Table("sizes-small", "Rollers below 7 mm", _SMALL_COLUMNS, rows)


def _table(family: str, sizes: Iterable[SizeCodeEntry]) -> Table:
    rows = tuple(_row(size) for size in sizes if size.record.family == family)
    return Table(f"sizes-{family}", FAMILIES[family], _COLUMNS, rows)


def _row(size: SizeCodeEntry) -> Row:
    dims = [size.dims.get(field) for field in _FIELDS]
    lengths = (length_cell(quantity.nominal) if quantity else Cell("not known") for quantity in dims)
    grade = weakest(quantity.evidence for quantity in dims if quantity)
    what = size.record.title.split(": ", 1)[-1]
    head = Cell(size.code, to=part_route("size", size.code))
    return Row((head, Cell(what), *lengths, evidence_cell(grade)), id=size.code.lower())
