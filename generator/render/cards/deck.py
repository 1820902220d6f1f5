"""All card sets of a club, and the files they are printed to."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from generator.render.cards.card import CardSet, Foot
from generator.render.cards.formats import A6, CHECK_RULER, ID1, SHEETS, Format, Sheet
from generator.render.cards.kinds import KINDS, file_name
from generator.render.cards.sides import Side

ALL = "all"


@dataclass(frozen=True, slots=True)
class Job:
    """One file to print: sides one to a page, or on sheets."""

    file: str
    kind: str
    subject: str
    title: str
    format: Format
    sheet: Sheet | None
    sets: tuple[CardSet, ...]


@dataclass(frozen=True, slots=True)
class Deck:
    """Everything that is typeset for a club; `foot` stands on every side, `places` say where each record stands."""

    club: str
    foot: Foot
    sets: tuple[CardSet, ...]
    places: Mapping[tuple[str, str], str] = field(default_factory=dict)

    @property
    def kinds(self) -> tuple[str, ...]:
        return tuple(dict.fromkeys(card.kind for card in self.sets))

    def jobs(self) -> Iterator[Job]:
        """Each set by itself, and all sets of a kind together on sheets."""
        for kind in self.kinds:
            sets = [card for card in self.sets if card.kind == kind]
            for card in sets:
                yield from _jobs(kind, card.subject, card.title, (card,), alone=True)
            if len(sets) > 1:
                yield from _jobs(kind, ALL, f"All {KINDS[kind].title.lower()}", tuple(sets), alone=False)


def _jobs(kind: str, subject: str, title: str, sets: tuple[CardSet, ...], alone: bool) -> Iterator[Job]:
    name = file_name(kind, subject)
    if alone:
        for format_ in (ID1, A6):
            yield Job(f"{name}-{format_.id}.pdf", kind, subject, title, format_, None, sets)
    for sheet in SHEETS:
        if sheet.card is ID1 or not alone:
            file = f"{name}-{sheet.card.id}-{sheet.id}.pdf"
            yield Job(file, kind, subject, title, sheet.card, sheet, sets)


Placed = Mapping[str, object]


def pages_alone(sides: Sequence[Side]) -> list[list[Placed]]:
    """One side a page of its own size."""
    return [[{"x": 0.0, "y": 0.0, "side": side}] for side in sides]


def pages_on_sheets(sheet: Sheet, sets: Sequence[Sequence[Side]]) -> list[list[Placed]]:
    """A page of fronts, then the page of their backs; a set begins on a card of its own."""
    cards = [sides[n : n + 2] for sides in sets for n in range(0, len(sides), 2)]
    pages: list[list[Placed]] = []
    for first in range(0, len(cards), sheet.per_page):
        here = cards[first : first + sheet.per_page]
        pages.append([_placed(sheet, at, card[0], back=False) for at, card in enumerate(here)])
        if any(len(card) > 1 for card in here):
            pages.append(
                [_placed(sheet, at, card[1], back=True) for at, card in enumerate(here) if len(card) > 1]
            )
    return pages


def _placed(sheet: Sheet, at: int, side: Side, back: bool) -> Placed:
    x, y = sheet.place(at, back)
    return {"x": x, "y": y, "side": side}


def ruler(sheet: Sheet) -> Mapping[str, object]:
    """Under the cards, with what to do about it."""
    says = (
        "50 mm: measure it. Print at 100 %, not to fit. Two-sided: turn the paper over on its "
        f"{sheet.turn} edge."
    )
    bottom = sheet.top + sheet.rows * sheet.card.height
    return {
        "x": sheet.left + 2.0,
        "y": bottom + 5.0 if sheet.height - bottom > 12 else bottom + 1.5,
        "length": CHECK_RULER,
        "says": says,
    }
