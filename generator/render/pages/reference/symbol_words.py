"""The symbols that stand in the limits, in words.

Goes in: a dataset.  Comes out: a table of symbols, each leading to how it is measured.
"""

from collections.abc import Iterator

from generator.compute.fit.joint import CHAIN_FIELDS, CLIP_FIELDS, LINK_FIELDS
from generator.model.dataset import Dataset
from generator.render.base.table import Cell, Column, Row, Table
from generator.render.say.names import recipe_of

# what a limit calls by a short name and no record holds under it
WORKED_OUT = {
    "stop": "widest inside width at which this clip still enters and holds: reach + groove − clip − side plate",
    "seat": "where the side plate rests: the stop if it slides on, the neighbour's width if it is pressed, its shoulder",
    "back": "what the clip stands behind: the neighbour's width if the plate slides on, else the seat",
    "hold": "fixed plate to the near face of the clip pulled outward",
    "s": "free thickness of a seal",
    "w": "thickness of a packing washer",
    "p": "nominal pitch of the chain, by its size code",
    "pl": "nominal pitch of the link, by its size code",
    "C": "least room read on the clip side of the bikes that run the chain",
    "Cu": "room on the clip side of a bike that runs the chain and where nobody has read it",
    "own_out": "how far the chain's own joint stands beyond its riveted heads",
}


def symbol_table(dataset: Dataset) -> Table:
    columns = (Column("In the limits", "head"), Column("What it is"), Column("How it is read"))
    rows = tuple(_rows(dataset))
    return Table("limit-symbols", "The short names in the limits", columns, rows)


def _rows(dataset: Dataset) -> Iterator[Row]:
    read = {"chain": CHAIN_FIELDS, "link": LINK_FIELDS, "clip": CLIP_FIELDS}
    for kind, fields in read.items():
        for symbol, field in fields.items():
            yield _read_row(dataset, symbol, kind, field)
    for symbol, words in WORKED_OUT.items():
        yield Row((Cell(symbol), Cell(words), Cell("worked out")), id=f"symbol-{symbol.replace('_', '-')}")


def _read_row(dataset: Dataset, symbol: str, kind: str, field: str) -> Row:
    found = recipe_of(dataset, kind, field)
    what = f"{field.replace('_', ' ')} of the {kind}"
    how = Cell(found[1].title, to=f"measuring/{found[0]}/") if found else Cell("stated or published")
    return Row((Cell(symbol), Cell(what), how), id=f"symbol-{symbol}-{kind}")
