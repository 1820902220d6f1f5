"""The page that leads to all cards: a picture of each kind, and its files by format and sheet."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from generator.model.dataset import Dataset
from generator.render.base.page import Asset, Page
from generator.render.base.table import Cell, Column, Row, Table
from generator.render.cards.deck import ALL
from generator.render.cards.formats import FOLDER, FORMATS, SHEETS
from generator.render.cards.kinds import KINDS, CardKind
from generator.render.cards.printed import CardFile, Printed
from generator.render.contract.cards_json import cards_document
from generator.render.contract.envelope import json_text

PAGE = f"{FOLDER}/"


@dataclass(frozen=True, slots=True)
class ShownKind:
    """One kind with the address of its picture."""

    id: str
    kind: CardKind
    picture: str
    table: Table


def cards_page(printed: Printed) -> Page:
    shown = tuple(_shown(printed, preview.kind) for preview in printed.previews)
    return Page(
        path=PAGE,
        title="Cards to print",
        description="Pocket cards and sheets of this handbook to print, cut and laminate, at their exact size.",
        template="handbook/cards.html",
        context={"kinds": shown, "formats": FORMATS, "list": f"{FOLDER}/cards.json"},
        search=("cards", "print", "pocket card", "laminate", "paper", "pdf"),
        kind="cards",
        in_nav=True,
    )


def card_files(dataset: Dataset, printed: Printed) -> Iterator[Asset]:
    for card in printed.files:
        yield Asset(card.job.file, card.content)
    for preview in printed.previews:
        yield Asset(_picture(preview.kind), preview.content)
    yield Asset(f"{FOLDER}/cards.json", json_text(cards_document(dataset, printed)))


def _picture(kind: str) -> str:
    return f"{FOLDER}/{kind}.png"


def _shown(printed: Printed, kind: str) -> ShownKind:
    cards = [card for card in printed.files if card.job.kind == kind]
    ways = list(dict.fromkeys((card.job.format.id, _sheet(card)) for card in cards))
    columns = (Column(KINDS[kind].subject, "head"), *(Column(_way(*way)) for way in ways))
    subjects = dict.fromkeys(card.job.subject for card in cards)
    rows = tuple(
        _row(subject, ways, [card for card in cards if card.job.subject == subject]) for subject in subjects
    )
    table = Table(f"cards-{kind}", f"{KINDS[kind].title}: files", columns, rows)
    return ShownKind(kind, KINDS[kind], _picture(kind), table)


def _sheet(card: CardFile) -> str:
    return card.job.sheet.id if card.job.sheet else ""


def _way(format_: str, sheet: str) -> str:
    size = {"id1": "Pocket", "a6": "A6"}.get(format_, format_)
    titles = {each.id: each.title for each in SHEETS}
    return f"{size} on {titles[sheet]}" if sheet else f"{size}, one a page"


def _row(subject: str, ways: Sequence[tuple[str, str]], cards: Sequence[CardFile]) -> Row:
    by_way = {(card.job.format.id, _sheet(card)): card for card in cards}
    head = Cell("all together" if subject == ALL else subject)
    return Row((head, *(_cell(by_way.get(way)) for way in ways)))


def _cell(card: CardFile | None) -> Cell:
    if card is None:
        return Cell("-")
    pages = "1 page" if card.pages == 1 else f"{card.pages} pages"
    return Cell(f"{pages}, {-(-len(card.content) // 1000)} kB", to=card.job.file)
