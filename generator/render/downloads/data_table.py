"""A table of a page as data: named columns with their units, numbers as numbers."""

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from generator.model.quantity import NM_PER_MM
from generator.render.base.lengths import MINUS
from generator.render.base.table import Cell, Column, Table
from generator.render.say.said import plain

Value = str | Fraction | None
UNITS = {"%": "percent", "kN": "kn", "N": "n", "g": "g", "kg": "kg", "h": "hours"}
_NUMBER = re.compile(rf"([{MINUS}-]?[0-9]+(?:\.[0-9]+)?)(?: ?({'|'.join(UNITS)}))?")


@dataclass(frozen=True, slots=True)
class DataColumn:
    """`name` ends in the unit; `title` is what stands over the column on the page."""

    name: str
    title: str
    kind: Literal["text", "number"]
    unit: str = ""


@dataclass(frozen=True, slots=True)
class DataTable:
    """Rows in the order of the page, values in the order of the columns; None is an empty cell."""

    id: str
    caption: str
    columns: tuple[DataColumn, ...]
    rows: tuple[tuple[Value, ...], ...]


Filled = tuple[DataColumn, Sequence[Value]]


def data_table(table: Table) -> DataTable:
    """One column of a page becomes one to three of data: its value, words beside numbers, small print."""
    filled = [*_ids(table)]
    for at, column in enumerate(table.columns):
        filled += _spread(column, [row.cells[at] for row in table.rows])
    columns = _unique([column for column, _ in filled])
    rows = tuple(tuple(values[at] for _, values in filled) for at in range(len(table.rows)))
    return DataTable(table.id, table.caption, columns, rows)


def _ids(table: Table) -> Iterator[Filled]:
    if any(row.id for row in table.rows):
        yield DataColumn("id", "id", "text"), [row.id or None for row in table.rows]


def _spread(column: Column, cells: Sequence[Cell]) -> Iterator[Filled]:
    name = slug(column.title)
    if column.kind == "verdict" or any(cell.verdict for cell in cells):
        yield from _verdicts(name, column.title, cells)
    elif any(cell.length for cell in cells):
        numbers = [Fraction(cell.length.nm, NM_PER_MM) if cell.length else None for cell in cells]
        yield from _numbers(name, column.title, "mm", numbers, cells)
    elif column.kind == "number" and (unit := _shared_unit(cells)) is not None:
        yield from _numbers(name, column.title, unit, [_number(cell.text) for cell in cells], cells)
    else:
        yield DataColumn(name, column.title, "text"), [shown_text(cell) or None for cell in cells]
    if any(cell.note for cell in cells):
        note = DataColumn(f"{name}_note", f"{column.title}, small print", "text")
        yield note, [cell.note or None for cell in cells]


def _verdicts(name: str, title: str, cells: Sequence[Cell]) -> Iterator[Filled]:
    words = [cell.verdict.word if cell.verdict else shown_text(cell) or None for cell in cells]
    yield DataColumn(name, title, "text"), words
    spans = [(cell.verdict.span or None) if cell.verdict else None for cell in cells]
    if any(spans):
        yield DataColumn(f"{name}_range", f"{title}, range", "text"), spans


def _numbers(
    name: str, title: str, unit: str, numbers: Sequence[Fraction | None], cells: Sequence[Cell]
) -> Iterator[Filled]:
    """A number where there is one; words such as `unknown` stand in a column of their own."""
    yield DataColumn(_with_unit(name, unit), title, "number", unit), numbers
    pairs = zip(numbers, cells, strict=True)
    words = [shown_text(cell) or None if number is None else None for number, cell in pairs]
    if any(words):
        yield DataColumn(f"{name}_text", f"{title}, where it is no number", "text"), words


def shown_text(cell: Cell) -> str:
    """A cell as one text, lengths in millimetres."""
    if cell.said:
        return plain(cell.said)
    if cell.each:
        return ", ".join(text for text, _ in cell.each)
    return cell.length.mm if cell.length else cell.text


def slug(title: str) -> str:
    """`Pin reach, at least` -> `pin_reach_at_least`."""
    words = title.lower().replace("%", " percent ").replace("±", " plus minus ")
    return re.sub(r"[^a-z0-9]+", "_", words).strip("_") or "column"


def _with_unit(name: str, unit: str) -> str:
    suffix = UNITS.get(unit, unit)
    return name if not suffix or name.split("_")[-1] == suffix else f"{name}_{suffix}"


def _shared_unit(cells: Iterable[Cell]) -> str | None:
    """The one unit of all cells that are numbers; None where there is no number, or no one unit."""
    found = {match[2] or "" for cell in cells if (match := _NUMBER.fullmatch(shown_text(cell)))}
    return found.pop() if len(found) == 1 else None


def _number(text: str) -> Fraction | None:
    match = _NUMBER.fullmatch(text)
    return Fraction(match[1].replace(MINUS, "-")) if match else None


def _unique(columns: Iterable[DataColumn]) -> tuple[DataColumn, ...]:
    """Two columns of one title are told apart by a number."""
    seen: dict[str, int] = {}
    found: list[DataColumn] = []
    for column in columns:
        seen[column.name] = seen.get(column.name, 0) + 1
        times = seen[column.name]
        name = column.name if times == 1 else f"{column.name}_{times}"
        found.append(DataColumn(name, column.title, column.kind, column.unit))
    return tuple(found)
