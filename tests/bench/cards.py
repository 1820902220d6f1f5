"""Typesetting 200 two-sided pocket cards, beside a library that makes PDF out of HTML with the same words."""

import time
from html import escape
from importlib import import_module
from typing import Any

from generator.compute.all_fits import all_fits
from generator.load.folder import load_club, load_shelf
from generator.render.cards.card import runs_of
from generator.render.cards.deck import Job, pages_alone
from generator.render.cards.formats import ID1
from generator.render.cards.sides import Side, all_blocks
from generator.render.cards.write import deck_of
from generator.site.cards import document, laid_out, measured, print_cards
from generator.site.typesetter import pdf
from generator.validate.dataset import build_dataset
from tests.clubs import DATA

CARDS = 200
HTML_LIBRARY = (
    "weasyprint"  # for tests only; it asks for libraries of the machine, and is left out where they are not
)
_STYLE = (
    "@page{size:85.6mm 53.98mm;margin:3mm}body{font:10pt/1.2 sans-serif;margin:0}"
    "section{break-after:page}b{border:.6pt solid;padding:0 2pt}p{margin:0 0 1mm}"
)


def card_figures() -> dict[str, Any]:
    dataset, _ = build_dataset(load_club(DATA / "demo"), load_shelf(DATA))
    assert dataset is not None
    deck = deck_of(dataset, all_fits(dataset))
    start = time.perf_counter()
    printed = print_cards(deck, dataset.as_of)
    whole = time.perf_counter() - start
    laid = laid_out(deck)
    sides = [side for key, found in laid.items() if key[2] == ID1.id for side in found][: 2 * CARDS]
    sides = (sides * (2 * CARDS // len(sides) + 1))[: 2 * CARDS]
    job = Job("", "bike", "all", "200 cards", ID1, None, ())
    start = time.perf_counter()
    content = pdf("cards.typ", document(deck, job, pages_alone(sides)), 0)
    seconds = time.perf_counter() - start
    start = time.perf_counter()
    measured(all_blocks(deck.sets, deck.foot), ID1)
    measuring = time.perf_counter() - start
    return {
        "sides": len(sides),
        "seconds": seconds,
        "measuring_all_blocks": measuring,
        "kilobytes": len(content) / 1000,
        "demo_files": len(printed.files),
        "demo_megabytes": sum(len(each.content) for each in printed.files) / 1e6,
        "demo_seconds": whole,
        "html_library_seconds": _by_html(sides),
    }


def _by_html(sides: list[Side]) -> float | None:
    """None where the library is not installed."""
    try:
        library: Any = import_module(HTML_LIBRARY)
    except (ImportError, OSError):
        return None
    pages = "".join(
        f"<section>{''.join(map(_paragraph, (side.head, *side.blocks, side.foot)))}</section>"
        for side in sides
    )
    start = time.perf_counter()
    library.HTML(string=f"<html lang='en'><style>{_STYLE}</style>{pages}</html>").write_pdf()
    return time.perf_counter() - start


def _paragraph(block: object) -> str:
    runs = (
        f"<b>{escape(run.text)}</b>" if run.style == "tag" else escape(run.text) for run in runs_of(block)
    )
    return f"<p>{''.join(runs)}</p>"
