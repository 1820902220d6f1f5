"""How the demo's pages look on a phone: danger by day and by night, lengths in sentences, text in drawings, targets.

Outside source: WCAG 2.2, 1.4.6 for the contrast of 7:1 and its formula, from memory.
"""

import pytest
from playwright.sync_api import Browser, Page

NO_GO = "pairs/bench-520/tin-1-grey/index.html"
OPEN = "pairs/bench-520/tin-1-slip/index.html"
COLOURS = """(element) => {
  const style = getComputedStyle(element);
  return [style.backgroundColor, style.color, style.boxShadow];
}"""


def numbers(colour: str) -> list[float]:
    return [float(part) for part in colour.removeprefix("rgb(").rstrip(")").split(",")]


def contrast(one: str, other: str) -> float:
    light, dark = sorted((luminance(numbers(one)), luminance(numbers(other))), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def luminance(rgb: list[float]) -> float:
    channels = [c / 255 for c in rgb]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


@pytest.mark.parametrize("word", ["no-go", "last-resort"])
def test_danger_looks_the_same_by_day_and_by_night(browser: Browser, demo_address: str, word: str) -> None:
    seen = []
    for scheme in ("light", "dark"):
        context = browser.new_context(color_scheme=scheme, viewport={"width": 360, "height": 740})
        page = context.new_page()
        page.goto(f"{demo_address}index.html")
        seen.append(page.locator(f"#content .verdict.{word}").first.evaluate(COLOURS))
        context.close()
    assert seen[0] == seen[1]
    assert contrast(*seen[0][:2]) >= 7


def test_a_length_in_a_sentence_ends_where_its_letters_end(phone: Page, demo_address: str) -> None:
    """In either unit: what is left between the last letter and what follows is less than half a letter."""
    phone.goto(demo_address + OPEN)
    left_over = """(all) => all.map((element) => {
      const range = document.createRange();
      const shown = [...element.children].find((child) => child.checkVisibility({visibilityProperty: true}));
      range.selectNodeContents(shown);
      return element.getBoundingClientRect().right - Math.max(...[...range.getClientRects()].map((box) => box.right));
    })"""
    for _ in range(2):
        gaps = phone.locator("#content p .len").evaluate_all(left_over)
        assert gaps and max(gaps) < 3
        phone.get_by_role("button", name="show inches").click()


def test_a_number_in_a_sentence_stands_beside_its_unit(phone: Page, demo_address: str) -> None:
    """In either unit the space between them is as wide as the letters have it, not stretched to the other unit."""
    phone.goto(demo_address + OPEN)
    spaces = """(all) => all.filter((element) => element.checkVisibility()).flatMap((element) => {
      const shown = [...element.children].find((child) => child.checkVisibility({visibilityProperty: true}));
      const range = document.createRange();
      const at = shown.textContent.indexOf(" ");
      if (at < 0) { return []; }
      range.setStart(shown.firstChild, at);
      range.setEnd(shown.firstChild, at + 1);
      return [range.getBoundingClientRect().width / parseFloat(getComputedStyle(shown).fontSize)];
    })"""
    for _ in range(2):
        widths = phone.locator("#content :is(p, li, dd) .len").evaluate_all(spaces)
        assert widths and max(widths) < 0.4
        phone.get_by_role("button", name="show inches").click()


def test_the_ends_of_a_range_stay_whole(phone: Page, demo_address: str) -> None:
    phone.goto(f"{demo_address}pairs/bench-520/index.html")
    tall = phone.locator(".verdict i i").evaluate_all(
        "all => all.filter((e) => e.getClientRects().length !== 1 || getComputedStyle(e).display !== 'inline-block').length"
    )
    assert tall == 0


def test_links_to_cautions_can_be_hit(phone: Page, demo_address: str) -> None:
    for path, selector in ((OPEN, ".first a"), ("safety/index.html", ".by-step a")):
        phone.goto(demo_address + path)
        heights = phone.locator(selector).evaluate_all(
            "all => all.map((e) => e.getBoundingClientRect().height)"
        )
        assert heights and min(heights) >= 48


def test_a_no_go_page_shows_its_verdict_on_the_first_screen(phone: Page, demo_address: str) -> None:
    phone.goto(demo_address + NO_GO)
    box = phone.locator(".verdict-box.no-go").bounding_box()
    assert box is not None and box["y"] + box["height"] < 740
    assert phone.locator("#with").count() == 0


TEXTS = """(svgs) => svgs.flatMap((svg) => [...svg.querySelectorAll("text")].filter((text) => text.getClientRects().length)
  .map((text) => parseFloat(getComputedStyle(text).fontSize) * svg.getBoundingClientRect().width / svg.viewBox.baseVal.width))"""
DRAWN = [NO_GO, OPEN, "measuring/pin-reach/index.html", "safety/index.html"]


@pytest.mark.parametrize("path", DRAWN)
def test_text_in_drawings_can_be_read_on_a_phone(phone: Page, demo_address: str, path: str) -> None:
    phone.goto(demo_address + path)
    tall = phone.locator("svg.drawing").evaluate_all(TEXTS)
    assert tall and min(tall) >= 11


def test_lengths_in_drawings_follow_the_switch_and_move_nothing(phone: Page, demo_address: str) -> None:
    places = "all => all.map((e) => Object.values(e.getBoundingClientRect().toJSON()))"
    phone.goto(demo_address + OPEN)
    # a sentence closes up around the unit it shows, so only what is inside a picture or a table stays where it was
    phone.locator("p, li, dd").evaluate_all("all => all.forEach((e) => { e.hidden = true; })")
    around = phone.locator("#content > *, svg.drawing :is(line, rect, path)")
    columns = "all => all.map((e) => [e.getBoundingClientRect().x, e.offsetWidth])"
    before = around.evaluate_all(places)
    columns_before = phone.locator(".c-number").evaluate_all(columns)
    mm, inch = phone.locator("svg.drawing .d-mm"), phone.locator("svg.drawing .d-in")
    assert mm.count() == inch.count() > 15
    assert mm.first.is_visible() and not inch.first.is_visible()
    phone.get_by_role("button", name="show inches").click()
    assert inch.first.is_visible() and not mm.first.is_visible()
    assert around.evaluate_all(places) == before
    assert phone.locator(".c-number").evaluate_all(columns) == columns_before != []


def test_lengths_of_a_drawing_stand_in_both_units_without_scripts(
    browser: Browser, demo_address: str
) -> None:
    context = browser.new_context(java_script_enabled=False, viewport={"width": 360, "height": 740})
    page = context.new_page()
    page.goto(demo_address + OPEN)
    drawn = page.locator("svg.drawing .d-mm")
    assert drawn.first.is_visible() and not page.locator("svg.drawing .d-in").first.is_visible()
    page.locator("#drawn-lengths summary").click()
    listed = page.locator("#drawn-lengths dd")
    assert listed.count() > 10
    for at in range(listed.count()):
        text = listed.nth(at).inner_text()
        assert " mm" in text and " in" in text
    context.close()
