"""What a phone must load, as a host sends it: each file gzipped for itself.

The budgets are those the project set itself; there is no outside source for them.
"""

import gzip
import re
from pathlib import Path

from playwright.sync_api import Page, expect

KB = 1000


def zipped(path: Path) -> int:
    return len(gzip.compress(path.read_bytes(), 9, mtime=0))


def test_the_first_page_until_the_search_answers_is_80_kb_at_most(
    phone: Page, demo_address: str, demo_folder: Path
) -> None:
    asked: list[str] = []
    phone.on("request", lambda request: asked.append(request.url))
    phone.goto(f"{demo_address}index.html")
    phone.get_by_role("link", name="Find").click()
    phone.get_by_role("searchbox").fill("tin-3-red")
    expect(phone.locator(".find__list li").first).to_be_visible()
    assert {url for url in asked if not url.startswith(demo_address)} == set(), "nothing of another host"
    files = {url.removeprefix(demo_address) for url in asked}
    weights = {file: zipped(demo_folder / file) for file in files if demo_folder.joinpath(file).is_file()}
    print(sum(weights.values()), weights)
    assert sum(weights.values()) <= 80 * KB, weights


def test_no_page_of_a_pair_is_heavier_than_14_kb(demo_folder: Path) -> None:
    pages = list(demo_folder.glob("pairs/*/*/index.html"))
    heavy = {str(path.relative_to(demo_folder)): zipped(path) for path in pages if zipped(path) > 14 * KB}
    assert len(pages) > 300 and heavy == {}


def test_the_style_sheet_is_one_and_names_no_class_twice_for_nothing(demo_folder: Path) -> None:
    css = demo_folder.joinpath("assets/face.css")
    assert zipped(css) <= 12 * KB
    assert "/*" not in css.read_text(encoding="utf-8")
    assert len(list(demo_folder.glob("assets/*.css"))) == 1
    used: set[str] = set()
    for path in demo_folder.rglob("*.html"):
        for attribute in re.findall(r'\bclass="([^"]*)"', path.read_text(encoding="utf-8")):
            used.update(attribute.split())
    for path in demo_folder.glob("assets/*.js"):
        used.update(re.findall(r"[\w-]+", path.read_text(encoding="utf-8")))
    names = set(re.findall(r"\.([a-z][\w-]+)(?=[\s,{:.>+~\[)])", css.read_text(encoding="utf-8")))
    assert sorted(names - used) == [], "styles of nothing"
