"""The list of all card files as published in cards/cards.json."""

from generator.model.dataset import Dataset
from generator.render.cards.printed import CardFile, Printed
from generator.render.contract.envelope import Plain, document


def cards_document(dataset: Dataset, printed: Printed) -> Plain:
    """By file; `sheet` is null where every side is a page of its own size."""
    files = sorted(printed.files, key=lambda each: each.file)
    return document("cards/1", dataset, {"club": dataset.club.id, "cards": [_card(each) for each in files]})


def _card(card: CardFile) -> Plain:
    return {
        "file": card.file,
        "kind": card.kind,
        "subject": card.subject,
        "format": card.format,
        "sheet": card.sheet or None,
        "pages": card.pages,
        "bytes": len(card.content),
    }
