"""The frame in use: the two switches, the menu, a wide table on a phone, and paper."""

import re
import subprocess
from collections.abc import Iterator
from pathlib import Path
from shutil import which

import pytest
from playwright.sync_api import Browser, Page

from tests.browser.conftest import opened

TABLE = "chains/blue-520/index.html"


@pytest.fixture
def desk(browser: Browser) -> Iterator[Page]:
    with opened(browser, 1280, 900) as page:
        yield page


def places(page: Page) -> list[list[float]]:
    """Where everything in the table stands."""
    found: list[list[float]] = page.eval_on_selector_all(
        "table *:not(.len *)", "all => all.map(e => Object.values(e.getBoundingClientRect().toJSON()))"
    )
    return found


def test_units_switch_without_moving_anything_and_are_remembered(desk: Page, fake_address: str) -> None:
    desk.goto(fake_address + TABLE)
    mm, inch = desk.locator("tbody .len b").first, desk.locator("tbody .len i").first
    before = places(desk)
    assert (mm.is_visible(), inch.is_visible()) == (True, False)
    desk.get_by_role("button", name="show inches").click()
    assert (mm.is_visible(), inch.is_visible()) == (False, True)
    assert places(desk) == before
    desk.goto(f"{fake_address}pairs/index.html")
    assert desk.locator("tbody .len i").first.is_visible()
    assert desk.get_by_role("button", name="show inches").get_attribute("aria-pressed") == "true"


def test_colours_follow_the_device_until_they_are_chosen(browser: Browser, fake_address: str) -> None:
    context = browser.new_context(color_scheme="dark")
    page = context.new_page()
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
    context.close()


def test_storage_that_is_blocked_is_no_error(browser: Browser, fake_address: str) -> None:
    context = browser.new_context()
    page = context.new_page()
    errors: list[str] = []
    page.on("pageerror", lambda error: errors.append(str(error)))
    page.add_init_script(
        "Object.defineProperty(window, 'localStorage', {get() { throw new DOMException('blocked'); }});"
    )
    page.goto(fake_address + TABLE)
    page.get_by_role("button", name="show inches").click()
    assert page.locator("tbody .len i").first.is_visible()
    assert errors == []
    context.close()


def test_name_and_shape_of_the_verdict_stay_in_view_when_a_table_is_pushed_sideways(
    phone: Page, fake_address: str
) -> None:
    """And more than half of the screen is left to read the other columns in."""
    phone.goto(fake_address + TABLE)
    phone.eval_on_selector(".wide", "table => { table.scrollLeft = 10000; }")
    row = phone.locator("tbody tr").nth(1)
    last, beside = row.locator("td").last.bounding_box(), row.locator(".c-verdict").bounding_box()
    head, shape = row.locator("th").bounding_box(), row.locator(".verdict svg").bounding_box()
    assert head is not None and shape is not None and last is not None and beside is not None
    assert 0 <= head["x"] < head["x"] + head["width"] <= shape["x"]
    assert shape["x"] + shape["width"] <= last["x"] + last["width"] <= 360
    assert beside["x"] + beside["width"] < 180
    over = """() => [["th.c-head a", "th.c-head"], [".verdict svg", ".c-verdict"]].map(([part, cell]) => {
      const box = document.querySelectorAll("tbody " + part)[1].getBoundingClientRect();
      return document.elementFromPoint(box.x + box.width / 2, box.y + box.height / 2).closest(cell) !== null;
    })"""
    assert phone.evaluate(over) == [True, True], "nothing lies over them"


def test_a_sideways_table_can_be_reached_and_named_by_keyboard(phone: Page, fake_address: str) -> None:
    phone.goto(fake_address + TABLE)
    region = phone.get_by_role("region", name="Connecting links on blue-520")
    region.focus()
    phone.keyboard.press("ArrowRight")
    phone.wait_for_function("() => document.querySelector('.wide').scrollLeft > 0")


def test_the_menu_opens_and_closes_on_a_phone(phone: Page, fake_address: str) -> None:
    phone.goto(fake_address + TABLE)
    menu = phone.get_by_role("navigation", name="Pages")
    assert not menu.is_visible()
    phone.get_by_role("link", name="Menu").click()
    assert menu.is_visible()
    phone.get_by_role("link", name="Close").click()
    assert not menu.is_visible()


def test_the_first_stop_of_the_keyboard_skips_to_the_page(desk: Page, fake_address: str) -> None:
    desk.goto(fake_address + TABLE)
    desk.keyboard.press("Tab")
    focused = desk.locator(":focus")
    assert focused.inner_text() == "Skip to the page"
    assert (focused.bounding_box() or {"y": -1})["y"] >= 0
    desk.keyboard.press("Enter")
    assert desk.evaluate("document.activeElement.id") == "content"


@pytest.mark.skipif(which("pdftotext") is None, reason="pdftotext (poppler-utils) reads the sheets")
def test_each_sheet_of_paper_says_where_it_comes_from(desk: Page, fake_address: str, tmp_path: Path) -> None:
    desk.goto(fake_address + TABLE)
    desk.pdf(path=tmp_path / "a.pdf", prefer_css_page_size=True, format="A4")
    command = ["pdftotext", "-layout", str(tmp_path / "a.pdf"), "-"]
    text = subprocess.run(command, capture_output=True, text=True, check=True).stdout
    sheets = text.removesuffix("\f").split("\f")
    assert len(sheets) > 1
    for sheet in sheets:
        assert "chains/blue-520/ · data 9f2c41d07ab3 of 2027-03-01" in sheet
        assert "Verdict" in sheet, "the heads of the columns come again"
    assert text.count("0.0795 in") > 10, "both units are on paper"
