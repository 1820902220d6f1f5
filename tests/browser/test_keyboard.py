"""Ten tasks of a rider or of who keeps the handbook, done by keyboard alone: focus seen at each step, no trap."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.browser.conftest import opened
from tests.browser.keys import Focus, Keys
from tests.browser.kinds import all_kinds

PAIR = "pairs/blue-520/tin-1-blue/index.html"


@pytest.fixture
def desk(browser: Browser) -> Iterator[Keys]:
    with opened(browser, 1280, 760, accept_downloads=True) as page:
        yield Keys(page)


@pytest.fixture
def phone(browser: Browser) -> Iterator[Keys]:
    with opened(browser, 360, 760, accept_downloads=True) as page:
        yield Keys(page)


def in_view(page: Page, selector: str) -> bool:
    box = page.locator(selector).first.bounding_box()
    size = page.viewport_size
    assert size is not None
    return box is not None and 0 <= box["y"] < size["height"] and box["x"] >= 0


def test_find_a_pair_by_search(phone: Keys, demo_address: str) -> None:
    phone.page.goto(f"{demo_address}index.html")
    phone.tab_to("Find", tag="a")
    phone.page.keyboard.press("Enter")
    phone.page.locator(".find__count").wait_for(state="attached")
    phone.page.keyboard.type("tin 1 blue on blue 520")
    expect(phone.page.locator(".find__list a").first).to_contain_text("tin-1-blue on blue-520")
    focus = phone.press("ArrowDown")
    assert focus is not None and focus.href.endswith(PAIR)
    phone.page.keyboard.press("Enter")
    phone.page.wait_for_url(f"**/{PAIR}")
    assert in_view(phone.page, ".panel")


def test_skip_the_frame(desk: Keys, demo_address: str) -> None:
    """From the first stop into the page: the next stop is the first of the page, not of the menu."""
    desk.page.goto(f"{demo_address}bikes/index.html")
    first = desk.press("Tab")
    assert first is not None and first.words == "Skip to the page"
    desk.press("Enter")
    desk.press("Tab")
    assert desk.page.evaluate("document.activeElement.closest('#content') !== null")
    assert desk.page.evaluate(
        "document.activeElement === document.querySelector('#content :is(a[href], summary, [tabindex=\"0\"])')"
    )


def test_read_a_page_in_inches(phone: Keys, demo_address: str) -> None:
    phone.page.goto(demo_address + PAIR)
    phone.tab_to("show inches", tag="button")
    inches = phone.page.locator("#content .num i").first
    assert not inches.is_visible()
    phone.press("Space")
    assert inches.is_visible()
    phone.press("Enter")
    assert not inches.is_visible()


def test_read_a_page_at_night(desk: Keys, demo_address: str) -> None:
    desk.page.goto(demo_address + PAIR)
    ground = "getComputedStyle(document.body).backgroundColor"
    desk.tab_to("Colours", tag="button")
    seen = {desk.page.evaluate(ground)}
    for _ in range(2):
        desk.press("Enter")
        seen.add(desk.page.evaluate(ground))
    assert len(seen) == 2
    focus = desk.press("Shift+Tab")
    assert focus is not None and "show inches" in focus.words, "the way back is open"


def test_open_a_fold_of_a_pair(phone: Keys, demo_address: str) -> None:
    phone.page.goto(demo_address + PAIR)
    fold = phone.page.locator("details.sec:not([open])").first.element_handle()
    assert fold is not None
    inside, head = fold.query_selector(".sec__in"), fold.query_selector("h2")
    assert inside is not None and head is not None
    phone.tab_to(head.inner_text(), tag="summary")
    assert not inside.is_visible()
    phone.press("Enter")
    assert inside.is_visible()
    phone.press("Space")
    assert not inside.is_visible()


def test_from_a_bike_to_its_chain_to_a_link_on_it(desk: Keys, demo_address: str) -> None:
    desk.page.goto(f"{demo_address}index.html")
    desk.follow(href="bikes/b04/index.html")
    chain = str(desk.page.locator(".head a").first.get_attribute("href"))
    desk.follow(href=chain)
    assert "/chains/" in desk.page.url
    desk.page.locator("details").evaluate_all("all => all.forEach((e) => { e.open = true; })")
    pair = str(desk.page.locator("#content a[href*='/pairs/']").first.get_attribute("href"))
    desk.follow(href=pair)
    assert "/pairs/" in desk.page.url and in_view(desk.page, ".panel")


def test_from_the_grid_to_a_pair(desk: Keys, demo_address: str) -> None:
    desk.page.goto(f"{demo_address}pairs/index.html")
    focus = desk.tab_to("tin-1-grey on grey-520", tag="a", most=900)
    desk.page.keyboard.press("Enter")
    desk.page.wait_for_url(f"**/{focus.href.replace('../', '')}")


def test_two_boxes_to_a_verdict(phone: Keys, demo_address: str) -> None:
    phone.page.goto(f"{demo_address}index.html")
    phone.tab_to("On the bike", tag="select")
    phone.page.keyboard.type("b01")
    phone.tab_to("In the bag", tag="select", most=1)
    phone.page.keyboard.type("tin-3-red")
    focus = phone.tab_to("tin-3-red on b01", tag="a", most=2)
    assert "pairs/blue-520/tin-3-red/" in focus.href


def test_open_the_menu_on_a_phone(phone: Keys, demo_address: str) -> None:
    phone.page.goto(demo_address + PAIR)
    phone.tab_to("Menu", tag="a")
    phone.page.keyboard.press("Enter")
    assert phone.page.get_by_role("navigation", name="Handbook").is_visible()
    focus = phone.press("Tab")
    assert focus is not None and focus.words == "Close", "the menu comes next"
    phone.follow("Chains", most=16)
    assert phone.page.url.endswith("chains/index.html")
    assert not phone.page.get_by_role("navigation", name="Handbook").is_visible()


def test_take_a_table_away(desk: Keys, demo_address: str, demo_folder: Path) -> None:
    desk.page.goto(f"{demo_address}chains/index.html")
    focus = desk.tab_to("CSV", tag="a")
    with desk.page.expect_download() as saved:
        desk.page.keyboard.press("Enter")
    file = demo_folder / focus.href.replace("../", "")
    assert Path(saved.value.path()).read_bytes() == file.read_bytes()


STOPS = """() => [...document.querySelectorAll("a[href], button, input, select, textarea, summary, [tabindex='0']")]
  .filter((e) => e.checkVisibility({visibilityProperty: true})).length"""


@pytest.mark.parametrize("kind", ["index.html", "pairs/*/* measure-first", "bikes/*", "404.html"])
def test_no_trap_from_one_end_of_a_page_to_the_other(
    phone: Keys, demo_address: str, demo_folder: Path, kind: str
) -> None:
    """Each stop comes once, in one direction and back; after the last the page lets go."""
    phone.page.goto(demo_address + all_kinds(demo_folder)[kind][0])
    stops = phone.page.evaluate(STOPS)
    there = walked(phone, "Tab", stops)
    assert phone.press("Tab") is None, f"stops that are no controls: {phone.log[-5:]}"
    assert len({(at.words, at.href, at.id) for at in there}) > stops / 2, "it goes on"
    back = walked(phone, "Shift+Tab", stops)
    assert [at.words for at in back] == [at.words for at in reversed(there)]


def walked(keys: Keys, key: str, stops: int) -> list[Focus]:
    found = [keys.press(key) for _ in range(stops)]
    assert None not in found, f"fewer stops than controls: {keys.log[-5:]}"
    return [focus for focus in found if focus]
