"""The symbols that stand in the limits, in words."""

from collections.abc import Iterator

from generator.model.dataset import Dataset
from generator.render.base.table import Cell, Column, Row, Table
from generator.render.say.names import recipe_of
from generator.rules.symbols import ROWS
from generator.rules.vocabulary import MACROS


def symbol_table(dataset: Dataset) -> Table:
    columns = (Column("In the limits", "head"), Column("What it is"), Column("How it is read"))
    rows = tuple(_rows(dataset))
    return Table("limit-symbols", "The short names in the limits", columns, rows)


def _rows(dataset: Dataset) -> Iterator[Row]:
    for symbol in ROWS:
        if symbol.field is not None:
            yield _read_row(dataset, symbol.name, symbol.parts[0], symbol.field)
    worked_out = {**MACROS} | {symbol.name: symbol.words for symbol in ROWS if symbol.field is None}
    for name, words in worked_out.items():
        yield Row((Cell(name), Cell(words), Cell("worked out")), id=f"symbol-{name.replace('_', '-')}")


def _read_row(dataset: Dataset, symbol: str, kind: str, field: str) -> Row:
    found = recipe_of(dataset, kind, field)
    what = f"{field.replace('_', ' ')} of the {kind}"
    how = Cell(found[1].title, to=f"measuring/{found[0]}/") if found else Cell("stated or published")
    return Row((Cell(symbol), Cell(what), how), id=f"symbol-{symbol}-{kind}")
