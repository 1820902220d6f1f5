"""Accessibility by a rule engine that many rely on: each kind of page, light and dark, at three widths."""

from importlib.resources import files
from typing import Any

import pytest
from playwright.sync_api import Browser, Page

from tests.browser.kinds import one_of_each

AXE = files("axe_playwright_python").joinpath("axe.min.js").read_text(encoding="utf-8")
WIDTHS = (360, 768, 1280)
SCHEMES = ("light", "dark")

# all rows of a table are printed alike, and hundreds of them would take most of the time
SHORTEN = "() => document.querySelectorAll('tbody tr:nth-child(n + 16), #content li:nth-child(n + 40)').forEach(e => e.remove())"
OPEN = "() => document.querySelectorAll('details').forEach(e => { e.open = true; })"
RUN = "() => axe.run({resultTypes: ['violations']})"


@pytest.fixture(scope="module")
def page(browser: Browser) -> Any:
    """The policy of the pages would keep the engine out."""
    context = browser.new_context(bypass_csp=True)
    yield context.new_page()
    context.close()


@pytest.mark.parametrize("kind", sorted(one_of_each()))
def test_no_violation_at_any_width_and_palette(page: Page, demo_address: str, kind: str) -> None:
    page.goto(demo_address + one_of_each()[kind])
    page.evaluate(SHORTEN)
    page.evaluate(OPEN)
    page.evaluate(AXE)
    found = {}
    for width in WIDTHS:
        for scheme in SCHEMES:
            page.set_viewport_size({"width": width, "height": 900})
            page.emulate_media(color_scheme=scheme)  # type: ignore[arg-type]
            said = violations(page)
            if said:
                found[width, scheme] = said
    assert found == {}


def violations(page: Page) -> list[str]:
    result = page.evaluate(RUN)
    assert len(result["passes"]) > 10, "the engine ran its rules"
    return [
        f"{each['id']}: {node['html'][:160]} {node['failureSummary'][:200]}"
        for each in result["violations"]
        for node in each["nodes"][:3]
    ]


def test_the_engine_finds_what_is_wrong(page: Page, demo_address: str) -> None:
    page.goto(f"{demo_address}404.html")
    page.evaluate(
        "() => document.querySelector('#content').insertAdjacentHTML('beforeend', '<img src=\"x.png\"><a href=\"/\"></a>')"
    )
    page.evaluate(AXE)
    said = " ".join(violations(page))
    assert "image-alt" in said and "link-name" in said
