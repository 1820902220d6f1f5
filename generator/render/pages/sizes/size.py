"""The page of one size code: its dimensions with grade and source, what contradicts them, what its name says,
which industrial chain is nearest, and what goes on what."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from functools import cache

from generator.compute.fit.sizes import SAME_PITCH_NM
from generator.compute.size_by_size import Crossing
from generator.model.dataset import Dataset, SizeCodeEntry
from generator.model.quantity import Quantity
from generator.model.shipped import Size
from generator.render.base.components import GoRow
from generator.render.base.lengths import ShownLength, shown_length
from generator.render.base.page import Page
from generator.render.base.routes import part_route
from generator.render.base.table import Cell, Column, Row, Table
from generator.render.pages.reference.cells import (
    SYMBOL_FREE,
    decimals_of,
    evidence_cell,
    field_title,
    length_cell,
    source_cell,
    value_cells,
)
from generator.render.pages.sizes.crossing_words import crossing_sides
from generator.render.pages.sizes.force import force_text
from generator.render.pages.sizes.naming_words import naming_lines
from generator.render.pages.sizes.size_terms import size_terms
from generator.render.say.names import named
from generator.render.say.said import capital
from generator.render.schema.draft7 import record_parts

FORCE = "tensile"
_VALUE_COLUMNS = (
    Column("Dimension", "head"),
    Column("Value", "number"),
    Column("±", "number"),
    Column("Grade"),
    Column("Symbol", "short"),
    Column("Source", "long"),
)
_STRENGTH_COLUMNS = (
    Column("Strength", "head"),
    Column("At least"),
    Column("Grade"),
    Column("Source", "long"),
)
_OTHER_COLUMNS = (
    Column("Dimension", "head"),
    Column("Also printed"),
    Column("Grade"),
    Column("Source", "long"),
    Column("Why it is not the one used", "long"),
)
_NEIGHBOUR_FIELDS = ("roller_diameter", "inner_width", "pin_diameter", "plate_height")
_NEIGHBOUR_COLUMNS = (
    Column("Chain", "head"),
    Column("Roller diameter", "number"),
    Column("Inner width", "number"),
    Column("Pin diameter", "number"),
    Column("Plate height", "number"),
)


def size_page(dataset: Dataset, size: SizeCodeEntry, crossings: Iterable[Crossing]) -> Page:
    record = size.record
    own = _kind_of_family(record.family)
    title = record.title if record.title.startswith(size.code) else f"{size.code}: {record.title}"
    return Page(
        path=part_route("size", size.code),
        title=title,
        description=f"Size code {size.code}: published dimensions with their sources, and what goes on it.",
        template="handbook/size.html",
        context={
            "title": title,
            "main": tuple(_main(size)),
            "family": own,
            "note": record.note or "",
            "also": ", ".join(record.also_written),
            "naming": naming_lines(dataset, size),
            "tables": tuple(_tables(dataset, size)),
            "neighbours": _neighbours(dataset, size),
            "crossings": crossing_sides(size.code, crossings),
            "parts": tuple(_parts(dataset, size.code)),
        },
        search=size_terms(size),
        kind="size",
    )


def _kind_of_family(family: str) -> str:
    if family == "motorcycle":
        return ""
    return "Industrial chain, kept as a check on the motorcycle sizes. No part of a club uses it."


def _tables(dataset: Dataset, size: SizeCodeEntry) -> Iterator[Table]:
    code = size.code.lower()
    lengths = {field: quantity for field, quantity in size.dims.items() if field != FORCE}
    rows = tuple(_value_row(dataset, field, quantity) for field, quantity in lengths.items())
    yield Table(f"size-{code}", f"Dimensions of {size.code}", _VALUE_COLUMNS, rows)
    if FORCE in size.dims:
        row = _strength_row(dataset, size.dims[FORCE])
        caption = f"Tensile strength of {size.code}, the chain only, never a connecting link"
        yield Table(f"strength-{code}", caption, _STRENGTH_COLUMNS, (row,))
    others = tuple(_other_rows(dataset, size))
    if others:
        caption = f"What other sources print for {size.code}"
        yield Table(f"contradictions-{code}", caption, _OTHER_COLUMNS, others)


def _value_row(dataset: Dataset, field: str, quantity: Quantity) -> Row:
    symbol = Cell(symbols()[field] or SYMBOL_FREE)
    source = source_cell(dataset.shelf, quantity.source or "")
    cells = (
        Cell(field_title(field)),
        *value_cells(quantity),
        evidence_cell(quantity.evidence),
        symbol,
        source,
    )
    return Row(cells, id=field)


@cache
def symbols() -> Mapping[str, str]:
    """Field of a size -> its symbol in the standards."""
    record, _ = record_parts(Size)
    return {name: str(field.get("x-symbol", "")) for name, field in record["properties"].items()}


def _strength_row(dataset: Dataset, force: Quantity) -> Row:
    source = source_cell(dataset.shelf, force.source or "")
    return Row(
        (Cell("Tensile strength"), Cell(force_text(force)), evidence_cell(force.evidence), source), id=FORCE
    )


def _other_rows(dataset: Dataset, size: SizeCodeEntry) -> Iterator[Row]:
    for other in size.record.other_readings:
        source = source_cell(dataset.shelf, other.source)
        yield Row(
            (
                Cell(field_title(other.field)),
                Cell(other.value.text),
                evidence_cell(other.evidence),
                source,
                Cell(f"{capital(other.because)}."),
            )
        )


def _neighbours(dataset: Dataset, size: SizeCodeEntry) -> Table | None:
    """Chain of the other family with the same pitch, its own line first."""
    near = [other for other in dataset.shelf.sizes.values() if _is_neighbour(size, other)]
    if not near:
        return None
    rows = tuple(_neighbour_row(each) for each in (size, *near))
    family = "Industrial" if size.record.family == "motorcycle" else "Motorcycle"
    caption = f"{family} chain of the same pitch as {size.code}"
    return Table(f"neighbours-{size.code.lower()}", caption, _NEIGHBOUR_COLUMNS, rows)


def _is_neighbour(size: SizeCodeEntry, other: SizeCodeEntry) -> bool:
    apart = abs(size.dims["pitch"].nominal - other.dims["pitch"].nominal)
    return size.record.family != other.record.family and apart <= SAME_PITCH_NM


def _neighbour_row(size: SizeCodeEntry) -> Row:
    dims = [size.dims.get(field) for field in _NEIGHBOUR_FIELDS]
    lengths = (length_cell(quantity.nominal) if quantity else Cell("not known") for quantity in dims)
    head = Cell(size.code, to=part_route("size", size.code), note=size.record.title.split(": ", 1)[-1])
    return Row((head, *lengths), id=size.code.lower())


def _main(size: SizeCodeEntry) -> Iterator[tuple[str, ShownLength]]:
    """What somebody with a caliper wants to know first."""
    for field in ("pitch", "inner_width", "roller_diameter"):
        if field in size.dims:
            nm = size.dims[field].nominal
            inch = shown_length(nm, 1).inch  # as it is stamped and sold, to a thousandth
            yield field_title(field), replace(shown_length(nm, decimals_of(nm)), inch=inch)


def _parts(dataset: Dataset, code: str) -> Iterator[GoRow]:
    """The club's own parts of this size."""
    for kind, parts in (("chain", dataset.chains), ("link", dataset.links), ("strip", dataset.strips)):
        for part in parts.values():
            if part.record.size_code == code:
                yield GoRow(part_route(kind, part.id), named(part), tag=part.id)
