"""A table as the table macro prints it: named columns, a head cell and a verdict first in every row."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Literal

from generator.render.base.lengths import ShownLength
from generator.render.base.verdicts import ShownVerdict

ColumnKind = Literal["head", "verdict", "text", "number", "short", "long"]


@dataclass(frozen=True, slots=True)
class Column:
    """`head` names the row and stays in view, like `verdict`, which must come right after it; `short` and `long`
    are texts that need less or more room.  `line` is how a cell is told in a line of a list, empty where it is not."""

    title: str
    kind: ColumnKind = "text"
    line: str = "{}"


@dataclass(frozen=True, slots=True)
class Cell:
    """One of text, length, verdict, a sentence with lengths, or `each`: texts with an address of the handbook of their
    own.  `to` is the address of all of the cell, `tag` the bag label behind its text, `note` a line in small print.
    """

    text: str = ""
    to: str = ""
    length: ShownLength | None = None
    verdict: ShownVerdict | None = None
    tag: str = ""
    note: str = ""
    said: tuple[str | ShownLength, ...] = ()
    each: tuple[tuple[str, str], ...] = ()

    @property
    def bare(self) -> Literal["text", "length", "verdict", "no"]:
        """Whether it is nothing but a text, a length or a verdict, as most cells of most tables are."""
        if self.to or self.tag or self.note or self.said or self.each:
            return "no"
        if self.verdict:
            return "verdict"
        return "length" if self.length else "text"


@dataclass(frozen=True, slots=True)
class Row:
    """`id` is the anchor of the row, empty for none; cells stand in the order of the columns."""

    cells: tuple[Cell, ...]
    id: str = ""


@dataclass(frozen=True, slots=True)
class Table:
    """`id` is its anchor and the name of its file; the caption says what the rows are."""

    id: str
    caption: str
    columns: tuple[Column, ...]
    rows: tuple[Row, ...]

    @property
    def body(self) -> Iterator[tuple[str, Cell, Iterable[tuple[ColumnKind, Cell]]]]:
        """Row by row: anchor, head cell, and the other cells with the kind of their column."""
        kinds = [column.kind for column in self.columns[1:]]
        for row in self.rows:
            yield row.id, row.cells[0], zip(kinds, row.cells[1:], strict=True)
