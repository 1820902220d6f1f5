"""The rows of the wear log -> readings."""

from collections.abc import Mapping
from dataclasses import dataclass

from generator.model.dataset import Shelf, WearReading
from generator.model.node import Block, Entry, LoadedFolder, LogRow, Scalar
from generator.model.quantity import Quantity
from generator.model.wear_row import WearRow
from generator.problems import Place, Problem
from generator.validate.draft import ClubDraft
from generator.validate.measure import quantity_of
from generator.validate.shape import shape_record


@dataclass(frozen=True, slots=True)
class LoggedRow:
    """A whole row with the places of its cells."""

    record: WearRow
    root: Block
    line: int
    inside: Quantity
    outside: Quantity

    def place(self, column: str) -> Place:
        """Of a cell, or of the whole line where an old log has no such column."""
        entry = self.root.entries.get(column)
        return entry.place if entry is not None else self.root.place


def wear_readings(folder: LoadedFolder, draft: ClubDraft) -> tuple[tuple[LoggedRow, ...], list[Problem]]:
    """Every row that is whole, in the order of the file."""
    rows: list[LoggedRow] = []
    problems: list[Problem] = []
    for row in folder.log:
        root = _as_block(row)
        shaped, faults = shape_record(root, (), WearRow)
        problems.extend(faults)
        if shaped is not None and shaped.whole and not _is_unknown(shaped.record):
            rows.append(_logged(shaped.record, root, row.place.line, draft.shelf))
        elif shaped is not None and shaped.whole:
            fix = "write the reading, or take the line out"
            problems.append(Problem("W807", "a length of the wear log cannot be unknown", row.place, fix=fix))
    return tuple(rows), problems


def as_readings(rows: tuple[LoggedRow, ...]) -> tuple[WearReading, ...]:
    """The rows as the dataset keeps them."""
    return tuple(
        WearReading(
            on=row.record.date,
            chain=row.record.chain,
            hours=row.record.hours,
            pitches=row.record.pitches,
            inside=row.inside,
            outside=row.outside,
            place=row.record.place,
            new_chain=row.record.new_chain,
            line=row.line,
            event="new-chain" if row.record.new_chain else row.record.event,
        )
        for row in rows
    )


def _is_unknown(record: WearRow) -> bool:
    return bool(record.inside.is_unknown or record.outside.is_unknown)


def _logged(record: WearRow, root: Block, line: int, shelf: Shelf) -> LoggedRow:
    recipes = shelf.recipe_by_field
    inside = quantity_of(record.inside, recipes.get("wear.inside"), None, shelf)
    outside = quantity_of(record.outside, recipes.get("wear.outside"), None, shelf)
    return LoggedRow(record, root, line, inside, outside)


def _as_block(row: LogRow) -> Block:
    cells: Mapping[str, Scalar] = row.cells
    entries = {name: Entry(Scalar(name, cell.place), cell) for name, cell in cells.items()}
    return Block(entries, row.place)
