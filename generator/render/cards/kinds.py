"""The kinds of card there are: what each is called, what it is for, and the addresses of its files."""

from dataclasses import dataclass

from generator.render.cards.formats import A6, FOLDER, ID1, SHEETS


@dataclass(frozen=True, slots=True)
class CardKind:
    """`subjects` is the word for what a set of this kind is about."""

    title: str
    what: str
    subject: str


KINDS = {
    "bike": CardKind(
        "Bike cards",
        "For the tool roll of each bike: what goes on its chain, limits and keys, and what comes before a hand goes near it.",
        "Bike",
    ),
    "repair": CardKind(
        "Repair cards",
        "For whoever sweeps: how each failure looks, how it is mended step by step, on any bike.",
        "What broke",
    ),
}


@dataclass(frozen=True, slots=True)
class CardLink:
    """One file of a set, and what to call it in a line of links."""

    label: str
    to: str


def card_links(kind: str, subject: str) -> tuple[CardLink, ...]:
    """The cards of one subject, for the page that speaks of it: pocket size, large print, and sheets to cut."""
    name = file_name(kind, subject)
    alone = (
        CardLink("pocket cards", f"{name}-{ID1.id}.pdf"),
        CardLink("large print, A6", f"{name}-{A6.id}.pdf"),
    )
    sheets = (sheet for sheet in SHEETS if sheet.card is ID1)
    return *alone, *(
        CardLink(f"sheet to cut, {sheet.title}", f"{name}-{ID1.id}-{sheet.id}.pdf") for sheet in sheets
    )


def file_name(kind: str, subject: str) -> str:
    return f"{FOLDER}/{kind}-{subject.lower()}"
