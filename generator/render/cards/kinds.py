"""The kinds of card there are: what each is called, what it is for, and the addresses of its files."""

from dataclasses import dataclass

from generator.render.cards.formats import A6, FOLDER, ID1, SHEETS


@dataclass(frozen=True, slots=True)
class CardKind:
    """`subject` is the word for what a set is about; `alone`: each set has files of its own; `pages`: on whole pages
    too, to be written on; `labels`: on sheets of labels only; `stuck`: on something, so that nothing stands behind."""

    title: str
    what: str
    subject: str
    alone: bool = True
    pages: bool = False
    labels: bool = False
    stuck: bool = False


KINDS = {
    "bike": CardKind(
        "Bike cards",
        "For the tool roll of each bike: what goes on its chain, what to do if it breaks, limits and keys, and what "
        "comes before a hand goes near it.",
        "Bike",
    ),
    "repair": CardKind(
        "Repair cards",
        "For whoever sweeps: how each failure looks, what mends it on any bike, and every way step by step.",
        "Set",
    ),
    "ride": CardKind(
        "Ride cards",
        "For leader and sweep: who carries what, what of it goes on which bike, and what stays uncovered.",
        "Ride",
    ),
    "meaning": CardKind("Meaning of the verdicts", "What each verdict allows, in plain words.", "Set"),
    "size": CardKind(
        "Size cards",
        "For the parts counter: which size codes go together, lengths new and at the limit, and what the club has.",
        "Size code",
    ),
    "measuring": CardKind(
        "Measuring cards and sheets",
        "For the bench: every reading of a joint with room for a pencil, in the order that settles most.",
        "Set",
        pages=True,
    ),
    "strip": CardKind(
        "Wear strips",
        "Life-size strips to hold a chain against, with a mark where it is new and where it is worn out.",
        "Strip",
    ),
    "tin": CardKind(
        "Lid lists",
        "For the lid of each tin and roll: what is in it, and which bikes it serves.",
        "Kept in",
        alone=False,
        stuck=True,
    ),
    "label": CardKind(
        "Bag labels",
        "For a sheet of labels: the label of each bag, what it is for, and the code of its page.",
        "Label",
        labels=True,
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
    cut = (CardLink(f"sheet to cut, {sheet.title}", f"{name}-{ID1.id}-{sheet.id}.pdf") for sheet in sheets)
    return (*alone, *cut)


def repair_card_links() -> tuple[tuple[str, tuple[CardLink, ...]], ...]:
    """Both sets for whoever mends, each under what it says."""
    sets = (("What broke, on paper", "what-broke"), ("How to mend it, on paper", "how"))
    return tuple((title, card_links("repair", subject)) for title, subject in sets)


def file_name(kind: str, subject: str) -> str:
    return f"{FOLDER}/{kind}-{subject.lower()}"
