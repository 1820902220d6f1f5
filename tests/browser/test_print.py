"""On paper nothing is hidden that the screen shows, heads of tables come again, rows stay whole, each sheet says whence."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from tests.browser.conftest import opened
from tests.browser.kinds import one_of_each

# what only a screen can use: the frame, jumps within the page, files to take away, the form that filters
SHOWN = """() => {
  const texts = [];
  const walker = document.createTreeWalker(document.getElementById("content"), NodeFilter.SHOW_TEXT);
  while (walker.nextNode()) {
    const element = walker.currentNode.parentElement;
    const words = walker.currentNode.data.trim();
    if (!words || element.closest("title, desc, .jumps, .downloads, form")) { continue; }
    if (element.checkVisibility({visibilityProperty: true, opacityProperty: true})) { texts.push(words); }
  }
  return texts;
}"""
FOLDED = "all => all.forEach((each) => { each.open = true; })"
PAPER = """() => ({
  heads: [...document.querySelectorAll("thead")].filter((e) => getComputedStyle(e).display !== "table-header-group").length,
  rows: [...document.querySelectorAll("tr")].filter((e) => getComputedStyle(e).breakInside !== "avoid").length,
  one_unit: [...document.querySelectorAll(".len > *")].filter((e) => !e.checkVisibility({visibilityProperty: true})).length,
  sheet: document.querySelector(".sheet").checkVisibility() ? document.querySelector(".sheet").innerText : "",
  version: document.querySelector(".foot").innerText.match(/Data version ([0-9a-f]{12})/)[1],
  beyond: document.documentElement.scrollWidth > 1.08 * innerWidth ? document.documentElement.scrollWidth : 0,
  wide: [...document.querySelectorAll(".wide")].filter((e) => getComputedStyle(e).overflowX !== "visible").length,
})"""
# A4 between its margins, in px: a browser makes all of a sheet smaller for a table that is wider, a little is not seen
MM = 96 / 25.4
SHEET = round(186 * MM)


@pytest.fixture
def page(browser: Browser) -> Iterator[Page]:
    with opened(browser, SHEET, 1000) as page:
        yield page


def test_paper_shows_all_that_the_screen_shows(page: Page, demo_address: str, demo_folder: Path) -> None:
    """With what a tap opens opened on the screen, and left folded on paper."""
    faults: dict[str, object] = {}
    for kind, address in one_of_each(demo_folder).items():
        page.emulate_media(media="print")
        page.goto(demo_address + address)
        paper, printed = page.evaluate(PAPER), page.evaluate(SHOWN)
        page.emulate_media(media="screen")
        page.locator("details").evaluate_all(FOLDED)
        missing = [text for text in page.evaluate(SHOWN) if text not in set(printed)]
        said = "" if address == "404.html" else address.removesuffix("index.html")
        found = [
            *missing[:5],
            *(
                f"{name}: {paper[name]}"
                for name in ("heads", "rows", "one_unit", "wide", "beyond")
                if paper[name]
            ),
            *(f"not on the sheet: {what}" for what in (said, paper["version"]) if what not in paper["sheet"]),
        ]
        if found:
            faults[kind] = found
    assert faults == {}


PAIR = "pairs/bench-520/tin-1-slip/index.html"


def test_a_figure_that_does_not_fit_leaves_no_room_empty(page: Page, demo_address: str) -> None:
    """It stands beside what follows, so that on paper what follows fills the sheet and the figure begins the next."""
    page.emulate_media(media="print")
    page.goto(demo_address + PAIR)
    cut, listed = page.locator("#cut").bounding_box(), page.locator("#drawn-lengths dl").bounding_box()
    below = page.locator("#all-checks .wide").bounding_box()
    assert cut is not None and listed is not None and below is not None
    assert listed["y"] < cut["y"] + cut["height"] / 2
    words = page.locator("#drawn-lengths :is(dt, dd)").evaluate_all(
        "all => all.map((e) => { const r = document.createRange(); r.selectNodeContents(e); const b = r.getBoundingClientRect(); return [b.top, b.right]; })"
    )
    assert max(right for top, right in words if top < cut["y"] + cut["height"]) < cut["x"]
    assert below["y"] > cut["y"] + cut["height"], "a table takes the whole width"


def test_a_remark_has_room_on_paper(page: Page, demo_address: str) -> None:
    page.emulate_media(media="print")
    page.goto(demo_address + PAIR)
    remarks = page.locator("#checks tbody td:last-child").evaluate_all(
        "all => all.map((e) => e.getBoundingClientRect().width)"
    )
    assert min(remarks) >= 30 * MM


def test_a_label_and_its_note_stand_apart_on_paper(page: Page, demo_address: str) -> None:
    page.emulate_media(media="print")
    page.goto(f"{demo_address}chains/blue-520/index.html")
    apart = page.locator(".c-head a + .note").evaluate_all(
        "all => all.map((e) => e.getBoundingClientRect().top - e.previousElementSibling.getBoundingClientRect().bottom)"
    )
    assert len(apart) > 10 and min(apart) >= 2


def test_no_word_stands_alone_at_the_foot_of_a_sheet(page: Page, demo_address: str) -> None:
    """Neither a word without what it means, nor a summary without its list, nor a head without a row."""
    page.emulate_media(media="print")
    for path, selector, side in (
        ("glossary/index.html", "dl > dt", "breakAfter"),
        (PAIR, "summary", "breakAfter"),
        (PAIR, "tbody tr:first-child", "breakBefore"),
    ):
        page.goto(demo_address + path)
        breaks = page.locator(selector).evaluate_all(f"all => all.map((e) => getComputedStyle(e).{side})")
        assert breaks and set(breaks) == {"avoid"}
