"""On paper nothing is hidden that the screen shows, heads of tables come again, rows stay whole, each sheet says whence."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

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
  wide: [...document.querySelectorAll(".wide")].filter((e) => getComputedStyle(e).overflowX !== "visible").length,
})"""


@pytest.fixture
def page(browser: Browser) -> Iterator[Page]:
    context = browser.new_context(viewport={"width": 718, "height": 1000})
    yield context.new_page()
    context.close()


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
            *(f"{name}: {paper[name]}" for name in ("heads", "rows", "one_unit", "wide") if paper[name]),
            *(f"not on the sheet: {what}" for what in (said, paper["version"]) if what not in paper["sheet"]),
        ]
        if found:
            faults[kind] = found
    assert faults == {}
