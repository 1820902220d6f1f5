"""What every kind of page keeps: nothing past the edge of a phone, the answer on its first screen, room for a glove,
letters that can be read, and a length that a thumb can scroll.
"""

from collections.abc import Iterator, Mapping
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from tests.browser.conftest import opened
from tests.browser.kinds import all_kinds, one_of_each

FIRST_SCREEN = 640
MOST_SCREENS = 20
SEEN = """() => {
  const content = document.getElementById("content");
  const shown = [...document.querySelectorAll("[data-answer]")].filter((e) => e.getClientRects().length);
  const inText = (e) => getComputedStyle(e).display === "inline" || e.parentElement.textContent.length > e.textContent.length + 20 && e.closest("p, dd");
  const small = [...document.querySelectorAll("a, button, summary, select, input")].filter((e) => {
    const box = e.getBoundingClientRect();
    return box.width && !e.closest(".skip") && !inText(e) && (box.height < 47.5 || box.width < 47.5);
  });
  const walker = document.createTreeWalker(content, NodeFilter.SHOW_TEXT);
  const fine = [];
  while (walker.nextNode()) {
    const element = walker.currentNode.parentElement;
    const shows = walker.currentNode.data.trim() && !element.closest("title, desc, .unseen, svg") && element.getClientRects().length;
    if (shows && parseFloat(getComputedStyle(element).fontSize) < 13.9) { fine.push(element.outerHTML.slice(0, 90)); }
  }
  return {
    width: document.documentElement.scrollWidth,
    height: document.documentElement.scrollHeight,
    answer: shown.length ? shown[0].getBoundingClientRect().top : null,
    small: small.slice(0, 4).map((e) => e.outerHTML.slice(0, 90)),
    fine: fine.slice(0, 4),
    heads: document.querySelectorAll("h1").length,
  };
}"""


def faults(page: Page, width: int, by_hand: bool) -> Iterator[str]:
    seen = page.evaluate(SEEN)
    if seen["width"] > width:
        yield f"{seen['width']} px wide"
    if seen["heads"] != 1:
        yield f"{seen['heads']} first heads"
    if width == 360:
        if seen["answer"] is None or seen["answer"] >= FIRST_SCREEN:
            yield f"its answer stands at {seen['answer']}"
        if seen["height"] > MOST_SCREENS * FIRST_SCREEN:
            yield f"{seen['height'] / FIRST_SCREEN:.0f} screens long"
        yield from (f"small: {each}" for each in seen["small"])
        yield from (f"fine print: {each}" for each in seen["fine"] if not by_hand)


def looked_at(page: Page, root: str, pages: Mapping[str, str], width: int) -> dict[str, list[str]]:
    found = {}
    for kind, address in pages.items():
        if kind != "404.html":  # its links count from the root of a host
            page.goto(root + address)
            found[kind] = list(faults(page, width, by_hand=False))
    return {kind: each for kind, each in found.items() if each}


@pytest.mark.parametrize("width", [320, 360, 412])
@pytest.mark.long
def test_a_page_of_each_kind_on_a_phone(
    browser: Browser, demo_address: str, demo_folder: Path, width: int
) -> None:
    with opened(browser, width, FIRST_SCREEN) as page:
        assert looked_at(page, demo_address, one_of_each(demo_folder), width) == {}


OFTEN = (
    "index.html",
    "bikes/*",
    "pairs",
    "pairs/*/* proper",
    "pairs/*/* no-go",
    "clip-lost",
    "sizes",
    "problems",
)


def test_the_pages_that_are_used_most_on_a_phone(
    browser: Browser, demo_address: str, demo_folder: Path
) -> None:
    kinds = one_of_each(demo_folder)
    with opened(browser, 360, FIRST_SCREEN) as page:
        assert (
            looked_at(page, demo_address, {kind: kinds[kind] for kind in OFTEN if kind in kinds}, 360) == {}
        )


@pytest.mark.long
def test_the_longest_page_of_each_kind(browser: Browser, demo_address: str, demo_folder: Path) -> None:
    longest = {kind: pages[-1] for kind, pages in all_kinds(demo_folder).items()}
    with opened(browser, 360, FIRST_SCREEN) as page:
        assert looked_at(page, demo_address, longest, 360) == {}


def test_a_desk_uses_its_columns(browser: Browser, demo_address: str) -> None:
    """The menu stays, the page stands beside it, the list of what is on it beside that; the grid takes all there is."""
    boxes = (
        "(all) => all.map((e) => { const b = e.getBoundingClientRect(); return [b.left, b.right, b.top]; })"
    )
    with opened(browser, 1280, 800) as page:
        page.goto(f"{demo_address}sizes/index.html")
        (side,), (own,), (toc,) = (
            page.locator(each).evaluate_all(boxes) for each in (".side", ".page", ".toc")
        )
        assert side[1] <= own[0] < own[1] <= toc[0] and own[1] - own[0] > 700
        page.evaluate("scrollTo({ top: 600, behavior: 'instant' })")
        assert [page.locator(each).evaluate_all(boxes)[0][2] for each in (".side", ".toc")] == [0, 0]
        page.goto(f"{demo_address}pairs/index.html")
        assert page.locator(".toc").count() == 0
        assert page.locator(".matrix").evaluate("e => e.getBoundingClientRect().right") <= 1280
        assert page.evaluate("document.documentElement.scrollWidth") == 1280


def test_what_stands_below_a_link_in_a_table_does_not_cover_it(browser: Browser, demo_address: str) -> None:
    covered = """(all) => all.filter((note) => {
      const words = document.createRange();
      words.selectNodeContents(note.previousElementSibling);
      return note.getBoundingClientRect().top < words.getBoundingClientRect().bottom - 1;
    }).length"""
    with opened(browser, 1280, 800) as page:
        page.goto(f"{demo_address}care/inspection/index.html")
        notes = page.locator(".wide a + .note:visible")
        assert notes.count() > 0 and notes.evaluate_all(covered) == 0


def test_heads_of_the_grid_stay(browser: Browser, demo_address: str) -> None:
    with opened(browser, 1280, 800) as page:
        page.goto(f"{demo_address}pairs/index.html")
        page.evaluate("scrollTo({ top: 1500, behavior: 'instant' })")
        top = page.locator(".matrix thead th").nth(3).evaluate("e => e.getBoundingClientRect().top")
        assert 0 <= top < 5


def test_every_cell_of_the_grid_is_its_pair(browser: Browser, demo_address: str) -> None:
    """One tap, and the panel of the page says what the shape said; a sample down the grid."""
    with opened(browser, 1280, 800) as page:
        page.goto(f"{demo_address}pairs/index.html")
        cells = page.locator(".matrix a.cell").evaluate_all(
            "all => all.map((e) => [e.href, [...e.classList].find((c) => c.startsWith('v-'))])"
        )
        assert len(cells) > 300
        for address, word in cells[::40]:
            page.goto(address)
            assert word in (page.locator(".panel").first.get_attribute("class") or "").split(), address


# the longest line of each paragraph, by where its letters stand
LINES = """() => {
  document.querySelectorAll("details").forEach((e) => { e.open = true; });
  const found = [];
  for (const e of document.querySelectorAll("#content :is(p, dd, figcaption, .fit__why, .rows .sub, ul:not([class]) > li, ol:not([class]) > li)")) {
    if (!e.getClientRects().length || e.closest(".need-line, .data-line") || e.querySelector("p, li, .tag, svg")) { continue; }
    const walker = document.createTreeWalker(e, NodeFilter.SHOW_TEXT);
    const range = document.createRange();
    let line = "", at = null;
    const lines = [];
    while (walker.nextNode()) {
      for (let i = 0; i < walker.currentNode.length; i++) {
        range.setStart(walker.currentNode, i);
        range.setEnd(walker.currentNode, i + 1);
        const box = range.getClientRects()[0];
        if (!box || !box.width) { continue; }
        if (at !== null && Math.abs(box.bottom - at) > 8) { lines.push(line); line = ""; }
        at = box.bottom;
        line += walker.currentNode.data[i];
      }
    }
    found.push(...[...lines, line].filter((each) => each.trim().length > MOST));
  }
  return found;
}"""


@pytest.mark.parametrize("width", [1280, 1600])
def test_a_line_of_prose_is_no_longer_than_an_eye_follows(
    browser: Browser, demo_address: str, width: int
) -> None:
    """45 to 75 letters are the common advice of typographers (common practice, no source); narrow ones make it 80."""
    pages = ("about", "safety", "bikes/b04", "repair/plate-creeping", "care/after-the-ride", "wear")
    with opened(browser, width, 900) as page:
        for address in pages:
            page.goto(f"{demo_address}{address}/index.html")
            assert page.evaluate(LINES.replace("MOST", "80")) == [], address
