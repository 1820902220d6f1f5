"""Scripts off: all that a page says can be read, in both units, and every page can be reached by links."""

from collections.abc import Iterator
from pathlib import Path
from urllib.parse import urldefrag, urljoin

import pytest
from playwright.sync_api import Browser, Page

from tests.browser.kinds import one_of_each
from tests.handbook import Seen

# what a tap opens is open, so that its own hint is away; a form that only a script can serve may be away, a drawing says
# one unit, its list both; and a phone hides the heads of a table whose cells say them
HIDDEN = """() => {
  const words = (text) => text.replace(/\\s+/g, " ").trim();
  const said = (head) => head.tagName === "TH" && [...head.closest("table").tBodies].every((body) =>
    [...body.rows].every((row) => {
      const cell = row.cells[head.cellIndex];
      return !cell || !words(cell.textContent) || cell.matches("th, .c-head, .c-verdict") || words(cell.dataset.of ?? "") === words(head.textContent);
    }));
  document.querySelectorAll("details").forEach((e) => { e.open = true; });
  const hidden = [];
  const walker = document.createTreeWalker(document.getElementById("content"), NodeFilter.SHOW_TEXT);
  while (walker.nextNode()) {
    const element = walker.currentNode.parentElement;
    if (!walker.currentNode.data.trim() || element.closest("title, desc, form, script, template, .wide-only, .narrow-only, .only-paper, .only-paper-in, .fit__hint, .hazard__more, .unseen")) { continue; }
    if (said(element.closest("th") ?? element)) { continue; }
    const box = element.getBoundingClientRect();
    if (!element.checkVisibility({visibilityProperty: true, opacityProperty: true}) || box.width < 2 || box.height < 2) {
      hidden.push(element.outerHTML.slice(0, 120));
    }
  }
  return hidden;
}"""
PRESSED = (
    "red-520h/tin-13-spread",
    "bench-520/tin-1-blue",
    "bench-520/tin-16-flared",
    "bench-520/tin-2-step",
    "bench-520/tin-3-thin",
)
SAYS = """() => ({
  text: [...document.querySelectorAll("#content .num")].map((e) => e.innerText).join(" "),
  drawn: [...document.querySelectorAll("#content svg text")].flatMap((e) => e.textContent.match(/[\\d.]+ mm/g) ?? []),
  buttons: [...document.querySelectorAll("button, input, select")].filter((e) => e.checkVisibility() && !e.closest(".finder")).length,
  shut: [...document.querySelectorAll("details:not([open])")].length,
  one_unit: [...document.querySelectorAll(".num")].filter((e) => ![...e.children].every((part) => part.innerText.trim())).length,
  lengths: document.querySelectorAll(".num").length,
  tables: [...document.querySelectorAll("#content table")].filter((e) => !e.closest(".wide-only") && (e.rows.length < 2 || !e.checkVisibility())).length,
  verdicts: [...document.querySelectorAll(".plate")].filter((e) => e.checkVisibility() && !e.innerText.trim()).length,
})"""


@pytest.fixture
def page(browser: Browser) -> Iterator[Page]:
    context = browser.new_context(java_script_enabled=False, viewport={"width": 360, "height": 740})
    yield context.new_page()
    context.close()


def test_all_that_a_page_says_can_be_read(page: Page, demo_address: str, demo_folder: Path) -> None:
    faults: dict[str, object] = {}
    lengths = drawings = 0
    # drawings that name a length: the width to press a plate to
    kinds = one_of_each(demo_folder) | {f"pressed {at}": f"pairs/{at}/" for at in PRESSED}
    for kind, address in kinds.items():
        page.goto(demo_address + address)
        hidden, says = page.evaluate(HIDDEN), page.evaluate(SAYS)
        lengths, drawings = lengths + says["lengths"], drawings + bool(says["drawn"])
        unsaid = [length for length in says["drawn"] if length not in says["text"]]
        faults[kind] = [
            *hidden,
            *(f"only in the drawing: {length}" for length in unsaid),
            *(
                f"{name}: {says[name]}"
                for name in ("buttons", "one_unit", "tables", "verdicts")
                if says[name]
            ),
        ]
    assert {kind: found for kind, found in faults.items() if found} == {}
    assert lengths > 300 and drawings > 4


def links_of(file: Path, address: str, folder: Path) -> set[str]:
    found = {
        urldefrag(urljoin(f"/{address}", link))[0].removeprefix("/")
        for link in Seen(file.read_text(encoding="utf-8")).links
    }
    pages = {f"{link}index.html" if link.endswith("/") or not link else link for link in found}
    return {page for page in pages if page.endswith(".html") and folder.joinpath(page).is_file()}


@pytest.mark.long
def test_every_page_can_be_reached_and_is_listed(demo_folder: Path) -> None:
    """By links that stand in the files, as no script adds one; and two taps from the start by the list of labels."""
    reached, waiting = set(), ["index.html"]
    while waiting:
        at = waiting.pop()
        if at not in reached:
            reached.add(at)
            waiting.extend(links_of(demo_folder / at, at, demo_folder))
    everything = {file.relative_to(demo_folder).as_posix() for file in demo_folder.rglob("*.html")}
    assert everything - reached == {"404.html"}, "only a web host leads there"
    listed = links_of(demo_folder / "pages/index.html", "pages/index.html", demo_folder)
    rest = everything - listed
    assert {page for page in rest if not page.startswith("pairs/")} == {"404.html"}, (
        "a pair is a tap from its chain"
    )
    assert "pages/index.html" in links_of(demo_folder / "index.html", "index.html", demo_folder)
