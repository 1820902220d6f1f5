"""All card sets of a club, and the files they are printed to."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace

from generator.render.cards.card import CardSet, Foot
from generator.render.cards.formats import (
    A6,
    CARDS,
    CHECK_RULER,
    ID1,
    LABEL_SHEETS,
    LABELS,
    PAGES,
    SHEETS,
    Format,
    Sheet,
)
from generator.render.cards.kinds import KINDS, file_name
from generator.render.cards.sides import Side
from generator.render.cards.strips import StripSheet

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
    """Everything that is typeset for a club; `foot` stands on every side, the short one on labels, `places` say where
    each record stands."""

    club: str
    foot: Foot
    short_foot: Foot
    sets: tuple[CardSet, ...]
    strips: tuple[StripSheet, ...] = ()
    places: Mapping[tuple[str, str], str] = field(default_factory=dict)

    def foot_in(self, format_: Format) -> Foot:
        return self.short_foot if format_ in LABELS else self.foot

    @property
    def kinds(self) -> tuple[str, ...]:
        return tuple(dict.fromkeys(card.kind for card in self.sets))

    def of_kind(self, kind: str) -> tuple[CardSet, ...]:
        return tuple(card for card in self.sets if card.kind == kind)

    def jobs(self) -> Iterator[Job]:
        """Each set by itself, and all sets of a kind together on sheets."""
        for kind in self.kinds:
            sets = self.of_kind(kind)
            if KINDS[kind].labels:
                yield from (
                    _job(kind, ALL, KINDS[kind].title, sheet.card, sheet, sets) for sheet in LABEL_SHEETS
                )
                continue
            if KINDS[kind].alone:
                yield from (job for card in sets for job in _alone(card, len(sets) == 1))
            if len(sets) > 1 or not KINDS[kind].alone:
                title = f"All {KINDS[kind].title.lower()}"
                yield from (_job(kind, ALL, title, sheet.card, sheet, sets) for sheet in SHEETS)


def formats_of(kind: str) -> tuple[Format, ...]:
    """In which its sets are laid out."""
    if KINDS[kind].labels:
        return tuple(sheet.card for sheet in LABEL_SHEETS)
    return (*CARDS, *(PAGES if KINDS[kind].pages else ()))


def _alone(card: CardSet, only: bool) -> Iterator[Job]:
    """A set on pages of the card's size, pocket cards on sheets to cut, and whole pages where it is written on; large
    print is on sheets with all others of its kind, if there are others."""
    for format_ in formats_of(card.kind):
        yield _job(card.kind, card.subject, card.title, format_, None, (card,))
        if format_ is ID1 or (format_ is A6 and only):
            sheets = (sheet for sheet in SHEETS if sheet.card is format_)
            yield from (
                _job(card.kind, card.subject, card.title, format_, sheet, (card,)) for sheet in sheets
            )


def _job(
    kind: str, subject: str, title: str, format_: Format, sheet: Sheet | None, sets: tuple[CardSet, ...]
) -> Job:
    way = f"{format_.id}-{sheet.id}" if sheet else format_.id
    # the id of a label's format names its sheet already
    way = format_.id if KINDS[kind].labels else way
    if sheet and KINDS[kind].stuck:
        sheet = replace(sheet, turn="")
    # `all` may be the id of a bike
    is_one = [card.subject for card in sets] == [subject]
    name = file_name(kind, subject) if is_one else file_name(ALL, kind)
    return Job(f"{name}-{way}.pdf", kind, subject, title, format_, sheet, sets)


Placed = Mapping[str, object]


def pages_of(job: Job, sets: Sequence[Sequence[Side]]) -> list[list[Placed]]:
    """The sides on each page."""
    return _on_sheets(job.sheet, sets) if job.sheet else pages_alone(sets[0])


def pages_alone(sides: Sequence[Side]) -> list[list[Placed]]:
    """One side a page of its own size."""
    return [[{"x": 0.0, "y": 0.0, "side": side}] for side in sides]


def _on_sheets(sheet: Sheet, sets: Sequence[Sequence[Side]]) -> list[list[Placed]]:
    """A page of fronts, then the page of their backs; a set begins on a card of its own.  Labels have no back."""
    sides_a_card = 2 if sheet.turn else 1
    cards = [sides[n : n + sides_a_card] for sides in sets for n in range(0, len(sides), sides_a_card)]
    pages: list[list[Placed]] = []
    for first in range(0, len(cards), sheet.per_page):
        here = cards[first : first + sheet.per_page]
        pages.append([_placed(sheet, at, card[0], back=False) for at, card in enumerate(here)])
        backs = [_placed(sheet, at, card[1], back=True) for at, card in enumerate(here) if len(card) > 1]
        if backs:
            pages.append(backs)
    return pages


def _placed(sheet: Sheet, at: int, side: Side, back: bool) -> Placed:
    x, y = sheet.place(at, back)
    return {"x": x, "y": y, "side": side}


def ruler(sheet: Sheet) -> Mapping[str, object]:
    """Under the cards, with what to do about it."""
    turn = f" Two-sided: turn the paper over on its {sheet.turn} edge." if sheet.turn else ""
    return {
        "x": sheet.left + 2.0,
        "y": sheet.bottom + (3.0 if sheet.ready else 6.0),  # below the crop marks
        "length": CHECK_RULER,
        "says": f"50 mm: measure it. Print at 100 %, not to fit.{turn}",
    }
