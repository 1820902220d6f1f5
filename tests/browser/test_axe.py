"""Accessibility by a rule engine that many rely on: each kind of page, light and dark, at three widths.

A page is opened once.  All rules run on a phone by day; at the other sizes and in the other palette run those
whose answer depends on colour or layout.
"""

from collections.abc import Iterator
from importlib.resources import files
from itertools import product
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page

from tests.browser.kinds import all_kinds, one_of_each
from tests.handbook import demo_site

AXE = files("axe_playwright_python").joinpath("axe.min.js").read_text(encoding="utf-8")
WIDTHS = (360, 768, 1280)
SCHEMES = ("light", "dark")
LOOKS = ["color-contrast", "target-size", "scrollable-region-focusable", "link-in-text-block"]

# of rows and entries that look alike, by the classes of all that is in them, the first two tell as much as hundreds
SHORTEN = """() => {
  document.querySelectorAll("details").forEach((e) => { e.open = true; });
  const marks = (e) => [e, ...e.querySelectorAll("*")].map((each) => each.tagName + "." + each.getAttribute("class"));
  document.querySelectorAll("tbody, ul, ol, dl, #content, #content section").forEach((parent) => {
    const seen = new Map();
    parent.querySelectorAll(":scope > :is(tr, li, dt, dd, div, section, article, details)").forEach((child) => {
      const look = [...new Set(marks(child))].sort().join();
      seen.set(look, (seen.get(look) ?? 0) + 1);
      if (seen.get(look) > 2) { child.remove(); }
    });
  });
}"""
# one rule, to the stricter of its two limits; the engine's own for it leaves out what fails the looser one
STRICT = """() => axe.configure({checks: [{id: "color-contrast", options: {
  ignoreUnicode: true, ignoreLength: false, ignorePseudo: false, boldValue: 700, boldTextPt: 14, largeTextPt: 18,
  shadowOutlineEmMax: 0.2, pseudoSizeThreshold: 0.25,
  contrastRatio: {normal: {expected: 7}, large: {expected: 4.5}}}}]})"""
ALL = """() => axe.run({resultTypes: ["violations"], rules: {"target-size": {enabled: true}}})"""
SOME = """(rules) => axe.run({resultTypes: ["violations"], runOnly: {type: "rule", values: rules}})"""


@pytest.fixture
def page(browser: Browser) -> Iterator[Page]:
    """The policy of the pages would keep the engine out."""
    context = browser.new_context(
        bypass_csp=True, viewport={"width": 360, "height": 900}, color_scheme="light"
    )
    yield context.new_page()
    context.close()


def start_engine(page: Page) -> None:
    page.evaluate(AXE)
    page.evaluate(STRICT)


def said_of(result: dict[str, Any]) -> list[str]:
    return [
        f"{each['id']}: {node['html'][:160]} {node['failureSummary'][:200]}"
        for each in result["violations"]
        for node in each["nodes"][:3]
    ]


def looked_at(page: Page, address: str) -> dict[str, list[str]]:
    """What the engine has to say of a page, by width and palette."""
    page.set_viewport_size({"width": WIDTHS[0], "height": 900})
    page.emulate_media(color_scheme="light")
    page.goto(address)
    page.evaluate(SHORTEN)
    start_engine(page)
    result = page.evaluate(ALL)
    assert len(result["passes"]) > 10, "the engine ran its rules"
    said = {"all rules": said_of(result)}
    for width, scheme in [*product(WIDTHS, SCHEMES)][1:]:
        page.set_viewport_size({"width": width, "height": 900})
        page.emulate_media(color_scheme=scheme)  # type: ignore[arg-type]
        said[f"{width} px {scheme}"] = said_of(page.evaluate(SOME, LOOKS))
    return {look: found for look, found in said.items() if found}


@pytest.mark.long
def test_no_violation_at_any_width_and_palette(page: Page, demo_address: str, demo_folder: Path) -> None:
    kinds = one_of_each(demo_folder)
    found = {kind: looked_at(page, demo_address + address) for kind, address in kinds.items()}
    assert {kind: said for kind, said in found.items() if said} == {}


def test_no_kind_of_page_is_missed(demo_folder: Path) -> None:
    """Every template of the handbook, and every verdict a pair has a page for, is among the pages looked at."""
    chosen = {address.removesuffix("index.html") for address in one_of_each(demo_folder).values()}
    templates = {page.template for page in demo_site().pages}
    assert {page.template for page in demo_site().pages if page.path in chosen} == templates
    assert sum(kind.startswith("pairs/*/* ") for kind in all_kinds(demo_folder)) == 6
    by_hand = {path.stem for path in (Path(__file__).parents[2] / "handbook_src/pages").glob("*.md")}
    assert {"404.html"} | by_hand - {"index"} <= set(all_kinds(demo_folder))


def test_the_engine_finds_what_is_wrong(page: Page, demo_address: str) -> None:
    """By all rules and by those of looks alone."""
    page.goto(f"{demo_address}404.html")
    page.evaluate(
        """() => document.querySelector("#content").insertAdjacentHTML("beforeend",
        '<img src="x.png"><a href="/"></a><p class="faint">faint</p>')"""
    )
    page.add_style_tag(content=".faint { color: #666; background: #fff; }")  # 5.7:1
    start_engine(page)
    said = " ".join(said_of(page.evaluate(ALL)))
    assert "image-alt" in said and "link-name" in said
    assert 'color-contrast: <p class="faint"' in " ".join(said_of(page.evaluate(SOME, LOOKS)))
