"""The demo's card files read back: sizes, places, fonts, codes, tags; and what a card must say of a verdict.

Sizes: ISO/IEC 7810 (ID-1, 85.60 x 53.98 mm), ISO 216 (A4, A6), ANSI Y14.1 (Letter, 8.5 x 11 in).  Type: ISO/IEC Guide 37
asks for 10 pt and, for warnings, 12 pt.  Quiet zone of a code: ISO/IEC 18004.
"""

import json
import re
from collections import Counter, defaultdict
from collections.abc import Iterator
from functools import cache
from itertools import pairwise
from pathlib import Path
from typing import Any

import jsonschema
import pikepdf
import pytest
from pypdf import PdfReader

from generator.compute.fit.result import PairFit
from generator.model.shipped import GET_HOME, NO_GO, RUNGS
from generator.render.cards.card import Group, Labels, Listing, runs_of
from generator.render.cards.deck import Deck
from generator.render.cards.desk import Desk
from generator.render.cards.write import deck_of
from generator.render.pages.cards import card_files
from generator.render.schema.cards import cards_schema
from generator.site.cards import print_cards
from tests.card_pdfs import Letter, PrintedPage, codes, letters_of, pages, picture, texts_of
from tests.handbook import demo, demo_all

MM = 0.1
PAPER = {
    "id1": (85.60, 53.98),
    "a6": (105.0, 148.0),
    "a4": (210.0, 297.0),
    "letter": (215.9, 279.4),
}
EDGE = {"id1": 3.0, "a6": 6.0}


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Where the demo's card files lie below `cards`, without the rest of its handbook."""
    at = tmp_path_factory.mktemp("printed")
    made = print_cards(demo_deck(), demo().as_of)
    for asset in card_files(demo(), made):
        content = asset.content.encode() if isinstance(asset.content, str) else asset.content
        at.joinpath(asset.path).parent.mkdir(exist_ok=True)
        at.joinpath(asset.path).write_bytes(content)
    return at


@pytest.fixture(scope="module")
def every_card(folder: Path) -> list[dict[str, Any]]:
    listed: list[dict[str, Any]] = json.loads((folder / "cards/cards.json").read_text())["cards"]
    return listed


@pytest.fixture(scope="module", params=["a few", pytest.param("all", marks=pytest.mark.long)])
def cards(request: pytest.FixtureRequest, every_card: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """Of every kind, format and sheet the first; all of them takes a minute or two."""
    if request.param == "all":
        return every_card
    first = {(card["kind"], card["format"], card["sheet"]): card for card in reversed(every_card)}
    return [card for card in first.values() if card["bytes"] < 150_000]


def of(cards: list[dict[str, Any]], **wanted: Any) -> list[dict[str, Any]]:
    return [card for card in cards if all(card[key] == value for key, value in wanted.items())]


def paper_of(card: dict[str, Any]) -> tuple[float, float]:
    """Landscape where large cards or strips lie on their long side."""
    if card["sheet"] is None:
        return PAPER[card["format"].removeprefix("page-")]
    width, height = PAPER[card["sheet"]]
    return (height, width) if card["format"] in ("a6", "strip-a4", "strip-letter") else (width, height)


def test_the_list_says_what_the_files_are(folder: Path, every_card: list[dict[str, Any]]) -> None:
    document = json.loads((folder / "cards/cards.json").read_text())
    jsonschema.validate(document, cards_schema())
    for card in every_card:
        content = folder / card["file"]
        assert content.stat().st_size == card["bytes"]
        assert len(PdfReader(content).pages) == card["pages"]
    on_disk = {f"cards/{path.name}" for path in (folder / "cards").glob("*.pdf")}
    assert on_disk == {card["file"] for card in every_card}


def test_every_kind_is_there(every_card: list[dict[str, Any]]) -> None:
    kinds = Counter(card["kind"] for card in every_card)
    assert set(kinds) == {"bike", "repair", "ride", "meaning", "size", "measuring", "strip", "tin", "label"}
    assert {card["subject"] for card in of(every_card, kind="bike")} == {*demo().bikes, "all"}
    assert {(card["format"], card["sheet"]) for card in of(every_card, kind="bike")} == {
        (format_, sheet) for format_ in ("id1", "a6") for sheet in (None, "a4", "letter")
    }


def test_every_page_has_the_size_of_its_card_or_paper(folder: Path, cards: list[dict[str, Any]]) -> None:
    for card in cards:
        width, height = paper_of(card)
        for page in PdfReader(folder / card["file"]).pages:
            box = page.mediabox
            assert float(box.width) * 25.4 / 72 == pytest.approx(width, abs=MM), card["file"]
            assert float(box.height) * 25.4 / 72 == pytest.approx(height, abs=MM), card["file"]


@pytest.mark.parametrize(
    ("format_", "sheet"), [("id1", "a4"), ("id1", "letter"), ("a6", "a4"), ("a6", "letter")]
)
def test_crop_marks_stand_where_the_cards_end(
    folder: Path, every_card: list[dict[str, Any]], format_: str, sheet: str
) -> None:
    """Worked out anew: as many columns and rows as fit in pocket size (2 x 5, 2 x 4), two large ones, in the middle."""
    card = of(every_card, kind="bike", subject="all", format=format_, sheet=sheet)[0]
    width, height = paper_of(card)
    columns, rows = (2, {"a4": 5, "letter": 4}[sheet]) if format_ == "id1" else (2, 1)
    wide, tall = PAPER[format_]
    left, top = (width - columns * wide) / 2, (height - rows * tall) / 2
    for page in pages(folder / card["file"], 2):
        upright = {
            round(x1, 2)
            for x1, y1, x2, y2 in page.lines
            if x1 == x2 and (y2 <= top or y1 >= top + rows * tall)
        }
        level = {
            round(y1, 2)
            for x1, y1, x2, y2 in page.lines
            if y1 == y2 and (x2 <= left or x1 >= left + columns * wide)
        }
        for n in range(columns + 1):
            assert any(abs(x - left - n * wide) < MM for x in upright), (n, upright)
        for n in range(rows + 1):
            assert any(abs(y - top - n * tall) < MM for y in level), (n, level)


def test_backs_lie_mirrored_behind_their_fronts(folder: Path, every_card: list[dict[str, Any]]) -> None:
    """The number of a side stands at its upper right: that of the back is mirrored about the middle of the paper."""
    card = of(every_card, kind="bike", subject="b01", format="id1", sheet="a4")[0]
    front, back = pages(folder / card["file"], 2)
    wide, tall = PAPER["id1"]
    left, top = (210.0 - 2 * wide) / 2, (297.0 - 5 * tall) / 2
    number_at = {number: spot for page in (front, back) for number, spot in _numbers(page, left, top)}
    sides = len(number_at)
    assert sides > 4
    for number in range(1, sides, 2):
        column, row = number_at[number]
        if number + 1 in number_at:
            assert number_at[number + 1] == (1 - column, row)


def _numbers(page: PrintedPage, left: float, top: float) -> Iterator[tuple[int, tuple[int, int]]]:
    """`3 of 12` of each card with its column and row."""
    wide, tall = PAPER["id1"]
    for column in range(2):
        for row in range(5):
            x, y = left + column * wide, top + row * tall
            head = [c for c in page.letters if x <= c.left < x + wide and y <= c.top < y + 8]
            found = "".join(c.text for c in head if c.left > x + wide - 20).partition("of")
            if found[1]:
                yield int("".join(filter(str.isdigit, found[0]))), (column, row)


def test_no_letter_leaves_its_card(folder: Path, cards: list[dict[str, Any]]) -> None:
    """Inside the edge of the card, and above the line under it."""
    for card in (card for card in cards if card["sheet"] is None and card["format"] in EDGE):
        width, height = PAPER[card["format"]]
        edge = EDGE[card["format"]] - 0.05
        for number, letters in enumerate(letters_of(folder / card["file"]), 1):
            small = min(c.size for c in letters)
            foot = min(c.top for c in letters if c.size == small)
            for c in letters:
                assert edge <= c.left and c.right <= width - edge, (card["file"], number, c)
                assert edge <= c.bottom <= height - edge + 0.5, (card["file"], number, c)
                assert c.size == small or c.bottom <= foot + 0.6, (card["file"], number, c)


def test_fonts_are_inside_and_no_letter_is_small(folder: Path, cards: list[dict[str, Any]]) -> None:
    """Body 10 pt and more, what is cautioned and every limit 12 pt and more; the line under a card alone is smaller."""
    for card in cards:
        if card["kind"] == "strip":
            continue
        for letters in letters_of(folder / card["file"]):
            assert {c.font for c in letters} <= {
                "FiraSansCondensed-Regular",
                "FiraSansCondensed-Bold",
            }, card
            small = Counter(round(c.size, 1) for c in letters if c.size < 9.95)
            assert set(small) <= {8.0, 9.0}, (card["file"], small)
    reader = PdfReader(folder / "cards/bike-b01-id1.pdf")
    fonts = {font for page in reader.pages for font in page._get_fonts()[1]}
    assert fonts == set(), "a font that is not embedded"


def test_the_quick_reader_finds_every_letter_where_the_other_does(folder: Path) -> None:
    """Both in reading order would differ where words stand in columns."""
    for name in ("bike-b01-id1", "ride-long-loop-id1", "bike-b01-id1-a4"):
        file = folder / f"cards/{name}.pdf"
        for page, letters in zip(pages(file), letters_of(file), strict=True):
            quick = defaultdict(list)
            for c in letters:
                quick[c.text, c.font].append(c)
            alone = [c for c in page.letters if len(c.text) == 1]
            missed = [c for c in alone if not any(_same(c, one) for one in quick[c.text, c.font])]
            assert alone and missed == []
            # the quick reader counts what an f hangs over, and of some letters the ink and not the room they take
            assert -0.1 < max(c.right for c in letters) - max(c.right for c in page.letters) < 0.5


def _same(one: Letter, quick: Letter) -> bool:
    """To a twentieth of a millimetre, type to a tenth of a point."""
    spots = ((one.left, quick.left), (one.top, quick.top), (one.bottom, quick.bottom))
    return all(abs(a - b) < 0.05 for a, b in spots) and abs(one.size - quick.size) < 0.1


def test_limits_and_warnings_are_large(folder: Path) -> None:
    printed = pages(folder / "cards/bike-b01-id1.pdf")
    large = ["".join(c.text for c in page.letters if c.size > 11.9) for page in printed]
    assert any("scrapunder" in text for text in large)
    assert any("Engineoff,keyout" in text for text in large)
    assert any("35to45mm" in text for text in large)


def test_every_code_leads_to_its_page(folder: Path, cards: list[dict[str, Any]]) -> None:
    """Read from the picture of each last page that has one; the demo is published at an address of RFC 2606."""
    base = "https://lantern-trail-riders.example/chains/"
    pages_of_sets = {base + card.page for card in demo_deck().sets}
    for card in of(cards, format="id1", sheet=None):
        if card["kind"] in ("tin",):
            continue
        file = folder / card["file"]
        found = [
            code
            for page, text in enumerate(texts_of(file))
            if "in full" in " ".join(text.split())
            for code in codes(file, page)
        ]
        if "measuring-joint" in card["file"]:
            continue
        assert len(found) == 1, card["file"]
        assert found[0] in pages_of_sets


def test_every_label_has_the_code_of_its_bag(folder: Path, every_card: list[dict[str, Any]]) -> None:
    card = of(every_card, kind="label", sheet="a4")[0]
    file = folder / card["file"]
    read = [code for page in range(card["pages"]) for code in codes(file, page)]
    dataset = demo()
    bags = [
        f"{folder}/{id_}/"
        for folder in ("links", "clips", "seals", "plates", "strips", "tools")
        for id_ in getattr(dataset, folder)
    ]
    assert sorted(
        code.removeprefix("https://lantern-trail-riders.example/chains/") for code in read
    ) == sorted(bags)


def test_a_second_reader_finds_title_language_and_tags(folder: Path, cards: list[dict[str, Any]]) -> None:
    """The compiler enforces PDF/UA-1; this looks at a few of its demands with another reader and validates nothing."""
    for card in cards:
        with pikepdf.open(folder / card["file"]) as pdf:
            assert bool(pdf.Root.MarkInfo.Marked)
            assert str(pdf.Root.Lang) == "en"
            assert bool(pdf.Root.ViewerPreferences.DisplayDocTitle)
            with pdf.open_metadata() as told:
                assert told.get("pdfuaid:part") == "1"
                assert told.get("dc:title")
            kinds = Counter(str(each.get("/S", "")) for each in _tags(pdf))
            assert kinds["/H1"] >= 1, card["file"]
            for each in _tags(pdf):
                if str(each.get("/S", "")) == "/Figure":
                    assert str(each.get("/Alt", "")), card["file"]
            if card["kind"] == "ride" and kinds["/Table"]:
                assert kinds["/TH"] > 0 and kinds["/TD"] > 0


def _tags(pdf: pikepdf.Pdf) -> Iterator[Any]:
    return (
        each for each in pdf.objects if isinstance(each, pikepdf.Dictionary) and "/S" in each and "/P" in each
    )


def test_sides_are_read_in_their_order(folder: Path) -> None:
    """Head, blocks from top to bottom, then the line under the card: as the text stands in the file, so it is read out."""
    for page in pages(folder / "cards/bike-b01-id1.pdf"):
        drops = [(a, b) for a, b in pairwise([c.top for c in page.letters]) if b < a - 12.0]
        assert drops == [], page.text


def test_everything_is_black_and_white(folder: Path) -> None:
    for name in ("bike-b01-id1", "ride-long-loop-id1", "meaning-verdicts-id1"):
        colours = picture(folder / f"cards/{name}.pdf").convert("RGB").getcolors(1 << 20)
        assert colours is not None
        assert all(isinstance(colour, tuple) and len(set(colour)) == 1 for _, colour in colours)


def test_strips_are_life_size(folder: Path, every_card: list[dict[str, Any]]) -> None:
    """Ticks a pitch apart (12.70 and 15.875 mm by ISO 606), the limit n pitches and so many per cent on; 250 mm ruler."""
    for card in of(every_card, kind="strip"):
        page = pages(folder / card["file"], 1)[0]
        levels = [line for line in page.lines if line[1] == line[3]]
        assert any(abs(x2 - x1 - 250.0) < 0.05 for x1, _, x2, _ in levels)
        for pitch, count, percent in _strips(page.text):
            worn = count * pitch * (1 + percent / 100)
            bases = [line for line in levels if abs(line[2] - line[0] - worn) < 0.05]
            assert any(_has_ticks(page, base, pitch, count) for base in bases), (card["file"], pitch, percent)


def _has_ticks(page: PrintedPage, base: tuple[float, float, float, float], pitch: float, count: int) -> bool:
    start, height = base[0], base[1]
    ends = [x1 - start for x1, _, x2, y2 in page.lines if x1 == x2 and abs(y2 - height) < 2.5]
    return all(any(abs(end - n * pitch) < 0.05 for end in ends) for n in range(count + 1))


def _strips(text: str) -> list[tuple[float, int, float]]:
    found = re.findall(r"(\d+) pitches of ([\d.]+) mm, limit ([\d.]+) %", text)
    assert found
    return [(float(pitch), int(count), float(percent)) for count, pitch, percent in found]


def test_the_check_ruler_is_fifty_millimetres(folder: Path, cards: list[dict[str, Any]]) -> None:
    for card in cards:
        if card["sheet"] and card["kind"] != "strip":
            page = pages(folder / card["file"], 1)[0]
            assert any(y1 == y2 and abs(x2 - x1 - 50.0) < 0.05 for x1, y1, x2, y2 in page.lines), card["file"]
            assert "50 mm: measure it" in page.text


@cache
def demo_deck() -> Deck:
    return deck_of(demo(), demo_all())


def listings(bike: str) -> list[Listing]:
    card = next(card for card in demo_deck().sets if card.kind == "bike" and card.subject == bike)
    return [each for each in card.sections[0].blocks if isinstance(each, Listing)]


def shown_as(bike: str) -> dict[str, tuple[str, str, str]]:
    """By link: outline, edge, and what stands beside the plate it is under."""
    found: dict[str, tuple[str, str, str]] = {}
    for listing in listings(bike):
        assert isinstance(listing.head, Group)
        says = "".join(run.text for run in listing.head.text)
        says = re.sub(r" ?(More: e|E)ach with the clip its page names\.$", "", says)
        for item in listing.items:
            tags = (
                item.ids
                if isinstance(item, Labels)
                else [r.text for r in runs_of(item) if r.style == "tag"][:1]
            )
            found |= dict.fromkeys(tags, (listing.head.plate.outline, listing.head.plate.edge, says))
    return found


def test_every_link_in_the_bags_stands_under_its_verdict() -> None:
    """What is not settled has the worst it could be and the words for it; proper by numbers counts as get-home."""
    for bike in demo().bikes:
        shown = shown_as(bike)
        for fit in demo_all().by_bike[bike]:
            if demo().links[fit.link].record.count and (fit.own_page or fit.word != "no-go"):
                assert shown[fit.link] == expected(fit), (bike, fit.link, fit.word)


def test_the_best_links_are_said_in_full() -> None:
    """Of those that come after, only the label."""
    for bike in demo().bikes:
        items = [
            item
            for each in listings(bike)
            if isinstance(each.head, Group) and each.head.plate.outline in ("proper", "get-home")
            for item in each.items
        ]
        labelled = [isinstance(item, Labels) for item in items]
        assert labelled == sorted(labelled)
        assert not items or not labelled[0], bike


def test_the_first_side_of_a_bike_says_how_its_own_link_goes_in(folder: Path) -> None:
    """A joint that runs names its link once, so that there is room below it for the first of the list."""
    for bike in ("b01", "b04"):
        first = PdfReader(folder / f"cards/bike-{bike}-id1.pdf").pages[0].extract_text()
        assert "runs now" in first and "Clip" in first and "seals" in first, first


def test_what_is_carried_without_a_date_is_not_called_old() -> None:
    """A packet that nobody dated asks for a date; only one that is past its years is called too old."""
    plan = demo_all().plans.rides["river-ride"]
    ages = {id_: age for kind, id_, age in plan.aged if (kind, id_) in plan.carried}
    assert "not-dated" in ages.values()
    card = next(card for card in demo_deck().sets if card.subject == "river-ride")
    said = ["".join(run.text for run in runs_of(block)) for block in card.sections[-1].blocks]
    for id_, age in ages.items():
        line = next(text for text in said if id_ in text)
        assert ("too old" in line) == (age == "too-old") and ("date" in line) == (age == "not-dated")


def expected(fit: PairFit) -> tuple[str, str, str]:
    if fit.worst is None:
        first = ("cannot-judge", "cannot-judge")
    elif fit.best != fit.worst:
        first = (RUNGS[fit.worst], "measure-first")
    elif fit.worst == 0 and fit.strength != "dry-fitted":
        first = ("get-home", "get-home")
    else:
        first = (fit.word, fit.word)
    return (*first, next(says for _, edge, says in [(0, first[1], said) for said in shown_said(fit)]))


def shown_said(fit: PairFit) -> list[str]:
    """The words beside the plate, as model 1 asks for them."""
    if fit.worst is None:
        return ["cannot judge; do not count on it:"]
    if fit.best != fit.worst:
        open_ = f"could be {RUNGS[fit.worst]}; do not count on it"
        return [f"Not tested: {open_}."] if fit.worst <= GET_HOME else [f"{open_}:"]
    if fit.worst == NO_GO:
        near = any(
            not other.own_page for other in demo_all().by_bike[_any_bike(fit)] if other.word == "no-go"
        )
        return ["do not fit; nor any link of another pitch or roller:" if near else "do not fit:"]
    if fit.worst == 0:
        by = fit.strength.replace("-", " ")
        return ["Dry-fitted." if by == "dry fitted" else f"Proper {by}: get-home until dry-fitted."]
    return ["Dry-fitted." if fit.strength == "dry-fitted" else ""]


def _any_bike(fit: PairFit) -> str:
    return next(id_ for id_, bike in demo().bikes.items() if bike.record.chain == fit.chain)


def test_a_worn_chain_stays_at_home() -> None:
    worn = {bike for bike, wear in demo_all().wear.bikes.items() if wear.outlook.state == "worn"}
    assert worn, "the demo has a chain beyond its limit"
    for card in demo_deck().sets:
        if card.kind == "bike":
            first = card.sections[0].blocks[0]
            says = "".join(run.text for run in runs_of(first))
            assert ("Start no ride" in says) == (card.subject in worn)


def test_desk_sorts_what_can_be_counted_on_first() -> None:
    desk = Desk(demo(), demo_all(), "")
    for bike in demo().bikes:
        fits = desk.on_bike(bike)
        known = [fit.worst for fit in fits if fit.worst is not None]
        assert all(fit.worst is None for fit in fits[len(known) :])


def test_a_list_for_a_lid_is_on_one_side_of_the_paper(folder: Path, every_card: list[dict[str, Any]]) -> None:
    """Every card of the sheets is filled before the next begins, and none lies behind another."""
    card = of(every_card, kind="tin", format="id1", sheet="a4")[0]
    heads = [page.text.count("Invented.") for page in pages(folder / card["file"], card["pages"])]
    assert len(heads) > 2 and heads[:-1] == [10] * (len(heads) - 1)


def test_a_way_to_mend_stands_on_one_side_where_it_fits(folder: Path) -> None:
    sides = [page.text for page in pages(folder / "cards/repair-how-id1.pdf", 99)]
    whole = [side for side in sides if "Ride on the pressed plate alone" in side]
    assert len(whole) == 1 and "2 Ride at walking pace" in whole[0]


def test_a_code_stands_where_another_side_has_room_for_it(folder: Path) -> None:
    for name in ("size-520", "ride-river-ride"):
        every = pages(folder / f"cards/{name}-id1.pdf", 99)
        (over,) = [
            side.text.split("The same in full")[0] for side in every if "The same in full" in side.text
        ]
        # more than the head of the side
        assert len(over.splitlines()) > 1, over
