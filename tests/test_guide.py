"""The guide keeps its skeleton: who and when, tools, cautions before the step they guard, steps of one action with their
sign, pictures where a hand must place something, done when, if not; words linked once; no number typed by hand."""

import re
from collections import Counter
from html import unescape
from pathlib import Path

import pytest

from generator.model.care import Guide
from generator.model.fields import SOURCE_PATTERN
from generator.model.shipped import Caution
from generator.render.pages.care.linked import WordLinks
from generator.render.say.cautions import signal_word
from tests.care_pages import care_bodies
from tests.clubs import shelf
from tests.handbook import demo

CARE = shelf().care
GUIDES = CARE.guides
DRAWINGS = Path(__file__).parents[1] / "site_overrides" / "drawings"
MENU = (Path(__file__).parents[1] / "mkdocs.yml").read_text(encoding="utf-8")
PAGES = Path(__file__).parents[1] / "handbook_src" / "pages" / "care"
# the pages the club asked for
NAMED = {
    "before-the-season", "identifying-a-chain", "buying-and-dry-fitting-a-spare", "before-each-ride", "at-stops",
    "on-the-trail", "after-the-ride", "measuring-wear", "measuring-a-joint", "pressing-a-side-plate", "fitting-a-clip",
    "reading-clip-wear", "riveting", "cutting-a-chain", "counting-pitches", "cleaning-and-lubricating", "slack", "storage",
    "retiring-chain-and-sprockets", "teaching-an-evening",
}  # fmt: skip
MOST_WORDS_OF_A_STEP, MOST_WORDS_OF_A_CAUTION = 20, 15
# acts in which a hand must put something in its place: such a step is drawn
PLACES = re.compile(
    r"^(put|set|lay|slide|push|fit|hold|press|point|file|hang|press the|brush|mark) ", re.IGNORECASE
)
# steps that begin like one and place nothing: a part is put away, or the act is a whole page of its own
PLACES_NOTHING = re.compile(
    r"^(set the slack|set up benches|put spare links|press as|fit both)", re.IGNORECASE
)
UNITS = "mm|cm|m|km|in|inch|inches|kg|g|N|kN|hours?|h|minutes?|min|days?|weeks?|months?|years?|km/h|°C|degrees|turns?|times|pitches|rollers|places|litres?"
NUMBER_WORDS = "one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|fifteen|twenty|thirty|hundred|hundreds|thousand|dozen"
TYPED = re.compile(
    rf"\b(\d[\d.,]*|{NUMBER_WORDS})[\s-]+({UNITS})\b|\d\s*%|\b(?:{NUMBER_WORDS}) per cent\b", re.IGNORECASE
)
# size codes and standards are names and no numbers
NAMES = re.compile(r"\b(415|420|428|520H?|525|530|532|630)\b|\b(?:ISO|ANSI|DIN|RFC) [\dZ]+\b")


def texts_of(guide: Guide) -> list[str]:
    steps = [text for step in guide.steps for text in (step.do, step.sign) if text]
    if_not = [text for each in guide.if_not for text in (each.sees, each.do)]
    lines = [guide.title, guide.description, guide.who, guide.when, guide.lead]
    return [*lines, *steps, *guide.done_when, *if_not, *guide.disagree]


def sentences(text: str) -> list[str]:
    return [part for part in re.split(r"(?<=[.?!:])\s+", text) if part]


def words(text: str) -> int:
    """A figure printed by its name counts as one word."""
    return len(re.sub(r"\{\{.*?\}\}", "figure", text).split())


def test_every_named_page_is_there_and_every_file_is_a_page() -> None:
    assert set(GUIDES) >= NAMED and len(NAMED) >= 19
    assert {path.stem for path in PAGES.glob("*.md")} == set(GUIDES)
    orders = [guide.order for guide in GUIDES.values()]
    assert orders == sorted(set(orders)), "each has its own place"


@pytest.mark.parametrize("id_", GUIDES)
def test_the_skeleton_is_whole(id_: str) -> None:
    guide = GUIDES[id_]
    assert all(
        (guide.who, guide.when, guide.lead, guide.tools, guide.cautions, guide.done_when, guide.if_not)
    )
    assert len(guide.steps) >= 4
    assert set(guide.tools) <= set(CARE.needs)
    assert set(guide.next) | {each.page for each in guide.if_not if each.page} <= set(GUIDES)
    assert id_ not in guide.next


@pytest.mark.parametrize("id_", GUIDES)
def test_a_step_is_short_and_one_action(id_: str) -> None:
    for step in GUIDES[id_].steps:
        assert words(step.do) <= MOST_WORDS_OF_A_STEP, step.do
        assert len(sentences(step.do)) == 1, step.do
        for sentence in sentences(step.sign or ""):
            assert words(sentence) <= MOST_WORDS_OF_A_STEP, sentence


@pytest.mark.parametrize("id_", GUIDES)
def test_where_a_hand_must_place_something_there_is_a_picture(id_: str) -> None:
    for step in GUIDES[id_].steps:
        if PLACES.match(step.do) and not PLACES_NOTHING.match(step.do):
            assert step.picture, step.do


@pytest.mark.parametrize("id_", GUIDES)
def test_no_caution_stands_twice_and_each_exists(id_: str) -> None:
    guide = GUIDES[id_]
    found = [*guide.cautions, *(step.caution for step in guide.steps if step.caution)]
    assert not [each for each, count in Counter(found).items() if count > 1]
    assert set(found) <= set(shelf().cautions)


@pytest.mark.parametrize("id_", shelf().cautions)
def test_a_caution_is_short_and_says_hazard_consequence_and_avoidance(id_: str) -> None:
    caution = shelf().cautions[id_]
    for part in (caution.title, caution.hazard, caution.consequence, caution.avoid):
        assert part
        for sentence in sentences(part):
            assert words(sentence) <= MOST_WORDS_OF_A_CAUTION, sentence


# ANSI Z535.6, as its practice is described: the word follows from how bad and how likely
@pytest.mark.parametrize(
    "harm, likelihood, word",
    [
        ("death-or-serious", "will", "danger"),
        ("death-or-serious", "could", "warning"),
        ("death-or-serious", "rare", "warning"),
        ("minor-or-moderate", "will", "caution"),
        ("minor-or-moderate", "could", "caution"),
        ("damage", "will", "notice"),
        ("damage", "could", "notice"),
    ],
)
def test_the_signal_word_follows_from_harm_and_likelihood(harm: str, likelihood: str, word: str) -> None:
    some = {"title": "t", "hazard": "h", "consequence": "c", "avoid": "a", "source": "common-practice[x]"}
    assert signal_word(Caution.model_validate({**some, "harm": harm, "likelihood": likelihood})) == word


def test_a_notice_never_has_the_alert_triangle_and_every_other_word_has() -> None:
    boxes = [
        (word, "#sign" in box)
        for body in care_bodies().values()
        for word, box in re.findall(r'class="hazard hazard--(\w+)"(.*?)hazard__do', body, re.DOTALL)
    ]
    assert {word for word, _ in boxes} == {"danger", "warning", "caution", "notice"}
    assert all(triangle == (word != "notice") for word, triangle in boxes)


@pytest.mark.parametrize("id_", GUIDES)
def test_no_number_is_typed_by_hand(id_: str) -> None:
    for text in texts_of(GUIDES[id_]):
        bare = NAMES.sub("", re.sub(r"\{\{.*?\}\}", "", text))
        assert not TYPED.search(bare), text
        assert not re.search(r"\d", bare), text


@pytest.mark.parametrize(
    "text", ["15 mm", "two turns", "3 %", "three times", "five per cent", "twenty pitches"]
)
def test_typed_numbers_are_found(text: str) -> None:
    assert TYPED.search(text)


@pytest.mark.parametrize("text", ["the second pin", "Step 3 of 5", "ISO 606", "both seals", "one screw"])
def test_ordinals_steps_and_standards_are_no_numbers(text: str) -> None:
    assert not TYPED.search(NAMES.sub("", text))


def test_figures_are_all_printed_somewhere_and_have_a_source() -> None:
    used = set(re.findall(r"n\.([a-z0-9_]+)", "".join(text for g in GUIDES.values() for text in texts_of(g))))
    of_tasks = {f for task in CARE.tasks.values() for f in (task.hours, task.months, task.distance) if f}
    for id_, figure in CARE.practices.items():
        name = id_.replace("-", "_")
        assert {name, f"{name}_low"} & used or id_ in of_tasks, f"nobody prints {id_}"
        assert figure.length is not None or figure.number is not None


def test_every_source_of_the_care_data_is_known() -> None:
    cited = [each.source for each in CARE.practices.values()]
    cited += [each.source for each in CARE.findings.values()] + [each.source for each in CARE.tasks.values()]
    for source in cited:
        match = re.fullmatch(SOURCE_PATTERN, source)
        assert match and match[1] in shelf().sources, source


@pytest.mark.parametrize("id_", GUIDES)
def test_each_word_of_the_trade_links_once(id_: str) -> None:
    body = care_bodies()[f"care/{id_}/"]
    links = re.findall(r'<a class="word" href="[^"]*glossary/#([\w-]+)"', body)
    assert links, "a page without a word of the trade"
    assert not [each for each, count in Counter(links).items() if count > 1]
    assert set(links) <= set(shelf().glossary)
    # every word that stands in the linked texts was linked
    guide = GUIDES[id_]
    read = [guide.lead, *(s.sign or "" for s in guide.steps), *guide.done_when, *guide.disagree]
    read += [text for each in guide.if_not for text in (each.sees, each.do)]
    finder = WordLinks(shelf().glossary, "")
    said = {
        shelf_id(match[1])
        for text in read
        for match in finder.pattern.finditer(re.sub(r"\{\{.*?\}\}", "", text))
    }
    assert said <= set(links)


def shelf_id(word: str) -> str:
    return next(id_ for id_, term in shelf().glossary.items() if term.title.lower() == word.lower())


@pytest.mark.parametrize("id_", GUIDES)
def test_the_page_prints_all_parts_in_order(id_: str) -> None:
    body = care_bodies()[f"care/{id_}/"]
    heads = [
        "<h1>",
        "<b>Who</b>",
        'class="hazard',
        'id="need"',
        'id="steps"',
        'id="done"',
        'id="if-not"',
        'id="where"',
    ]
    places = [body.index(head) for head in heads]
    assert places == sorted(places)
    assert body.count('class="step') - body.count('class="steps"') == len(GUIDES[id_].steps)
    assert "{{" not in body and "style=" not in body


@pytest.mark.parametrize("id_", GUIDES)
def test_a_caution_stands_before_the_step_it_guards(id_: str) -> None:
    body = care_bodies()[f"care/{id_}/"]
    for item, step in zip(
        re.findall(r'<li class="step.*?</li>', body, re.DOTALL), GUIDES[id_].steps, strict=True
    ):
        if step.caution:
            assert item.index("hazard") < item.index("<h3>")
            for part in ("hazard", "consequence", "avoid"):
                assert unescape(item).count(getattr(shelf().cautions[step.caution], part)) == 1


@pytest.mark.parametrize("path", sorted(DRAWINGS.glob("guide-*.svg")), ids=lambda path: path.stem)
def test_a_picture_is_ours_and_readable(path: Path) -> None:
    svg = path.read_text(encoding="utf-8")
    assert f"picture: {path.stem.removeprefix('guide-')}\n" in "".join(
        p.read_text("utf-8") for p in PAGES.glob("*.md")
    )
    assert 'role="img" aria-label="' in svg and 'viewBox="0 0 330 ' in svg
    assert "style=" not in svg and " id=" not in svg and "<script" not in svg and 'fill="#' not in svg
    labels = re.findall(r'<text class="d-text([^"]*)" x="([\d.]+)" y="[\d.]+">([^<]*)</text>', svg)
    assert len([text for *_, text in labels if not text.isdigit()]) <= 5
    for kind, x, text in labels:
        # bold letters of 16 units are 9.6 wide on average; nothing runs out of the frame
        width, at = 9.3 * len(text), float(x)
        left = at - (width / 2 if "d-mid" in kind else 0)
        assert left >= -4 and left + width <= 336, text


@pytest.mark.parametrize("id_", GUIDES)
def test_where_a_step_leads_there_is_a_page(id_: str) -> None:
    for step in GUIDES[id_].steps:
        if step.to:
            path, _, anchor = step.to[0].partition("#")
            assert f'"{path}"' in MENU, "an address that the menu has"
            assert not anchor or f'id="{anchor}"' in care_bodies()[path], step.to


def test_the_clubs_own_tools_stand_on_a_page_with_their_place() -> None:
    body = care_bodies()["care/pressing-a-side-plate/"]
    assert "tools/press-pocket/" in body and "sweep roll" in body
    assert "missing: hex key 5" in body
    assert demo().tools["press-pocket"].label in unescape(body)
