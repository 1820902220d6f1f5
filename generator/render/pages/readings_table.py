"""Every dimension of a part: what was read, how far it can be off, how well it is known, what is missing."""

from collections.abc import Iterator
from typing import get_args

from pydantic import WithJsonSchema

from generator.model.dataset import Dataset, Part
from generator.model.quantity import Quantity
from generator.model.record import Record
from generator.render.base.lengths import shown_high, shown_length, shown_low
from generator.render.base.table import Cell, Column, Row, Table
from generator.render.say.names import dimension_title
from generator.render.say.said import small

_COLUMNS = (
    Column("Dimension", "head"),
    Column("Reading", "number"),
    Column("at least", "number"),
    Column("at most", "number"),
    Column("Evidence"),
    Column("As written"),
)


def readings_table(dataset: Dataset, part: Part[Record]) -> Table | None:
    """What is known, in the order of the record's fields; None where nothing was read."""
    rows = tuple(
        _row(dataset, part, field) for field in length_fields(type(part.record)) if field in part.dims
    )
    table = Table(f"readings-{part.kind}-{part.id}", f"Readings of {part.id}", _COLUMNS, rows)
    return table if rows else None


def not_measured(dataset: Dataset, part: Part[Record]) -> str:
    """What is left to read, in one line."""
    gone = [field for field in length_fields(type(part.record)) if field not in part.dims]
    names = [dimension_title(dataset, part.kind, field) for field in gone]
    return ", ".join(dict.fromkeys(small(name) for name in names))


def length_fields(record: type[Record]) -> Iterator[str]:
    """The fields of a record that hold lengths, as its model says."""
    for name, field in record.model_fields.items():
        if any(_is_length(mark) for mark in _marks(field.annotation)):
            yield name


def _marks(annotation: object) -> Iterator[object]:
    yield from getattr(annotation, "__metadata__", ())
    for inner in get_args(annotation):
        yield from _marks(inner)


def _is_length(mark: object) -> bool:
    return isinstance(mark, WithJsonSchema) and (mark.json_schema or {}).get("x-kind") == "length"


def _row(dataset: Dataset, part: Part[Record], field: str) -> Row:
    quantity, written = part.dims[field], getattr(part.record, field)
    evidence = Cell(quantity.evidence.replace("-", " "), note=quantity.source or "")
    typed = written.text if written is not None else "worked out"
    return Row(
        (Cell(dimension_title(dataset, part.kind, field)), *_lengths(quantity), evidence, Cell(typed)),
        id=field,
    )


def _lengths(quantity: Quantity) -> tuple[Cell, Cell, Cell]:
    """A reading of thousandths keeps them: no ± may look like nothing."""
    values = (quantity.nominal, quantity.low, quantity.high)
    decimals = 3 if any(value % 10_000 for value in values) else 2
    shown = (
        shown_length(quantity.nominal, decimals),
        shown_low(quantity.low, decimals),
        shown_high(quantity.high, decimals),
    )
    nominal, low, high = (Cell(length=length) for length in shown)
    return nominal, low, high
