"""The list of size codes and a page for each.

Goes in: a dataset.  Comes out: pages at sizes/.
"""

from collections.abc import Iterable

from generator.compute.size_by_size import size_by_size
from generator.model.dataset import Dataset, SizeCodeEntry
from generator.model.quantity import weakest
from generator.render.base.page import Page
from generator.render.base.routes import part_route
from generator.render.base.table import Cell, Column, Row, Table
from generator.render.pages.downloads import with_downloads
from generator.render.pages.reference.cells import evidence_cell, length_cell
from generator.render.pages.reference.size import size_page

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


def size_pages(dataset: Dataset) -> tuple[Page, ...]:
    crossings = size_by_size(dataset)
    return (_index(dataset), *(size_page(dataset, size, crossings) for size in by_pitch(dataset)))


def by_pitch(dataset: Dataset) -> tuple[SizeCodeEntry, ...]:
    sizes = dataset.shelf.sizes.values()
    return tuple(sorted(sizes, key=lambda size: (size.dims["pitch"].nominal, size.code)))


def _index(dataset: Dataset) -> Page:
    tables = tuple(_table(family, by_pitch(dataset)) for family in FAMILIES)
    return Page(
        path="sizes/",
        title="Size codes",
        description="Every size code of motorcycle chain with its published dimensions, and industrial chain beside it.",
        template="handbook/sizes.html",
        context={"tables": tables, "crossings": "size-by-size/", "format": "sizes"},
        search=(
            "chain size",
            "chain sizes",
            "size code",
            "size chart",
            "chain number",
            "pitch and width table",
        ),
        kind="sizes",
        in_nav=True,
    )


def _table(family: str, sizes: Iterable[SizeCodeEntry]) -> Table:
    rows = tuple(_row(size) for size in sizes if size.record.family == family)
    return with_downloads(Table(f"sizes-{family}", FAMILIES[family], _COLUMNS, rows))


def _row(size: SizeCodeEntry) -> Row:
    dims = [size.dims.get(field) for field in _FIELDS]
    lengths = (length_cell(quantity.nominal) if quantity else Cell("not known") for quantity in dims)
    grade = weakest(quantity.evidence for quantity in dims if quantity)
    what = size.record.title.split(": ", 1)[-1]
    head = Cell(size.code, to=part_route("size", size.code))
    return Row((head, Cell(what), *lengths, evidence_cell(grade)), id=size.code.lower())
