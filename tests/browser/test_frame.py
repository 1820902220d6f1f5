"""The frame in use: the two switches, the menu, the bar under the thumb, letters twice as large, the last line."""

import re
from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.browser.conftest import opened

TABLE = "chains/blue-520/index.html"
DEMO = (
    "index.html",
    "bikes/b01/index.html",
    "pairs/blue-520/tin-1-blue/index.html",
    "sizes/index.html",
    "problems/index.html",
)


@pytest.fixture
def desk(browser: Browser) -> Iterator[Page]:
    with opened(browser, 1280, 900) as page:
        yield page


def test_units_switch_and_are_remembered(desk: Page, fake_address: str) -> None:
    desk.goto(fake_address + TABLE)
    mm, inch = desk.locator("tbody .num > span").first, desk.locator("tbody .num > i").first
    assert (mm.is_visible(), inch.is_visible()) == (True, False)
    desk.get_by_role("button", name="show inches").click()
    assert (mm.is_visible(), inch.is_visible()) == (False, True)
    desk.goto(f"{fake_address}pairs/index.html")
    assert desk.locator("tbody .num > i").first.is_visible()
    assert desk.get_by_role("button", name="show inches").get_attribute("aria-pressed") == "true"


def test_colours_follow_the_device_until_they_are_chosen(browser: Browser, fake_address: str) -> None:
    with opened(browser, 800, color_scheme="dark") as page:
        page.goto(fake_address + TABLE)
        ground = "getComputedStyle(document.body).backgroundColor"
        dark = page.evaluate(ground)
        button = page.get_by_role("button", name=re.compile("Colours"))
        button.click()  # light
        light = page.evaluate(ground)
        assert light != dark
        page.reload()
        assert page.evaluate(ground) == light
        button.click()  # dark by choice
        assert page.evaluate(ground) == dark


def test_storage_that_is_blocked_is_no_error(desk: Page, fake_address: str) -> None:
    errors: list[str] = []
    desk.on("pageerror", lambda error: errors.append(str(error)))
    desk.add_init_script(
        "Object.defineProperty(window, 'localStorage', {get() { throw new DOMException('blocked'); }});"
    )
    desk.goto(fake_address + TABLE)
    desk.get_by_role("button", name="show inches").click()
    assert desk.locator("tbody .num > i").first.is_visible()
    assert errors == []


@pytest.mark.parametrize("scripts", [True, False])
def test_the_menu_is_a_sheet_on_a_phone(browser: Browser, fake_address: str, scripts: bool) -> None:
    with opened(browser, 360, java_script_enabled=scripts) as phone:
        phone.goto(fake_address + TABLE)
        menu = phone.get_by_role("navigation", name="Handbook")
        assert not menu.is_visible()
        phone.get_by_role("link", name="Menu").click()
        assert menu.is_visible()
        phone.get_by_role("link", name="Close").click()
        assert not menu.is_visible()


def test_the_bar_under_the_thumb_stays_there(phone: Page, demo_address: str) -> None:
    phone.goto(f"{demo_address}bikes/b01/index.html")
    links = phone.get_by_role("navigation", name="Quick").get_by_role("link")
    assert links.all_inner_texts() == ["Start", "Find", "Broke", "Menu"]
    phone.evaluate("scrollTo({ top: 900, behavior: 'instant' })")
    boxes = [link.bounding_box() for link in links.all()]
    assert all(
        box and box["height"] >= 56 and box["width"] >= 80 and box["y"] + box["height"] <= 740
        for box in boxes
    )


def test_find_without_scripts_is_the_list_of_labels(browser: Browser, demo_address: str) -> None:
    with opened(browser, 360, java_script_enabled=False) as phone:
        phone.goto(f"{demo_address}index.html")
        phone.get_by_role("link", name="Find").click()
        expect(phone.get_by_role("heading", level=1)).to_have_text("All labels, A to Z")


def test_the_search_sheet_fills_a_phone_and_closes(phone: Page, demo_address: str) -> None:
    phone.goto(f"{demo_address}index.html")
    phone.get_by_role("link", name="Find").click()
    sheet = phone.locator("form[role=search]")
    box = sheet.bounding_box()
    assert box is not None and (box["width"], box["height"]) == (360, 740)
    phone.get_by_role("button", name="Close").click()
    assert not sheet.is_visible()


def test_the_first_stop_of_the_keyboard_skips_to_the_page(desk: Page, fake_address: str) -> None:
    desk.goto(fake_address + TABLE)
    desk.keyboard.press("Tab")
    focused = desk.locator(":focus")
    assert focused.inner_text() == "Skip to the page"
    assert (focused.bounding_box() or {"y": -1})["y"] >= 0
    desk.keyboard.press("Enter")
    assert desk.evaluate("document.activeElement.id") == "content"


@pytest.mark.parametrize("path", DEMO)
def test_letters_twice_as_large_on_a_small_phone(browser: Browser, demo_address: str, path: str) -> None:
    """320 px and twice the size the browser is set to (WCAG 2.2, 1.4.4 and 1.4.10, from memory): the header neither
    pushes the page wide nor fills it."""
    with opened(browser, 320, 640) as page:
        page.context.new_cdp_session(page).send(
            "Page.setFontSizes", {"fontSizes": {"standard": 32, "fixed": 26}}
        )
        page.goto(demo_address + path)
        assert page.evaluate("getComputedStyle(document.documentElement).fontSize") == "32px"
        assert page.evaluate("document.documentElement.scrollWidth") == 320
        header, thumb = page.locator("header").bounding_box(), page.locator(".thumb").bounding_box()
        assert header is not None and header["height"] < 640 / 4
        assert thumb is not None and thumb["height"] < 640 / 6


def test_the_last_line_says_whence_and_names_the_files_once(desk: Page, demo_address: str) -> None:
    desk.goto(f"{demo_address}chains/index.html")
    line = desk.locator(".data-line")
    text = line.inner_text()
    assert re.search(r"readings up to 1 March 2027", text) and re.search(
        r"Data [0-9a-f]{12} of 2027-03-01", text
    )
    assert line.get_by_role("link").all_inner_texts() == ["CSV"]
    assert desk.locator("#content a[download]").count() == 1
