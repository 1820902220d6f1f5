"""The cells that reference tables share: a value with its width, its grade, its source."""

from generator.compute.citations import cited
from generator.model.dataset import Shelf
from generator.model.quantity import NM_PER_MM, Evidence, Quantity
from generator.render.base.lengths import shown_length
from generator.render.base.table import Cell

EVIDENCE_WORDS = {
    "measured": "measured",
    "stated": "stated on part or packet",
    "published": "published",
    "common-practice": "common practice, no source",
    "from-memory": "from memory, source not seen",
    "unknown": "not known",
}
SYMBOL_FREE = "none"


def evidence_cell(evidence: Evidence) -> Cell:
    return Cell(EVIDENCE_WORDS[evidence])


def source_cell(shelf: Shelf, source: str) -> Cell:
    """`id[place]` as the source's title, the place in small print."""
    id_, place = cited(source)
    known = shelf.sources.get(id_)
    if known is None:
        return Cell(source or SYMBOL_FREE)
    return Cell(known.title, to=f"sources/#{id_}", note=place)


def length_cell(nm: int) -> Cell:
    """Hundredths; thousandths where the value has them, so that no figure looks like another."""
    return Cell(length=shown_length(nm, decimals_of(nm)))


def decimals_of(nm: int) -> int:
    return 3 if nm % (NM_PER_MM // 100) else 2


def value_cells(quantity: Quantity) -> tuple[Cell, Cell]:
    """The value and its plus-minus; a published value is taken as printed."""
    width = quantity.half_width
    return length_cell(quantity.nominal), length_cell(width) if width else Cell("as printed")


def field_title(field: str) -> str:
    """`over_inner_plates` -> `Over inner plates`."""
    return field.replace("_", " ").capitalize()
