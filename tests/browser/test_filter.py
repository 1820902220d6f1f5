"""The filter of all pairs: by chain, verdict and words, by keyboard alone, in the address, from a host and from disk."""

from collections import Counter
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from tests.handbook import demo_fits

PAIRS = "pairs/index.html"
SHOWN = """(rows) => rows.filter((row) => row.getClientRects().length)
  .map((row) => [row.cells[0].querySelector("a").textContent, row.cells[2].textContent.trim()])"""


@pytest.fixture(params=["host", "disk"])
def root(request: pytest.FixtureRequest, demo_address: str, demo_folder: Path) -> str:
    return demo_address if request.param == "host" else f"{demo_folder.as_uri()}/"


def shown(page: Page) -> Counter[tuple[str, str]]:
    found = page.locator("#all-pairs tbody tr").evaluate_all(SHOWN)
    return Counter((link, chain) for link, chain in found)


def wanted(chain: str = "", word: str = "") -> Counter[tuple[str, str]]:
    return Counter(
        (fit.link, fit.chain) for fit in demo_fits() if chain in ("", fit.chain) and word in ("", fit.word)
    )


def test_by_chain_by_verdict_and_by_words(phone: Page, root: str) -> None:
    phone.goto(root + PAIRS)
    assert shown(phone) == wanted()
    phone.get_by_label("Chain", exact=True).select_option("blue-520")
    assert shown(phone) == wanted("blue-520")
    phone.get_by_label("Verdict", exact=True).select_option("get-home")
    assert shown(phone) == wanted("blue-520", "get-home")
    total = sum(wanted().values())
    assert (
        phone.get_by_role("status").last.inner_text()
        == f"{wanted('blue-520', 'get-home').total()} of {total} pairs"
    )
    phone.get_by_label("With the words").fill("Tin-3  RED")
    assert set(shown(phone)) == {pair for pair in wanted("blue-520", "get-home") if pair[0] == "tin-3-red"}
    phone.get_by_role("button", name="Show all").click()
    assert shown(phone) == wanted()


def test_what_is_chosen_stands_in_the_address(phone: Page, browser: Browser, root: str) -> None:
    phone.goto(root + PAIRS)
    phone.get_by_label("Chain", exact=True).select_option("grey-520")
    phone.get_by_label("Verdict", exact=True).select_option("no-go")
    phone.get_by_label("With the words").fill("tin-2 b")
    before, address = shown(phone), phone.url
    assert before and before != wanted("grey-520", "no-go")
    context = browser.new_context()
    other = context.new_page()
    other.goto(address)
    assert shown(other) == before
    assert other.get_by_label("With the words").input_value() == "tin-2 b"
    context.close()


def test_an_address_with_a_chain_that_is_gone_shows_all(phone: Page, root: str) -> None:
    phone.goto(f"{root}{PAIRS}#chain=never-there&word=%3Cb%3E")
    assert shown(phone) == wanted()


def test_by_keyboard_alone(phone: Page, root: str) -> None:
    phone.goto(root + PAIRS)
    phone.get_by_label("Chain", exact=True).focus()
    phone.keyboard.type("grey-5")
    phone.keyboard.press("Tab")
    phone.keyboard.type("proper")
    phone.keyboard.press("Tab")
    assert shown(phone) == wanted("grey-520", "proper")
    phone.keyboard.type("zzz")
    phone.keyboard.press("Enter")
    assert not shown(phone) and PAIRS in phone.url
    phone.keyboard.press("Tab")
    phone.keyboard.press("Enter")
    assert shown(phone) == wanted()


def test_without_scripts_the_whole_table_is_there(browser: Browser, root: str) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(root + PAIRS)
    assert not page.locator("#filter").is_visible()
    assert page.locator("#all-pairs tbody tr").count() == wanted().total()
    assert page.locator("#all-pairs tbody tr").last.is_visible()
    context.close()


def test_no_other_page_loads_the_filter(phone: Page, demo_address: str) -> None:
    asked: list[str] = []
    phone.on("request", lambda request: asked.append(request.url.rpartition("/")[2]))
    phone.goto(f"{demo_address}index.html", wait_until="networkidle")
    assert "filter.js" not in asked
    phone.goto(demo_address + PAIRS, wait_until="networkidle")
    assert "filter.js" in asked
