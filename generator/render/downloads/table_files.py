"""Every table of every page as files: CSV, JSON and the schema of the JSON.

Goes in: pages, or one table, and the dataset they speak of.  Comes out: assets below data/v1/.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import fields, is_dataclass
from fractions import Fraction
from functools import cache
from typing import Any

from generator.model.dataset import Dataset
from generator.render.base.page import Asset, Page
from generator.render.base.table import Table
from generator.render.contract.envelope import Plain, document, json_text
from generator.render.downloads.csv_text import csv_text
from generator.render.downloads.data_table import DataColumn, DataTable, Value, data_table
from generator.render.schema.envelope import published

FOLDER = "data/v1/tables"


def table_files(table: Table, dataset: Dataset) -> tuple[Asset, ...]:
    """`data/v1/tables/<id>.csv` and `.json`, and `data/v1/schema/tables/<id>.json`."""
    data = data_table(table)
    return (
        Asset(f"{FOLDER}/{data.id}.csv", csv_text(data)),
        Asset(f"{FOLDER}/{data.id}.json", json_text(table_document(data, dataset))),
        Asset(f"data/v1/schema/tables/{data.id}.json", json_text(table_schema(data))),
    )


def tables_with_files(pages: Iterable[Page]) -> Iterator[tuple[Page, Table]]:
    """The tables that say their rows stand in files of their own name."""
    for page in pages:
        for table in tables_in(page.context):
            own = {f"{FOLDER}/{table.id}.{kind}" for kind in ("csv", "json")}
            if own & {file.to for file in table.downloads}:
                yield page, table


def tables_in(value: object) -> Iterator[Table]:
    """The tables in the context of a page, however deep they lie."""
    if isinstance(value, Table):
        yield value
    elif isinstance(value, str):
        return  # most of what a page prints
    elif isinstance(value, Mapping):
        for inner in value.values():
            yield from tables_in(inner)
    elif isinstance(value, tuple | list):
        for inner in value:
            yield from tables_in(inner)
    else:
        for name in _fields_of(type(value)):  # type: ignore[arg-type] # mypy has type[object] unhashable
            yield from tables_in(getattr(value, name))


@cache
def _fields_of(kind: type) -> tuple[str, ...]:
    return tuple(field.name for field in fields(kind)) if is_dataclass(kind) else ()


def table_document(table: DataTable, dataset: Dataset) -> Plain:
    columns = [{"name": c.name, "title": c.title, "unit": c.unit or None} for c in table.columns]
    rows = [
        {c.name: _plain(value) for c, value in zip(table.columns, row, strict=True)} for row in table.rows
    ]
    return document(schema_name(table), dataset, {"caption": table.caption, "columns": columns, "rows": rows})


def schema_name(table: DataTable) -> str:
    return f"tables/{table.id}/1"


def table_schema(table: DataTable) -> Plain:
    """What each column holds; every column is there in every row, null where the page shows nothing."""
    row = {column.name: _column_schema(column) for column in table.columns}
    names = {"type": "object", "required": ["name", "title", "unit"]}
    body: dict[str, Any] = {
        "caption": {"type": "string", "description": "What the rows are"},
        "columns": {"type": "array", "items": names, "description": "The columns in the order of the page"},
        "rows": {
            "type": "array",
            "description": "One object a row, in the order of the page",
            "items": {
                "type": "object",
                "properties": row,
                "required": sorted(row),
                "additionalProperties": False,
            },
        },
    }
    return published(schema_name(table), table.caption, body)


def _column_schema(column: DataColumn) -> Plain:
    unit = f", in {column.unit}" if column.unit else ""
    kind = "number" if column.kind == "number" else "string"
    return {"type": [kind, "null"], "description": f"{column.title}{unit}"}


def _plain(value: Value) -> str | float | int | None:
    if not isinstance(value, Fraction):
        return value
    return value.numerator if value.denominator == 1 else float(value)
