"""How tables are seen: all columns or a sign that there are more, whole names, heads and verdicts that take little room."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from tests.browser.conftest import opened
from tests.browser.kinds import one_of_each

SHUT = "all => all.forEach((each) => { each.open = true; })"
WIDE = """() => [...document.querySelectorAll(".wide")].map((element) => {
  const sign = getComputedStyle(element.querySelector("caption"), "::after").content;
  return {
    id: element.id,
    head: element.querySelector("thead").getBoundingClientRect().height,
    more: element.scrollWidth > element.clientWidth + 1,
    says: sign.startsWith('"More columns'),
    stitched: getComputedStyle(element).backgroundImage.includes("repeating-linear-gradient"),
    reached: element.tabIndex === 0 && element.getAttribute("role") === "region",
    covered: [...element.querySelectorAll("td:not(.c-verdict)")].filter((e) => getComputedStyle(e).backgroundColor !== "rgba(0, 0, 0, 0)").length,
  };
})"""
# the lists that are read most; wider tables hold whole sentences in two columns or more
WHOLE_AT_THE_DESK = (
    "bikes/*",
    "chains/*",
    "clips/*",
    "links/*",
    "pairs/*",
    "plates/*",
    "downloads",
    "worth-measuring",
)
# in px: figures are to be on the first screen of a table
THREE_LINES = 84
LINES = """all => all.map((element) => {
  const range = document.createRange();
  range.selectNodeContents(element);
  return [element.textContent, new Set([...range.getClientRects()].map((box) => Math.round(box.top))).size];
})"""


@pytest.fixture
def desk(browser: Browser) -> Iterator[Page]:
    with opened(browser, 1280) as page:
        yield page


def open_all(page: Page, address: str) -> None:
    """With what a tap opens open, and after the next frame, when sizes have been told."""
    page.goto(address)
    page.locator("details").evaluate_all(SHUT)
    page.evaluate("new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)))")


@pytest.mark.parametrize("width", ["desk", "phone"])
def test_a_table_wider_than_its_place_says_so(
    request: pytest.FixtureRequest, demo_address: str, demo_folder: Path, width: str
) -> None:
    page: Page = request.getfixturevalue(width)
    faults: list[tuple[object, ...]] = []
    seen = {True: 0, False: 0}
    for kind, address in one_of_each(demo_folder).items():
        open_all(page, demo_address + address)
        for table in page.evaluate(WIDE):
            seen[table["more"]] += 1
            if (
                table["says"] != table["more"]
                or not table["stitched"]
                or not table["reached"]
                or table["covered"]
            ):
                faults.append((kind, table))
            if table["head"] > THREE_LINES:
                faults.append((kind, "tall head", table["id"], table["head"]))
            if width == "desk" and kind in WHOLE_AT_THE_DESK and table["more"]:
                faults.append((kind, "does not fit", table["id"]))
    assert faults == []
    assert min(seen.values()) >= 2


@pytest.mark.parametrize(
    ("path", "names", "least"),
    [("downloads", "#files .c-head a", 20), ("data-format", '[id^="format-"] tbody .c-head', 50)],
)
def test_no_name_of_a_file_or_key_is_broken(
    phone: Page, demo_address: str, path: str, names: str, least: int
) -> None:
    phone.goto(f"{demo_address}{path}/index.html")
    seen = phone.locator(names).evaluate_all(LINES)
    assert len(seen) > least and [name for name, lines in seen if lines != 1 and "-" not in name] == []
    over = phone.locator(names).evaluate_all(
        "all => all.filter((e) => { const r = document.createRange(); r.selectNodeContents(e);"
        " return r.getBoundingClientRect().right > e.closest('th').getBoundingClientRect().right; }).length"
    )
    assert over == 0, "written over the next column"


def test_a_verdict_in_a_table_has_its_word_on_one_line(phone: Page, demo_address: str) -> None:
    phone.goto(f"{demo_address}pairs/bench-520/index.html")
    first_texts = LINES.replace("selectNodeContents(element)", "selectNode(element.firstChild)")
    words = phone.locator(".c-verdict .verdict > b").evaluate_all(first_texts)
    assert {lines for _, lines in words} == {1}
    assert any("measure first" in word for word, _ in words)
