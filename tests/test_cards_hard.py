"""Cards of clubs that make it hard: long names and labels, many spares, nothing known, forty bikes; and what is refused."""

import re
from collections.abc import Callable
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from generator.compute.all_fits import AllFits, all_fits
from generator.model.dataset import Dataset
from generator.render.cards.card import Fit, plain, runs_of
from generator.render.cards.deck import Deck, Job, pages_of
from generator.render.cards.formats import A6, ID1, SHEETS
from generator.render.cards.kinds import card_links
from generator.render.cards.sides import all_blocks
from generator.render.cards.words import plate
from generator.render.cards.write import deck_of
from generator.site import cards, typesetter
from generator.site.card_overflow import CardsRefused
from generator.site.cards import document, in_known_signs, laid_out, measured, print_cards
from tests.card_pdfs import codes, pages, picture
from tests.club_maker import club, inches_and_gaps
from tests.clubs import Raw, checked

LONG_ID = 40
LONG_NAME = 400


def long_labels(raw: Raw) -> Raw:
    """Every label as long as labels may be, without a hyphen where a line could break; every name as long as names may be."""

    def longer(value: Any) -> Any:
        if isinstance(value, str) and re.fullmatch(r"(link|clip|seals|chain|bike)-\d{3}", value):
            return value.replace("-", "").ljust(LONG_ID, "w")
        if isinstance(value, dict):
            return {longer(key): longer(each) for key, each in value.items()}
        return value

    made: Raw = longer(raw)
    for kind in ("chains", "links", "clips", "seals", "bikes"):
        for record in made[kind].values():
            record["name"] = "Wm" * (LONG_NAME // 2)
            if kind not in ("chains", "bikes"):
                record["kept_in"] = "a tin " * 66
    return made


@cache
def hard(case: str) -> tuple[Dataset, AllFits]:
    makers: dict[str, Callable[[], Raw]] = {
        "long": lambda: long_labels(club(5, bikes=3, chains=2, links=6)),
        "spares": lambda: club(6, bikes=2, chains=1, links=40, carried=12),
        "unknown": inches_and_gaps,
        "bikes": lambda: club(7, bikes=40, chains=3, links=4),
    }
    raw = makers[case]()
    if case == "long":
        raw["club"]["web_address"] = "https://club.example/chains/"
    dataset = checked(raw)
    return dataset, all_fits(dataset)


@pytest.mark.parametrize("case", ["long", "spares", "unknown", "bikes"])
def test_nothing_is_cut_refused_or_lost(case: str, tmp_path: Path) -> None:
    """Every block of every set stands on some side, whole; each pocket card's letters stay inside it."""
    dataset, fits = hard(case)
    deck = deck_of(dataset, fits)
    sides = laid_out(deck)
    for card in deck.sets:
        for format_ in ("id1", "a6"):
            if (card.kind, card.subject, format_) in sides:
                said = [
                    run.text
                    for side in sides[card.kind, card.subject, format_]
                    for run in runs_of(side.blocks)
                ]
                due = [run.text for block in all_blocks((card,), deck.foot) for run in runs_of(block)]
                heads = {run.text for run in (*runs_of(deck.foot), *card.head)}
                assert set(due) - heads <= set(said), (card.title, format_)
    bike = next(card for card in deck.sets if card.kind == "bike")
    job = Job("", "bike", bike.subject, bike.title, ID1, None, (bike,))
    file = tmp_path / "bike.pdf"
    made = document(deck, job, pages_of(job, [sides["bike", bike.subject, "id1"]]))
    file.write_bytes(typesetter.pdf("cards.typ", made, 0))
    for page in pages(file):
        assert all(
            c.left >= 2.9 and c.right <= 82.7 and c.top >= 2.9 and c.bottom <= 51.6 for c in page.letters
        )


def test_a_club_name_that_does_not_fit_is_refused_with_what_to_lose() -> None:
    """Record, field and characters are named; with so many fewer it fits, with one less than that it does not."""
    dataset, fits = hard("unknown")
    for name in ("Wm" * 200, "A club of many words " * 18):
        with pytest.raises(CardsRefused) as refused:
            laid_out(deck_of(_named(dataset, name), fits))
        (said,) = refused.value.said
        found = re.fullmatch(
            r"club\.yaml name of club made-up-2 does not fit on every card: make it (\d+) characters shorter",
            said,
        )
        assert found, said
        keep = len(name) - int(found[1])
        laid_out(deck_of(_named(dataset, name[:keep]), fits))
        with pytest.raises(CardsRefused):
            laid_out(deck_of(_named(dataset, name[: keep + 12]), fits))


def _named(dataset: Dataset, name: str) -> Dataset:
    return replace(dataset, club=dataset.club.model_copy(update={"name": name}))


def test_signs_that_no_font_has_are_boxes_and_said() -> None:
    dataset, fits = hard("unknown")
    deck = deck_of(_named(dataset, "Клуб 山 Ω"), fits)
    known, missing = in_known_signs(deck)
    assert [(each.where, each.signs) for each in missing] == [("name of club made-up-2", "山")]
    assert "Клуб □ Ω" in "".join(run.text for run in runs_of(known.foot))
    laid_out(known)


def test_two_runs_give_the_same_bytes() -> None:
    dataset, fits = hard("unknown")
    first = print_cards(deck_of(dataset, fits), dataset.as_of)
    typesetter._made.cache_clear()
    second = print_cards(deck_of(dataset, fits), dataset.as_of)
    assert first == second


def test_processes_of_their_own_print_the_same_and_tell_what_failed(monkeypatch: pytest.MonkeyPatch) -> None:
    dataset, fits = hard("unknown")
    deck = deck_of(dataset, fits)
    here = print_cards(deck, dataset.as_of)
    typesetter._made.cache_clear()
    monkeypatch.setattr(cards, "MANY_SETS", 0)
    monkeypatch.setattr(cards, "SIDES_AT_A_TIME", 40)
    assert print_cards(deck, dataset.as_of) == here
    with typesetter.typesetting_apart(), pytest.raises(typesetter.TypesettingFailed, match="title"):
        typesetter.pdf("cards.typ", {"format": {}}, 0)


def test_where_there_can_be_no_other_process_cards_are_made_all_the_same(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def refused(*_asked: object) -> None:
        raise OSError("no semaphores here")

    monkeypatch.setattr(typesetter, "ProcessPoolExecutor", refused)
    with typesetter.typesetting_apart():
        assert typesetter.heights({"blocks": []}) == []


def test_no_address_no_code() -> None:
    """The made-up club is published nowhere; with an address each set but the lid lists and readings has one code."""
    dataset, fits = hard("unknown")
    shapes = {
        type(block).__name__ for block in all_blocks(deck_of(dataset, fits).sets, deck_of(dataset, fits).foot)
    }
    assert "Code" not in shapes


def test_a_code_is_read_from_a_page_that_was_scanned_badly(tmp_path: Path) -> None:
    """At 150 dots per inch a module is 2 dots; a phone does better."""
    dataset, fits = hard("unknown")
    there = replace(
        dataset, club=dataset.club.model_copy(update={"web_address": "https://club.example/chains/"})
    )
    deck = deck_of(there, fits)
    card = next(card for card in deck.sets if card.kind == "meaning")
    sides = laid_out(replace(deck, sets=(card,)))
    job = Job("", "meaning", card.subject, card.title, ID1, None, (card,))
    file = tmp_path / "card.pdf"
    made = document(deck, job, pages_of(job, [sides["meaning", card.subject, "id1"]]))
    file.write_bytes(typesetter.pdf("cards.typ", made, 0))
    found = [code for page in range(len(pages(file))) for code in codes(file, page)]
    assert found == ["https://club.example/chains/safety/"]


def test_verdicts_differ_in_black_and_white(tmp_path: Path) -> None:
    """Without their words, printed at 200 dots per inch and seen as black or white alone, no two plates share nine tenths
    of their ink; and the worse a settled verdict, the more ink."""
    plates = [plate(0, 0), plate(1, 1), plate(2, 2), plate(3, 3), plate(0, 3), plate(None, None)]
    ink = [_ink(tmp_path / f"{n}.pdf", each.outline, each.edge) for n, each in enumerate(plates)]
    for n, one in enumerate(ink):
        for other in ink[n + 1 :]:
            assert len(one & other) < 0.9 * len(one | other)
    assert [len(each) for each in ink[:4]] == sorted(len(each) for each in ink[:4])


def _ink(file: Path, outline: str, edge: str) -> set[tuple[int, int]]:
    """The black dots of a plate with an empty word."""
    dataset, fits = hard("unknown")
    deck = replace(deck_of(dataset, fits), sets=())
    shown = Fit(type(plate(0, 0))(outline, edge, "\u200b"), (plain(" "),))
    data = document(deck, Job("", "bike", "x", "a plate", ID1, None, ()), [])
    side = {"shape": "side", "head": _as(shown), "blocks": [], "foot": {"shape": "foot", "text": []}}
    made = {**data, "pages": [[{"x": 0.0, "y": 0.0, "side": side}]]}
    file.write_bytes(typesetter.pdf("cards.typ", made, 0))
    seen = picture(file).convert("1")
    return {(x, y) for x in range(seen.width) for y in range(seen.height) if seen.getpixel((x, y)) == 0}


def _as(block: Fit) -> object:
    from generator.render.cards.card import as_data

    return as_data(block)


def test_links_lead_to_files_that_are_printed() -> None:
    dataset, fits = hard("unknown")
    deck: Deck = deck_of(dataset, fits)
    files = {job.file for job in deck.jobs()}
    for bike in dataset.bikes:
        assert {link.to for link in card_links("bike", bike)} <= files


def test_a_block_is_as_tall_as_it_is_printed() -> None:
    """The measure that sides are filled by is the one of the print: twice the words are about twice as tall."""
    one, two = Fit(plate(0, 0), (plain("word " * 40),)), Fit(plate(0, 0), (plain("word " * 80),))
    for format_ in (ID1, A6):
        height = measured((one, two), format_)
        assert 1.6 < height(two) / height(one) < 2.4


def test_sheets_hold_what_the_paper_can() -> None:
    for sheet in SHEETS:
        assert sheet.left > 5.0 and sheet.top > 5.0
        assert sheet.columns * sheet.card.width + 2 * sheet.left == pytest.approx(sheet.width)
