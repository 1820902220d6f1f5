"""Has a deck of cards typeset: measures its blocks, puts them on sides, prints the files; refuses what does not fit."""

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import UTC, date, datetime
from functools import cache

from generator.render.cards.card import Block, as_data, rewritten, runs_of
from generator.render.cards.deck import Deck, Job, Placed, pages_alone, pages_on_sheets, ruler
from generator.render.cards.formats import FORMATS, ID1, Format
from generator.render.cards.printed import CardFile, Preview, Printed
from generator.render.cards.sides import Height, Side, all_blocks, sides_of, too_tall
from generator.shipped import shipped_root
from generator.site.card_overflow import CardsRefused, said_of
from generator.site.typesetter import heights, not_in_fonts, pdf, png

PREVIEW_DPI = 150
NO_SIGN = "\N{WHITE SQUARE}"
_SYMBOL = re.compile(r'<symbol id="v-([a-z-]+)" viewBox="([^"]+)">(.*?)</symbol>', re.DOTALL)

Laid = Mapping[tuple[str, str, str], tuple[Side, ...]]


@dataclass(frozen=True, slots=True)
class Unprintable:
    """Signs of a typed text that no font of the cards has; boxes stand in their place."""

    where: str
    signs: str


def print_cards(deck: Deck, as_of: date) -> Printed:
    """Everything, or CardsRefused with all that does not fit."""
    deck, unprintable = in_known_signs(deck)
    sides = laid_out(deck)
    seconds = int(datetime(as_of.year, as_of.month, as_of.day, tzinfo=UTC).timestamp())
    files = tuple(_printed(deck, job, sides, seconds) for job in deck.jobs())
    return Printed(files, tuple(_previews(deck, sides)), unprintable)


def _printed(deck: Deck, job: Job, sides: Laid, seconds: int) -> CardFile:
    sets = [sides[card.kind, card.subject, job.format.id] for card in job.sets]
    pages = pages_on_sheets(job.sheet, sets) if job.sheet else pages_alone(sets[0])
    return CardFile(job, len(pages), pdf(document(deck, job, pages), seconds))


def _previews(deck: Deck, sides: Laid) -> Iterator[Preview]:
    """The first side of the first set of each kind."""
    for kind in deck.kinds:
        job = next(job for job in deck.jobs() if job.kind == kind and job.format is ID1 and not job.sheet)
        first = sides[kind, job.subject, ID1.id][:1]
        yield Preview(kind, png(document(deck, job, pages_alone(first)), PREVIEW_DPI))


def laid_out(deck: Deck) -> Laid:
    """The sides of every set in every format."""
    heights_in = {format_: measured(all_blocks(deck.sets, deck.foot), format_) for format_ in FORMATS}
    refused = [said for format_ in FORMATS for said in _refused(deck, format_, heights_in[format_])]
    if refused:
        raise CardsRefused(tuple(dict.fromkeys(refused)))
    return {
        (card.kind, card.subject, format_.id): sides_of(card, deck.foot, format_, heights_in[format_])
        for format_ in FORMATS
        for card in deck.sets
    }


def _refused(deck: Deck, format_: Format, height: Height) -> Iterator[str]:
    def again(block: Block) -> float:
        return measured((block,), format_)(block)

    for card in deck.sets:
        for tall in too_tall(card, deck.foot, format_, height):
            yield said_of(tall, card, deck, again)


def measured(blocks: Iterable[Block], format_: Format) -> Height:
    """How tall each block is in a format; what is the same is measured once."""
    each = list(dict.fromkeys(blocks))
    data = {"format": _type(format_), "shapes": outlines(), "blocks": [as_data(block) for block in each]}
    found = dict(zip(each, heights(data), strict=True))
    return lambda block: found[block]


def in_known_signs(deck: Deck) -> tuple[Deck, tuple[Unprintable, ...]]:
    """A box for each sign that no font has, and what it stood in; the rest of the text stays."""
    runs = list(dict.fromkeys(run for block in all_blocks(deck.sets, deck.foot) for run in runs_of(block)))
    missing = not_in_fonts(sign for run in runs for sign in run.text if not sign.isascii())
    if not missing:
        return deck, ()
    boxes = str.maketrans(dict.fromkeys(missing, NO_SIGN))
    found = {
        Unprintable(run.origin.words, "".join(sorted(missing & set(run.text))))
        for run in runs
        if run.origin and missing & set(run.text)
    }
    changed = rewritten(deck, lambda run: replace(run, text=run.text.translate(boxes)))
    return changed, tuple(sorted(found, key=lambda each: each.where))


@cache
def outlines() -> Mapping[str, str]:
    """The outlines of the verdicts, out of the same file that pages draw them from."""
    text = (shipped_root() / "site_overrides/handbook/shapes.html").read_text(encoding="utf-8")
    head = '<svg xmlns="http://www.w3.org/2000/svg" viewBox='
    return {name: f'{head}"{box}">{inner}</svg>' for name, box, inner in _SYMBOL.findall(text)}


def _type(format_: Format) -> dict[str, float]:
    """What the templates know of a format wherever it is drawn."""
    return {
        "inner": format_.inner_width,
        "body": format_.body,
        "strong": format_.strong,
        "small": format_.small,
        "gap": format_.gap,
    }


def document(deck: Deck, job: Job, pages: Sequence[Sequence[Placed]]) -> dict[str, object]:
    """What the template prints."""
    sheet, card = job.sheet, job.format
    size = sheet or card
    return {
        "title": job.title,
        "author": deck.club,
        "description": f"{job.title}; {card.title}",
        "format": {**_type(card), "width": card.width, "height": card.height, "edge": card.edge},
        "page": {"width": size.width, "height": size.height},
        "marks": list(sheet.marks()) if sheet else [],
        "ruler": ruler(sheet) if sheet else None,
        "shapes": outlines(),
        "pages": [[{**placed, "side": as_data(placed["side"])} for placed in page] for page in pages],
    }
