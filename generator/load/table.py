"""The wear log: a small table with commas or semicolons, every cell with its place."""

import re
from collections.abc import Iterator
from difflib import get_close_matches

from generator.load.yaml_text import MOST_BYTES, forbidden_in, lines_of
from generator.model.node import LogRow, Scalar
from generator.problems import Place, Problem

COLUMNS = ("date", "chain", "hours", "pitches", "inside", "outside", "place", "new_chain")
MAY_LACK = ("event",)
# no part gives back what it took, so that a line is gone through once
_CELLS = {
    comma: re.compile(rf'(?:\s*+"(?P<quoted>(?:[^"]|"")*+)"\s*+|(?P<bare>[^{comma}"]*+))(?P<end>{comma}|$)')
    for comma in ",;"
}


def read_table(text: str, file: str) -> tuple[tuple[LogRow, ...], tuple[Problem, ...]]:
    """Rows with all their cells; a row with a fault is left out and reported."""
    if len(text.encode("utf-8", "surrogatepass")) > MOST_BYTES:
        return (), (Problem("Y110", f"the file is larger than {MOST_BYTES} bytes", Place(file)),)
    if hidden := forbidden_in(lines_of(text), file):
        return (), hidden
    rows: list[LogRow] = []
    problems: list[Problem] = []
    header: list[Scalar] | None = None
    comma = ","
    for number, line in enumerate(lines_of(text), 1):
        if not line.strip():
            continue
        if header is None:
            comma = ";" if ";" in line else ","
        cells = _cells(line, number, file, _CELLS[comma])
        if isinstance(cells, Problem):
            problems.append(cells)
        elif header is None:
            header = cells
            problems.extend(_header_problems(header, line, file))
            if problems:
                return (), tuple(problems)
        else:
            problems.extend(_row(header, cells, line, number, file, rows))
    return tuple(rows), tuple(problems)


def _cells(line: str, number: int, file: str, cell: re.Pattern[str]) -> list[Scalar] | Problem:
    """The cells of one line, quotes taken off; the first line says whether commas or semicolons part them."""
    cells = []
    at = 0
    while True:
        match = cell.match(line, at)
        if match is None:
            return _quoted_wrong(line, at, Place(file, number, line.index('"', at) + 1, len(line)))
        name = "bare" if match["quoted"] is None else "quoted"
        text = match[name].replace('""', '"').strip()
        column = match.start(name) + 1 + (len(match[name]) - len(match[name].lstrip()))
        cells.append(Scalar(text, Place(file, number, column, max(column, column + len(text) - 1))))
        at = match.end()
        if not match["end"]:
            return cells


def _quoted_wrong(line: str, at: int, place: Place) -> Problem:
    """Where the mark opens a cell it is the one that is never closed, or not before the comma."""
    opens = not line[at : place.column - 1].strip()
    what = (
        "is opened here and not closed before the next comma" if opens else "stands in the middle of a cell"
    )
    return Problem("W801", f"a quotation mark {what}", place)


def _header_problems(header: list[Scalar], line: str, file: str) -> Iterator[Problem]:
    names: set[str] = set()
    place = Place(file, header[0].place.line, 1, max(len(line), 1))
    for cell in header:
        if cell.text not in (*COLUMNS, *MAY_LACK):
            near = get_close_matches(cell.text, (*COLUMNS, *MAY_LACK), 1)
            yield Problem(
                "W803",
                f"there is no column '{cell.text[:60]}'",
                cell.place,
                did_you_mean=near[0] if near else None,
            )
        elif cell.text in names:
            yield Problem("W803", f"the column '{cell.text}' stands here a second time", cell.place)
        names.add(cell.text)
    for name in COLUMNS:
        if name not in names:
            yield Problem("W804", f"the column '{name}' is missing", place)


def _row(
    header: list[Scalar], cells: list[Scalar], line: str, number: int, file: str, rows: list[LogRow]
) -> Iterator[Problem]:
    place = Place(file, number, 1, len(line))
    if len(cells) != len(header):
        yield Problem("W805", f"{len(cells)} cells under {len(header)} columns", place)
        return
    empty = [(name, cell) for name, cell in zip(header, cells, strict=True) if not cell.text]
    for name, cell in empty:
        yield Problem("W806", f"the cell under '{name.text}' is empty", cell.place)
    if not empty:
        rows.append(LogRow({name.text: cell for name, cell in zip(header, cells, strict=True)}, place))
