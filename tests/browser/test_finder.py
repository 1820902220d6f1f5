"""The two boxes of the start page: by http, from a folder on disk, and without scripts."""

import json
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from generator.render.base.verdicts import shown_verdict
from generator.render.pages.fit_rows import pair_at
from tests.browser.conftest import opened
from tests.handbook import demo_book


def chosen(page: Page, on: str, bag: str) -> None:
    page.get_by_label("On the bike").select_option(on)
    page.get_by_label("In the bag").select_option(bag)


@pytest.mark.parametrize("scheme", ["http", "file"])
def test_two_choices_show_the_verdict_and_lead_to_it(
    phone: Page, demo_address: str, demo_folder: Path, scheme: str
) -> None:
    """Every ninth link on every sixth bike; the word is the one of that bike."""
    root = demo_address if scheme == "http" else f"{demo_folder.as_uri()}/"
    book = demo_book()
    phone.goto(f"{root}index.html")
    for bike in list(book.dataset.bikes)[::6]:
        for fit in book.by_bike[bike][::9]:
            chosen(phone, bike, fit.link)
            panel = phone.locator(".finder__answer .panel")
            label = shown_verdict(fit.word, fit.best, fit.worst).label
            assert panel.locator(".word").text_content() == label, (bike, fit.link)
            path, _, panel_id = pair_at(book, fit, bike).partition("#")
            own = f"{path}index.html" + (f"#{panel_id}" if panel_id else "")
            assert panel.evaluate("e => e.href") == f"{root}{own}", (bike, fit.link)


def test_the_bag_is_sorted_by_what_goes_on_the_bike(phone: Page, demo_address: str) -> None:
    phone.goto(f"{demo_address}index.html")
    bag = phone.get_by_label("In the bag")
    before = sorted(bag.locator("option").evaluate_all("all => all.map((e) => e.value)"))
    phone.get_by_label("On the bike").select_option("b01")
    heads = bag.locator("optgroup").evaluate_all("all => all.map((e) => e.label)")
    assert heads[0] == "proper" and heads[-1] in ("no-go", "measure first", "cannot judge")
    assert sorted(bag.locator("option").evaluate_all("all => all.map((e) => e.value)")) == before


def test_the_button_goes_to_the_pair_from_disk(phone: Page, demo_folder: Path) -> None:
    errors: list[str] = []
    phone.on("console", lambda message: errors.append(message.text))
    phone.goto(f"{demo_folder.as_uri()}/index.html")
    chosen(phone, "b01", "tin-3-red")
    phone.get_by_role("button", name="Show the verdict").click()
    phone.wait_for_url("**/pairs/blue-520/tin-3-red/**")
    assert errors == []


def test_without_scripts_the_form_leads_to_all_chains_and_links(browser: Browser, demo_folder: Path) -> None:
    with opened(browser, 360, java_script_enabled=False) as page:
        page.goto(f"{demo_folder.as_uri()}/index.html")
        page.get_by_role("button", name="Show the verdict").click()
        page.wait_for_url("**/pairs/index.html?*")
        assert page.get_by_role("heading", level=1).inner_text() == "All chains, all links"


def test_the_data_of_the_boxes_can_end_no_tag(demo_folder: Path) -> None:
    html = demo_folder.joinpath("index.html").read_text(encoding="utf-8")
    data = html.split('id="finder-data">', 1)[1].split("</script>", 1)[0]
    assert "<" not in data and set(json.loads(data)) == {"links", "words", "on"}
