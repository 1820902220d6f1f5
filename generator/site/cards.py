"""Has a deck of cards typeset: measures its blocks, puts them on sides, prints the files; refuses what does not fit."""

import re
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from concurrent.futures import ThreadPoolExecutor
from contextlib import AbstractContextManager, nullcontext
from dataclasses import asdict, dataclass, replace
from datetime import UTC, date, datetime
from functools import cache
from os import cpu_count

from generator.compute.grouped import some_at_a_time
from generator.render.cards.card import Block, as_data, rewritten, runs_of
from generator.render.cards.deck import Deck, Job, Placed, formats_of, pages_alone, pages_of, ruler
from generator.render.cards.formats import FORMATS, Format
from generator.render.cards.printed import CardFile, Preview, Printed
from generator.render.cards.sides import Height, Side, all_blocks, foot_too_tall, sides_of, too_tall
from generator.render.cards.strips import StripSheet
from generator.shipped import shipped_root
from generator.site.card_overflow import CardsRefused, Refusal, refusal_of
from generator.site.typesetter import heights, not_in_fonts, pdf, png, typesetting_apart

PREVIEW_DPI, SHEET_DPI = 150, 60
# more sets than this, and as many sides at a time, are made by processes of their own
MANY_SETS, SIDES_AT_A_TIME = 300, 500
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
    many = len(deck.sets) > MANY_SETS
    sides = laid_out(deck, typesetting_apart if many else nullcontext)
    seconds = int(datetime(as_of.year, as_of.month, as_of.day, tzinfo=UTC).timestamp())
    cards = list((_some_at_a_time if many else _all_at_once)(deck, sides, seconds))
    strips = (_strip(deck, sheet, seconds) for sheet in deck.strips)
    return Printed((*cards, *strips), tuple(_previews(deck, sides)), unprintable)


def _all_at_once(deck: Deck, sides: Laid, seconds: int) -> Iterator[CardFile]:
    # the compiler lets go of the interpreter while it works, so that every core has a file to make
    with ThreadPoolExecutor(cpu_count()) as cores:
        yield from cores.map(lambda job: _printed(deck, job, sides, seconds), deck.jobs())


def _some_at_a_time(deck: Deck, sides: Laid, seconds: int) -> Iterator[CardFile]:
    """So many sides that a small machine has room for what the compiler holds of them."""

    def count(job: Job) -> int:
        return sum(len(sides[card.kind, card.subject, job.format.id]) for card in job.sets)

    for jobs in some_at_a_time(deck.jobs(), SIDES_AT_A_TIME, count):
        with typesetting_apart():
            yield from [_printed(deck, job, sides, seconds) for job in jobs]


def _printed(deck: Deck, job: Job, sides: Laid, seconds: int) -> CardFile:
    pages = pages_of(job, [sides[card.kind, card.subject, job.format.id] for card in job.sets])
    content = pdf("cards.typ", document(deck, job, pages), seconds)
    sheet = job.sheet.id if job.sheet else ""
    return CardFile(job.file, job.kind, job.subject, job.title, job.format.id, sheet, len(pages), content)


def _strip(deck: Deck, sheet: StripSheet, seconds: int) -> CardFile:
    content = pdf("strip.typ", _strip_data(deck, sheet), seconds)
    return CardFile(
        sheet.file, "strip", sheet.subject, sheet.title, f"strip-{sheet.sheet}", sheet.sheet, 1, content
    )


def _strip_data(deck: Deck, sheet: StripSheet) -> dict[str, object]:
    return {"author": deck.club, "description": sheet.title, **asdict(sheet)}


def _previews(deck: Deck, sides: Laid) -> Iterator[Preview]:
    """The first side of the first set of each kind; of strips a whole sheet, smaller."""
    for kind in deck.kinds:
        card, format_ = deck.of_kind(kind)[0], formats_of(kind)[0]
        job = Job("", kind, card.subject, card.title, format_, None, (card,))
        first = pages_alone(sides[kind, card.subject, format_.id][:1])
        yield _preview(
            kind, "cards.typ", document(deck, job, first), format_.width, format_.height, PREVIEW_DPI
        )
    for sheet in deck.strips[:1]:
        yield _preview("strip", "strip.typ", _strip_data(deck, sheet), sheet.width, sheet.height, SHEET_DPI)


def _preview(
    kind: str, template: str, data: dict[str, object], width: float, height: float, dpi: int
) -> Preview:
    return Preview(kind, png(template, data, dpi), *(round(side / 25.4 * dpi) for side in (width, height)))


def laid_out(deck: Deck, by: Callable[[], AbstractContextManager[None]] = nullcontext) -> Laid:
    """The sides of every set in its formats; each format is measured within a new `by`."""
    heights_in: dict[Format, Height] = {}
    for format_ in FORMATS:
        if sets := [card for card in deck.sets if format_ in formats_of(card.kind)]:
            with by():
                heights_in[format_] = measured(all_blocks(sets, deck.foot_in(format_)), format_)
    refused = [each for format_, height in heights_in.items() for each in _refused(deck, format_, height)]
    if refused:
        raise CardsRefused(refused)
    return {
        (card.kind, card.subject, format_.id): sides_of(
            card, deck.foot_in(format_), format_, heights_in[format_]
        )
        for card in deck.sets
        for format_ in formats_of(card.kind)
    }


def _refused(deck: Deck, format_: Format, height: Height) -> Iterator[Refusal]:
    def again(block: Block) -> float:
        return measured((block,), format_)(block)

    foot = deck.foot_in(format_)
    for tall in foot_too_tall(foot, format_, height):
        yield refusal_of(tall, "every card", deck, again)
        return
    for card in (card for card in deck.sets if format_ in formats_of(card.kind)):
        for tall in too_tall(card, foot, format_, height):
            yield refusal_of(tall, card.title, deck, again)


def measured(blocks: Iterable[Block], format_: Format) -> Height:
    """How tall each block is in a format; what is the same is measured once."""
    each = list(dict.fromkeys(blocks))
    data = {"format": _type(format_), "shapes": outlines(), "blocks": [as_data(block) for block in each]}
    found = dict(zip(each, heights(data), strict=True))
    return lambda block: found[block]


def in_known_signs(deck: Deck) -> tuple[Deck, tuple[Unprintable, ...]]:
    """A box for each sign that no font has, and what it stood in; the rest of the text stays."""
    runs = list(
        dict.fromkeys(
            run for block in (*all_blocks(deck.sets, deck.foot), deck.short_foot) for run in runs_of(block)
        )
    )
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
        "code": format_.code,
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
