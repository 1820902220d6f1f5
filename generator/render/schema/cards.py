"""The schema of cards/cards.json."""

from generator.render.cards.formats import FORMATS, SHEETS
from generator.render.schema.draft7 import Plain
from generator.render.schema.envelope import closed, published
from generator.render.schema.verdict import TEXT, or_null


def cards_schema() -> Plain:
    count = {"type": "integer", "minimum": 1}
    card = {
        "file": {**TEXT, "description": "Address below the root of the handbook"},
        "kind": TEXT,
        "subject": {
            **TEXT,
            "description": "Id of what the cards are about; all: of every subject of the kind",
        },
        "format": {
            "enum": sorted({*(each.id for each in FORMATS), *(f"strip-{each.id}" for each in SHEETS)})
        },
        "sheet": or_null({"enum": sorted({each.id for each in SHEETS})}),
        "pages": count,
        "bytes": count,
    }
    body = {"club": TEXT, "cards": {"type": "array", "items": closed(card)}}
    return published("cards/1", "Every file of cards to print, sorted by file", body)
