"""Every page in a real browser: from a web host and from a folder on disk, with nothing to complain of."""

from pathlib import Path

import pytest
from playwright.sync_api import Browser

from tests.browser.crawl import crawl, faults, look, pages_of
from tests.browser.kinds import one_of_each
from tests.browser.served import served


@pytest.mark.parametrize("width", [360, 1280])
def test_every_page_from_a_web_host(
    browser: Browser, fake_folder: Path, fake_address: str, width: int
) -> None:
    walk = crawl(browser, fake_address, fake_folder, width, extra=["404.html"])
    assert faults(walk) == {}
    assert walk.verdicts > 50
    reached = {walk.file_of(page).relative_to(fake_folder).as_posix() for page in walk.pages}
    assert reached == pages_of(fake_folder), "each page can be reached from the start page"


def test_every_page_from_a_folder_on_disk(browser: Browser, fake_folder: Path) -> None:
    """All but the 404 page, which only a web host shows."""
    walk = crawl(browser, f"{fake_folder.as_uri()}/", fake_folder, color_scheme="dark")
    assert faults(walk) == {}
    assert len(walk.pages) == len(pages_of(fake_folder)) - 1


@pytest.mark.parametrize("width", [360, 1280])
def test_a_page_of_each_kind_of_the_demo_from_a_web_host(
    browser: Browser, demo_folder: Path, demo_address: str, width: int
) -> None:
    """Every page is looked at from a folder on disk."""
    kinds = one_of_each(demo_folder)
    walk = look(browser, demo_address, demo_folder, kinds.values(), width)
    print(f"{len(walk.pages)} pages, {walk.verdicts} verdicts, {walk.texts} texts")
    assert faults(walk) == {}
    assert len(walk.pages) == len(kinds) > 25


@pytest.mark.long
def test_every_page_of_a_club_that_types_markup(browser: Browser, hostile_folder: Path) -> None:
    """Nothing typed runs, by the policy or without it; what it would have done is to change the title."""
    with served(hostile_folder) as address:
        walk = crawl(browser, address, hostile_folder, extra=["404.html"])
    print(f"{len(walk.pages)} pages")
    assert faults(walk) == {}
    assert {walk.file_of(page).relative_to(hostile_folder).as_posix() for page in walk.pages} == pages_of(
        hostile_folder
    )
    assert [page for page, title in walk.titles.items() if title in ("owned", "")] == []


def test_the_handbook_without_scripts(browser: Browser, fake_address: str) -> None:
    """Both units are there, nothing that cannot work is shown, and the menu opens."""
    context = browser.new_context(java_script_enabled=False, viewport={"width": 360, "height": 800})
    page = context.new_page()
    page.goto(f"{fake_address}chains/blue-520/index.html")
    assert page.locator(".plate").first.is_visible()
    assert page.locator(".num b").first.is_visible()
    assert page.locator(".num i").first.is_visible()
    assert not page.locator("button").first.is_visible(), "a switch that cannot work is not shown"
    assert not page.get_by_label("Search the handbook").is_visible()
    page.get_by_text("Menu", exact=True).click()
    page.get_by_role("link", name="About this handbook").click()
    assert page.title().startswith("About this handbook")
    context.close()


def test_the_collectors_see_what_is_wrong(browser: Browser, tmp_path: Path) -> None:
    """A page with one fault of each kind, so that a silent crawl means something."""
    policy = "default-src 'none'; script-src 'self'; style-src 'self'"
    tmp_path.joinpath("index.html").write_text(
        f"""<!doctype html><html lang="en"><head><meta charset="utf-8"><title>x</title>
        <link rel="stylesheet" href="faint.css">
        <meta http-equiv="Content-Security-Policy" content="{policy}"></head><body>
        <script>inline()</script><p style="color: red">x</p><p id="a">x</p><p id="a">x</p>
        <a href="gone.html">x</a><a href="#gone">x</a><a href="https://example.org/">x</a>
        <p class="faint">x</p><a class="alone" href="#a">x</a>
        <img src="https://example.org/x.png" alt=""><svg><use href="#gone"/></svg><button>x</button>
        <table><tr><td><div id="w"><pre>{"w" * 900}</pre></div></td>
        <td><span class="plate">no-go</span></td></tr></table></body></html>"""
    )
    tmp_path.joinpath("faint.css").write_text("body { background: #fff } .faint { color: #666 }")
    walk = crawl(browser, f"{tmp_path.as_uri()}/", tmp_path)
    assert sum("a.alone" in fault for fault in walk.faults["control under 48 px"]) == 1
    assert [fault.partition(": ")[2] for fault in walk.faults["text of less than 7:1 contrast"]] == [
        "5.74 p.faint 'x'"
    ]
    assert set(faults(walk)) >= {
        "policy violation",
        "style attribute",
        "id given twice",
        "broken link",
        "anchor that is not there",
        "link to another place",
        "symbol that is not in the page",
        "control under 48 px",
        "page wider than the screen",
        "verdict out of view",
        "console message",
    }
