"""The page that leads to all cards: a picture of each kind, and its files by format and sheet."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from generator.model.dataset import Dataset
from generator.render.base.page import Asset, Page
from generator.render.base.table import Cell, Column, Row, Table
from generator.render.cards.deck import ALL
from generator.render.cards.formats import FOLDER, SHEETS
from generator.render.cards.kinds import KINDS, CardKind
from generator.render.cards.printed import CardFile, Preview, Printed
from generator.render.contract.cards_json import cards_document
from generator.render.contract.envelope import json_text
from generator.render.say.names import named

PAGE = f"{FOLDER}/"


@dataclass(frozen=True, slots=True)
class ShownKind:
    """One kind with the address of its picture and its size in pixels."""

    id: str
    kind: CardKind
    picture: str
    width: int
    height: int
    table: Table
    more: tuple[tuple[str, str], ...]  # files of all sets in one that no set has alone: what it is, and where


def cards_page(dataset: Dataset, printed: Printed) -> Page:
    shown = tuple(_shown(dataset, printed, preview) for preview in printed.previews)
    return Page(
        path=PAGE,
        title="Cards to print",
        description="Pocket cards and sheets of this handbook to print, cut and laminate, at their exact size.",
        template="handbook/cards.html",
        context={"kinds": shown, "list": f"{FOLDER}/cards.json"},
        search=("cards", "print", "pocket card", "laminate", "paper", "pdf"),
        kind="cards",
        in_nav=True,
    )


def card_files(dataset: Dataset, printed: Printed) -> Iterator[Asset]:
    for card in printed.files:
        yield Asset(card.file, card.content)
    for preview in printed.previews:
        yield Asset(_picture(preview.kind), preview.content)
    yield Asset(f"{FOLDER}/cards.json", json_text(cards_document(dataset, printed)))


def _picture(kind: str) -> str:
    return f"{FOLDER}/{kind}.png"


def _shown(dataset: Dataset, printed: Printed, preview: Preview) -> ShownKind:
    kind = KINDS[preview.kind]
    cards = [card for card in printed.files if card.kind == preview.kind]
    alone = [card for card in cards if card.subject != ALL] or cards
    ways = list(dict.fromkeys((card.format, card.sheet) for card in alone))
    columns = (Column(kind.subject, "head"), *(Column(_way(*way)) for way in ways))
    subjects = dict.fromkeys(card.subject for card in cards)
    rows = tuple(
        _row(dataset, subject, ways, [card for card in cards if card.subject == subject])
        for subject in subjects
    )
    table = Table(f"cards-{preview.kind}", f"{kind.title}: files", columns, rows)
    more = tuple(
        (f"{_way(card.format, card.sheet)} ({_size(card)})", card.file)
        for card in cards
        if (card.format, card.sheet) not in ways
    )
    return ShownKind(preview.kind, kind, _picture(preview.kind), preview.width, preview.height, table, more)


def _way(format_: str, sheet: str) -> str:
    paper = {each.id: each.title for each in SHEETS}.get(sheet or format_.partition("-")[2], "")
    size = {"id1": "Pocket", "a6": "A6"}.get(format_)
    if size is None:
        return f"Sheet, {paper}"
    return f"{size} on {paper}" if sheet else f"{size}, one a page"


def _row(dataset: Dataset, subject: str, ways: Sequence[tuple[str, str]], cards: Sequence[CardFile]) -> Row:
    by_way = {(card.format, card.sheet): card for card in cards}
    head = Cell("all together" if subject == ALL else subject, note=_note(dataset, subject, cards))
    return Row((head, *(_cell(by_way.get(way)) for way in ways)))


def _note(dataset: Dataset, subject: str, cards: Sequence[CardFile]) -> str:
    """What the set is about, where its id does not say it."""
    first = cards[0]
    if first.kind == "bike" and subject != ALL:
        return named(dataset.bikes[subject])
    return "" if subject == ALL or subject in first.title else first.title


def _cell(card: CardFile | None) -> Cell:
    return Cell() if card is None else Cell(_size(card), to=card.file)


def _size(card: CardFile) -> str:
    pages = "1 page" if card.pages == 1 else f"{card.pages} pages"
    return f"{pages}, {-(-len(card.content) // 1000)} kB"
