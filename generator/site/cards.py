"""Has a deck of cards typeset: measures its blocks, puts them on sides, prints the files; refuses what does not fit."""

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime
from functools import cache

from generator.render.cards.card import Block, as_data
from generator.render.cards.deck import Deck, Job, Placed, pages_alone, pages_on_sheets, ruler
from generator.render.cards.formats import FORMATS, Format
from generator.render.cards.sides import WIDEST_NUMBER, Head, Height, blocks_of, sides_of, too_tall
from generator.shipped import shipped_root
from generator.site.typesetter import heights, pdf

PREVIEW_DPI = 150
_SYMBOL = re.compile(r'<symbol id="v-([a-z-]+)" viewBox="([^"]+)">(.*?)</symbol>', re.DOTALL)


@dataclass(frozen=True, slots=True)
class Printed:
    """One file, ready to be placed."""

    job: Job
    pages: int
    content: bytes


@cache
def outlines() -> Mapping[str, str]:
    """The outlines of the verdicts, out of the same file that pages draw them from."""
    text = (shipped_root() / "site_overrides/handbook/shapes.html").read_text(encoding="utf-8")
    head = '<svg xmlns="http://www.w3.org/2000/svg" viewBox='
    return {name: f'{head}"{box}">{inner}</svg>' for name, box, inner in _SYMBOL.findall(text)}


def measured(blocks: Iterable[Block], format_: Format) -> Height:
    """How tall each block is in a format; what is the same is measured once."""
    each = list(dict.fromkeys(blocks))
    data = {
        "format": _format_data(format_),
        "shapes": outlines(),
        "blocks": [as_data(block) for block in each],
    }
    found = dict(zip(each, heights(data), strict=True))
    return lambda block: found[block]


def _format_data(format_: Format) -> dict[str, float]:
    """As the templates know it; for measuring, the width inside the edge counts."""
    return {
        "width": format_.inner_width,
        "body": format_.body,
        "strong": format_.strong,
        "small": format_.small,
        "gap": format_.gap,
    }


def all_blocks(deck: Deck) -> Iterator[Block]:
    yield deck.foot
    for card in deck.sets:
        for section in card.sections:
            yield Head(card.head, section.title, WIDEST_NUMBER)
            for head, block in blocks_of(section):
                yield from (head, block) if head else (block,)


def printed(deck: Deck, as_of: date) -> Iterator[Printed]:
    seconds = int(datetime(as_of.year, as_of.month, as_of.day, tzinfo=UTC).timestamp())
    sides = {}
    for format_ in FORMATS:
        height = measured(all_blocks(deck), format_)
        for card in deck.sets:
            assert not list(too_tall(card, deck.foot, format_, height))
            sides[card.kind, card.subject, format_.id] = sides_of(card, deck.foot, format_, height)
    for job in deck.jobs():
        sets = [sides[card.kind, card.subject, job.format.id] for card in job.sets]
        pages = pages_on_sheets(job.sheet, sets) if job.sheet else pages_alone(sets[0])
        yield Printed(job, len(pages), pdf(document(deck, job, pages), seconds))


def document(deck: Deck, job: Job, pages: Sequence[Sequence[Placed]]) -> dict[str, object]:
    """What the template prints."""
    sheet, card = job.sheet, job.format
    return {
        "title": job.title,
        "author": deck.club,
        "description": f"{job.title}; {card.title}",
        "format": {**_format_data(card), "width": card.width, "height": card.height, "edge": card.edge},
        "page": {
            "width": sheet.width if sheet else card.width,
            "height": sheet.height if sheet else card.height,
        },
        "marks": list(sheet.marks()) if sheet else [],
        "ruler": ruler(sheet) if sheet else None,
        "shapes": outlines(),
        "pages": [[{**placed, "side": as_data(placed["side"])} for placed in page] for page in pages],
    }
