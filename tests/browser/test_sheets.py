"""On paper: what a rider or a workshop wall needs stands on one sheet of A4, black on white, and says whence it comes.

Sheets are counted and read back out of the PDF by poppler's own tools.
"""

import re
import subprocess
from pathlib import Path
from shutil import which

import pdfplumber
import pytest
from playwright.sync_api import Browser

from generator.compute.fit.result import PairFit
from generator.model.shipped import NO_GO
from tests.browser.conftest import opened
from tests.browser.kinds import all_kinds, one_of_each
from tests.clubs import shelf
from tests.handbook import demo_book

pytestmark = pytest.mark.skipif(which("pdftotext") is None, reason="poppler-utils reads the sheets")
ONE_SHEET = ("index.html", "bikes", "bikes/*", "chains/*", "links/*", "pairs", "pairs/*", "sizes")


def sheets(browser: Browser, address: str, file: Path, as_laid_out: bool = True) -> list[str]:
    """The words of each sheet, by their lines across it, or else in the order in which they are read."""
    with opened(browser, 1280, 800) as page:
        page.goto(address)
        page.pdf(path=file, prefer_css_page_size=True, format="A4")
    command = ["pdftotext", *(["-layout"] if as_laid_out else []), str(file), "-"]
    text = subprocess.run(command, capture_output=True, text=True, check=True).stdout
    return text.removesuffix("\f").split("\f")


@pytest.mark.long
def test_the_pages_that_are_hung_up_take_one_sheet(
    browser: Browser, demo_address: str, demo_folder: Path, tmp_path: Path
) -> None:
    kinds = one_of_each(demo_folder)
    wanted = [kind for kind in kinds if kind in ONE_SHEET or kind.startswith("pairs/*/* ")]
    found = {kind: sheets(browser, demo_address + kinds[kind], tmp_path / "a.pdf") for kind in wanted}
    assert len(found) > len(ONE_SHEET)
    assert {kind: len(each) for kind, each in found.items() if len(each) != 1} == {}
    version = demo_book().dataset.data_version
    assert [kind for kind, (sheet,) in found.items() if version not in sheet] == []


def test_the_longest_bike_names_every_no_go_on_its_one_sheet(
    browser: Browser, demo_address: str, demo_folder: Path, tmp_path: Path
) -> None:
    address = all_kinds(demo_folder)["bikes/*"][-1]
    (sheet,) = sheets(browser, demo_address + address, tmp_path / "bike.pdf")
    words = re.sub(r"[\s\u2011-]+", "", sheet)
    fits: tuple[PairFit, ...] = demo_book().by_bike[address.split("/")[1]]
    no_go = [fit.link for fit in fits if fit.word == "no-go" and fit.own_page]
    assert no_go and [link for link in no_go if link.replace("-", "") not in words] == []


def test_the_whole_grid_hangs_on_a_wall(browser: Browser, demo_address: str, tmp_path: Path) -> None:
    (sheet,) = sheets(browser, f"{demo_address}pairs/index.html", tmp_path / "grid.pdf")
    book = demo_book()
    assert [link for link in book.dataset.links if link not in sheet] == []
    with opened(browser, 1280, 800) as page:
        page.emulate_media(media="print")
        page.goto(f"{demo_address}pairs/index.html")
        cells = page.locator(".matrix .cell:visible").count()
    assert cells == len(book.dataset.links) * len(book.dataset.chains)


def test_what_a_leader_reads_out_is_one_sheet(browser: Browser, demo_address: str, tmp_path: Path) -> None:
    rides = [f"rides/{ride}/index.html" for ride in demo_book().dataset.rides]
    found = {
        page: len(sheets(browser, demo_address + page, tmp_path / "a.pdf"))
        for page in (*rides, "spares/index.html", "clip-lost/index.html")
    }
    assert len(rides) > 2 and set(found.values()) == {1}, found


def test_the_numbers_of_a_pair_are_a_print_of_their_own(
    browser: Browser, demo_address: str, tmp_path: Path
) -> None:
    address = f"{demo_address}pairs/blue-520/tin-1-blue/"
    (whole,) = sheets(browser, address, tmp_path / "whole.pdf")
    (numbers,) = sheets(browser, f"{address}#numbers-alone", tmp_path / "numbers.pdf")
    assert "Fit it" in whole and "Clip spacing" not in whole
    assert "Clip spacing" in numbers and "Fit it" not in numbers and "tin-1-blue" in numbers


def test_paper_has_all_words_and_a_clip_fits_on_one_sheet(
    browser: Browser, demo_address: str, tmp_path: Path
) -> None:
    words = "".join(sheets(browser, f"{demo_address}glossary/index.html", tmp_path / "words.pdf"))
    assert all(term.title in words for term in shelf().glossary.values())
    (_clip,) = sheets(browser, f"{demo_address}care/fitting-a-clip/index.html", tmp_path / "clip.pdf")


def test_a_long_page_of_the_guide_is_one_sheet_and_not_shrunk_to_it(
    browser: Browser, demo_address: str, tmp_path: Path
) -> None:
    """What would run off a sheet at the right makes a browser print all of it smaller."""
    heads = {}
    for guide in ("pressing-a-side-plate", "fitting-a-clip", "counting-pitches"):
        file = tmp_path / f"{guide}.pdf"
        (_sheet,) = sheets(browser, f"{demo_address}care/{guide}/index.html", file)
        with pdfplumber.open(file) as pdf:
            heads[guide] = max(char["size"] for char in pdf.pages[0].chars)
    assert {guide: size for guide, size in heads.items() if abs(size - 20) > 0.2} == {}


def test_paper_names_every_no_go_of_a_part(browser: Browser, demo_address: str, tmp_path: Path) -> None:
    """Folded on the screen, and more than a sheet has rows for."""
    text = "".join(sheets(browser, f"{demo_address}clips/clip-stout/index.html", tmp_path / "clip.pdf"))
    words = re.sub(r"\s+", "", text)
    fits = [fit for fit in demo_book().others.clip_links if fit.id_of("clip") == "clip-stout"]
    no_go = [fit.id_of("link") for fit in fits if fit.best == NO_GO]
    assert no_go and [link for link in no_go if link not in words] == []


def test_paper_says_why_a_step_of_the_guide_is_dangerous(
    browser: Browser, demo_address: str, tmp_path: Path
) -> None:
    """On a phone the hazard is one line, and why unfolds below it."""
    guide, cautions = shelf().care.guides["counting-pitches"], shelf().cautions
    address = f"{demo_address}care/counting-pitches/index.html"
    text = " ".join(sheets(browser, address, tmp_path / "a.pdf", as_laid_out=False))
    words = " ".join(text.split())
    assert guide.cautions
    assert [each for each in guide.cautions if cautions[each].consequence not in words] == []


def test_paper_has_every_way_to_mend_it(browser: Browser, demo_address: str, tmp_path: Path) -> None:
    """On a phone all but the first are folded."""
    text = " ".join(sheets(browser, f"{demo_address}repair/inner-link-broken/index.html", tmp_path / "a.pdf"))
    titles = ("A piece of chain between two links", "Cut the damage out, join with one link")
    assert all(title in text for title in titles) and text.count("Pull away") == 2


def test_what_ran_a_few_lines_over_is_one_sheet(
    browser: Browser, demo_address: str, demo_folder: Path, tmp_path: Path
) -> None:
    """Lists, a size with all its parts, the pairs and repairs that say most: what is hung up or taken along."""
    longest = ("strips/*", "sizes/*")
    pages = [
        *(f"{each}/index.html" for each in ("about", "links", "repair", "safety", "worth-doing")),
        *(f"repair/{each}/index.html" for each in ("chain-off", "clip-backwards", "sprocket-bolts-lost")),
        *(f"pairs/{each}/index.html" for each in ("van-520/tin-1-blue", "tan-520/tin-8-screw")),
        *(all_kinds(demo_folder)[kind][-1] for kind in longest),
    ]
    found = {page: len(sheets(browser, demo_address + page, tmp_path / "a.pdf")) for page in pages}
    assert {page: count for page, count in found.items() if count != 1} == {}


def test_an_index_for_the_wall_is_printed_whole(browser: Browser, demo_address: str, tmp_path: Path) -> None:
    """Folded on the screen but for its first part."""
    book = demo_book()
    labels = "".join(sheets(browser, f"{demo_address}pages/index.html", tmp_path / "labels.pdf"))
    assert [
        id_ for id_ in (*book.dataset.bikes, *book.dataset.clips, *book.dataset.tools) if id_ not in labels
    ] == []
    findings = " ".join(
        sheets(
            browser, f"{demo_address}care/inspection/index.html", tmp_path / "found.pdf", as_laid_out=False
        )
    )
    words = " ".join(findings.split())
    assert [each.title for each in shelf().care.findings.values() if each.title not in words] == []
