"""The search field in use: the gold list typed into it from a host and from disk, the keyboard, a phone."""

import json
import re
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, Route, expect

from generator.render.search.index import FILE
from tests.browser.conftest import opened
from tests.browser.crawl import LISTEN
from tests.search.gold import gold, marks
from tests.search.reckoned import Search, index_of

FIELD = "Search the handbook"
START = "index.html"
DEEP = "pairs/blue-520/tin-1-blue/index.html"
# typed by people and by nobody, beside the gold list
MORE = (
    "the clip that came off", "tin 14 inch", "tin-14-inch on blue-520", "14 inch", "tin14inch", "tin", "tin 1", "blu", "5", "52", "17.3", "17,3 mm", "25½ in", "0.6 in", "½ x ¼", "1/2",
    "sprocketretainer", "masterlink", "x ring", "O-RING blue", "o", "x", "on", "heavy", "mh", "h2", "b2p", "zzzz",
    "Ünïcode", "блок", "<script>alert(1)</script>", "constructor", "__proto__", "10 a", "a", "  ", "-", "|", "''",
    "tin 3 red grey 520 blue 520", "readings of the chain that nobody has measured and what to do about it on a ride",
    "tin-3-red blue", "tin 3 red 520", "b01 tin-3-red", "b05 tin 2 step", "0.625", ".625", ".5 in", "1.5", "which way round", "blue-520 red", "blue 520 tin 3", "lost my clip", "repair",
)  # fmt: skip
TYPED = """text => {
  const field = document.getElementById("handbook-search");
  field.value = text;
  field.dispatchEvent(new Event("input", {bubbles: true}));
  return [...document.querySelectorAll("#handbook-search-results:not([hidden]) a")].map(link => link.href);
}"""


def address_of(href: str, root: str) -> str:
    return href.removeprefix(root).replace("index.html", "")


def opened_field(page: Page) -> None:
    """On a phone the field is a sheet that the bar under the thumb opens."""
    page.get_by_role("link", name="Find").click()
    expect(page.get_by_label(FIELD)).to_be_focused()


def ready(page: Page) -> None:
    opened_field(page)
    page.locator(".find__count").wait_for(state="attached")


@pytest.fixture
def phone(browser: Browser) -> Iterator[Page]:
    with opened(browser, 360, has_touch=True) as page:
        yield page


@pytest.fixture(params=["host", "disk"])
def root(request: pytest.FixtureRequest, demo_address: str, demo_folder: Path) -> str:
    return demo_address if request.param == "host" else f"{demo_folder.as_uri()}/"


@pytest.fixture
def complaints(phone: Page) -> Callable[[], list[str]]:
    """Everything the browser has to complain of, on the pages of the phone."""
    said: list[str] = []
    phone.add_init_script(LISTEN)
    phone.on("pageerror", lambda error: said.append(str(error)))
    phone.on("console", lambda message: said.append(message.text) if message.type != "log" else None)
    return lambda: [*said, *phone.evaluate("window.handbookPolicy")]


def test_the_gold_list_typed_into_the_field(
    phone: Page, root: str, complaints: Callable[[], list[str]]
) -> None:
    phone.goto(root + DEEP)
    ready(phone)
    done = marks(lambda ask: [address_of(href, root) for href in phone.evaluate(TYPED, ask)])
    print(done)
    assert done.first >= 0.98 * done.asked, str(done)
    assert done.third == done.asked, str(done)
    assert complaints() == []


def test_the_browser_and_the_second_reckoning_agree(
    phone: Page, demo_address: str, demo_folder: Path
) -> None:
    """Two programs, one answer: all of the list, not only its first."""
    second = Search(index_of(demo_folder.joinpath(FILE).read_text(encoding="utf-8")))
    phone.goto(demo_address + START)
    ready(phone)
    for text in (*(row.ask for row in gold()), *MORE):
        found = [address_of(href, demo_address) for href in phone.evaluate(TYPED, text)]
        assert found == (second.find(text, 10) if text.strip() else []), text


def test_nothing_of_the_search_is_loaded_until_the_field_is_touched(phone: Page, demo_address: str) -> None:
    asked: list[str] = []
    phone.on("request", lambda request: asked.append(request.url.rpartition("/")[2]))
    phone.goto(demo_address + START, wait_until="networkidle")
    assert [name for name in asked if "search" in name] == []
    ready(phone)
    assert {name for name in asked if "search" in name} == {
        "search-index.js",
        "search-words.js",
        "search-engine.js",
        "search.js",
    }


def test_by_keyboard_alone(phone: Page, root: str) -> None:
    """Arrows walk the list and back into the field, Escape leaves it and then the sheet, Enter opens the best."""
    phone.goto(root + START)
    ready(phone)
    keys = phone.keyboard
    keys.type("tin 3")
    links = phone.locator(".find__list a")
    keys.press("ArrowDown")
    expect(links.nth(0)).to_be_focused()
    keys.press("ArrowDown")
    expect(links.nth(1)).to_be_focused()
    keys.press("End")
    expect(links.last).to_be_focused()
    keys.press("Home")
    keys.press("ArrowUp")
    expect(phone.get_by_label(FIELD)).to_be_focused()
    keys.press("ArrowDown")
    keys.press("Escape")
    expect(phone.get_by_label(FIELD)).to_be_focused()
    expect(phone.locator("#handbook-search-results")).to_be_hidden()
    keys.press("Escape")
    expect(phone.get_by_label(FIELD)).to_be_hidden()
    expect(phone.get_by_role("link", name="Find")).to_be_focused()
    opened_field(phone)
    keys.press("ControlOrMeta+a")
    keys.type("tin 3 red")
    keys.press("Enter")
    phone.wait_for_url("**/links/tin-3-red/index.html")


def test_the_list_comes_right_after_the_field_in_the_order_of_the_keyboard(
    phone: Page, demo_address: str
) -> None:
    phone.goto(demo_address + START)
    ready(phone)
    phone.keyboard.type("spindle")
    phone.keyboard.press("Tab")
    expect(phone.locator(".find__list a").first).to_be_focused()
    phone.keyboard.press("Enter")
    phone.wait_for_url("**/glossary/index.html#axle")


def test_the_count_is_said_and_seen(phone: Page, demo_address: str) -> None:
    phone.goto(demo_address + START)
    ready(phone)
    status, count = phone.get_by_role("status"), phone.locator(".find__count")
    phone.keyboard.type("zzzzzz")
    expect(status).to_have_text(
        "Nothing found. Try the label on the bag, a size code, or a length with its unit."
    )
    phone.get_by_label(FIELD).fill("520")
    expect(count).to_have_text(re.compile(r"First 10 of [0-9]{2,3}"))
    expect(phone.locator(".find__list a")).to_have_count(10)
    expect(status).to_have_text(count.inner_text())
    phone.get_by_label(FIELD).fill("")
    expect(phone.locator("#handbook-search-results")).to_be_hidden()


def test_the_list_on_a_phone(phone: Page, demo_address: str) -> None:
    """Each line can be hit with a thumb, and nothing sticks out to the side."""
    phone.goto(demo_address + START)
    ready(phone)
    phone.get_by_label(FIELD).fill("tin 4 flat seals on blue 520")
    boxes = phone.locator(".find__list a").evaluate_all(
        "all => all.map(e => e.getBoundingClientRect().toJSON())"
    )
    assert len(boxes) > 3
    assert [box for box in boxes if box["height"] < 48 or box["left"] < 0 or box["right"] > 360] == []
    assert phone.evaluate("document.documentElement.scrollWidth") == 360
    first = phone.locator(".find__list a").first
    assert "tin-4-flat-seals on blue-520" in first.inner_text()
    first.tap()
    phone.wait_for_url("**/pairs/blue-520/tin-4-flat-seals/index.html")


def test_a_pair_says_its_verdict_in_the_list(phone: Page, demo_address: str, demo_folder: Path) -> None:
    fits = json.loads(demo_folder.joinpath("data/v1/fits.json").read_text(encoding="utf-8"))
    wanted = next(fit for fit in fits["pairs"] if (fit["chain"], fit["link"]) == ("blue-520", "tin-1-blue"))
    phone.goto(demo_address + START)
    ready(phone)
    phone.get_by_label(FIELD).fill("blue 520 tin 1 blue")
    first = phone.locator(".find__list a").first
    expect(first.locator(f".plate.v-{wanted['word']} svg path").first).to_be_visible()
    expect(first.locator(".plate .word")).to_have_text(
        wanted["word"].replace("measure-first", "measure first")
    )


def test_what_was_typed_before_the_search_came_is_found(phone: Page, demo_address: str) -> None:
    def late(route: Route) -> None:
        phone.wait_for_timeout(300)
        route.continue_()

    phone.route("**/search-index.js", late)
    phone.goto(demo_address + START)
    opened_field(phone)
    phone.get_by_label(FIELD).fill("tin 3 red")
    expect(phone.locator(".find__list a").first).to_contain_text("tin-3-red")


def test_a_search_that_does_not_load_says_so(phone: Page, demo_address: str) -> None:
    phone.route("**/search-index.js", lambda route: route.abort())
    phone.goto(demo_address + START)
    opened_field(phone)
    expect(phone.locator("#handbook-search-results")).to_contain_text("The search did not load")
