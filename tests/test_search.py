"""What people look for is found: the gold list through the index as it is published, and what the index holds.

The gold list was written by hand before the search; there is no outside source for it.
"""

import re
from collections import Counter
from dataclasses import replace
from functools import cache
from typing import Any

import pytest

from generator.model.shipped import RUNGS
from generator.render.base.page import Page
from generator.render.base.routes import pair_route
from generator.render.search.entry import shortened
from generator.render.search.index import FILE, STOP_WORDS, search_entries, search_index
from generator.render.search.pairs import DIGITS, verdict_said
from generator.render.search.words import LIST_WORDS
from generator.shipped import shipped_root
from tests.handbook import demo, demo_all, demo_book, demo_fits, demo_site, led_to, seen
from tests.search.gold import gold, marks
from tests.search.reckoned import Search, index_of
from tests.search.typed import one_off, typed

KINDS = ("size codes", "bag labels", "dimensions", "inch fractions", "trade words", "typos")


@cache
def script() -> str:
    found = next(asset.content for asset in demo_site().assets if asset.path == FILE)
    assert isinstance(found, str)
    return found


@cache
def index() -> dict[str, Any]:
    return index_of(script())


@cache
def search() -> Search:
    return Search(index())


def test_the_gold_list_is_whole() -> None:
    """No question is the title of the page it asks for, or the list would ask for the easy thing."""
    counts = Counter(row.kind for row in gold())
    assert len(gold()) >= 120
    assert {kind: counts[kind] for kind in KINDS if counts[kind] < 15} == {}
    assert {row.typo for row in gold() if row.kind == "typos"} == {"delete", "swap", "replace", "insert"}
    titles = {row[0]: row[1] for row in index()["docs"]}
    assert [row.ask for row in gold() if row.ask.casefold() == titles.get(row.find, "").casefold()] == []
    assert len({row.ask for row in gold()}) == len(gold())


def test_every_answer_of_the_gold_list_is_a_place_in_the_handbook() -> None:
    for row in gold():
        path, _, anchor = row.find.partition("#")
        assert not anchor or anchor in seen(path).ids, row


def test_the_gold_list_is_found() -> None:
    done = marks(search().find)
    print(done)
    assert done.first >= 0.98 * done.asked, str(done)
    assert done.third == done.asked, str(done)


def test_no_address_of_the_index_is_broken() -> None:
    paths = {page.path for page in demo_site().pages}
    for row in index()["docs"]:
        path, _, anchor = row[0].partition("#")
        assert path in paths, row[0]
        assert not anchor or anchor in seen(path).ids, row[0]


def test_every_page_but_those_of_pairs_is_in_the_index_once() -> None:
    """A pair is found by both its labels; pages written by hand are in the menu of every page."""
    found = Counter(row[0] for row in index()["docs"])
    assert set(found.values()) == {1}
    assert {page.path for page in demo_site().pages if page.kind != "pair"} <= set(found)


def test_both_labels_lead_to_the_pair_and_its_verdict() -> None:
    """Each pair of the demo, by the published index alone."""
    pages = {page.path for page in demo_site().pages}
    for fit in demo_fits():
        at = DIGITS.index(index()["pairs"][fit.chain][1][index()["links"].index(fit.link)])
        assert index()["says"][at // 2] == verdict_said(fit)
        assert (f"pairs/{fit.chain}/{fit.link}/" in pages) == bool(at % 2)
    for fit in demo_fits()[::17]:
        wanted = f"{fit.link}/" if fit.own_page else f"#{fit.link}"
        assert f"pairs/{fit.chain}/{wanted}" in search().find(f"{fit.link} on {fit.chain}")[:3]
        if not fit.own_page:
            assert fit.link in seen(f"pairs/{fit.chain}/").ids


def test_a_bike_and_a_link_lead_to_the_verdict_on_that_bike() -> None:
    """Each link on each bike, the panel of the bike addressed where its verdict is not that of the pair."""
    for bike, fits in demo_all().by_bike.items():
        chain, characters, panels = index()["pairs"][bike]
        assert chain == demo().bikes[bike].record.chain
        for fit in fits:
            at = DIGITS.index(characters[index()["links"].index(fit.link)])
            assert index()["verdicts"][at // 2] == fit.word, (bike, fit.link)
            if fit.own_page and fit.link in panels:
                assert panels[fit.link] in seen(f"pairs/{chain}/{fit.link}/").ids
    for text in ("b01 tin-3-red", "tin-3-red on b01", "B01 TIN 3 RED"):
        assert search().find(text)[0].startswith("pairs/blue-520/tin-3-red/"), text


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("lost clip", "clip-lost/"),
        ("clip lost", "clip-lost/"),
        ("which way round", "safety/#clip-direction"),
        ("0.625", "sizes/520/"),
        (".625", "sizes/520/"),
        (".5 in", "sizes/428/"),
    ],
)
def test_as_people_say_it(text: str, found: str) -> None:
    """What was typed into it by somebody who had not read the handbook."""
    assert found in search().find(text)[:3], search().find(text)[:5]


def test_codes_of_problems_come_last_unless_one_is_typed() -> None:
    kinds = {row[0]: index()["kinds"][row[2]] for row in index()["docs"]}
    for text in ("which way round", "clip", "length", "pin", "chain 520", "key"):
        found = [kinds.get(path, "pair") == "problem code" for path in search().find(text, most=40)]
        assert found == sorted(found), text
    assert search().find("L104")[0] == "problems/#L104"


def test_the_plates_of_the_list_have_the_outlines_of_the_pages() -> None:
    script = shipped_root().joinpath("site_overrides/assets/search.js").read_text(encoding="utf-8")
    shapes = shipped_root().joinpath("site_overrides/handbook/shapes.html").read_text(encoding="utf-8")
    for word in RUNGS:
        (drawn,) = re.findall(rf'id="v-{word}".*? d="([^"]+)"', shapes)
        assert f'"{word}": ["{drawn}"]' in script


def test_a_link_and_some_of_a_chain_lead_to_the_pair() -> None:
    """Where only a few chains have the word; `tin 3 red 520` could be any of several chains."""
    for text, chain, link in (
        ("tin-3-red blue", "blue-520", "tin-3-red"),
        ("blue tin-3-red", "blue-520", "tin-3-red"),
        ("tin 1 grey on the black", "black-525", "tin-1-grey"),
    ):
        assert search().find(text)[0].startswith(f"pairs/{chain}/") and link in search().find(text)[0], text
    for chain in demo().chains:
        word = chain.split("-")[0]
        if sum(word in other.split("-") for other in demo().chains) == 1:
            at = next(fit for fit in demo_fits() if (fit.chain, fit.link) == (chain, "tin-3-red"))
            assert search().find(f"tin-3-red {word}")[0] == pair_route(at)
    assert search().find("tin 3 red 520")[0] == "links/tin-3-red/"
    assert search().find("tin 3 red")[0] == "links/tin-3-red/"


def test_a_proper_pair_that_nobody_tried_says_so_in_the_list() -> None:
    proper = {verdict_said(fit) for fit in demo_fits() if fit.word == "proper"}
    tried, *untried = sorted(proper, key=lambda said: ":" in said)
    assert tried == "proper, dry-fitted"
    assert sorted(untried) == ["proper, by make: dry-fit first", "proper, by numbers: dry-fit first"]


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("17.3mm", "17.30 mm"),
        ("5/8", "5/8 in"),
        ('5/8"', "5/8 inch"),
        ("0.625 in", "0.625 inches"),
        ("25 1/2 in", "25½ in"),
        ("17,3 mm", "17.3 mm"),
        ("1/2-inch", "1/2 in"),
    ],
)
def test_one_length_many_spellings(one: str, other: str) -> None:
    assert typed(one).lengths[0].mm == typed(other).lengths[0].mm
    assert search().find(f"pin length {one}") == search().find(f"pin length {other}")


def test_inches_and_millimetres_are_one_thing() -> None:
    """5/8 in is 15.875 mm exactly (the inch of 25.4 mm); 17.30 mm is 0.681 in to a thousandth."""
    assert typed("5/8").lengths[0].mm == typed("15.875 mm").lengths[0].mm == 15.875
    inches, millimetres = typed("0.681 in").lengths[0], typed("17.30 mm").lengths[0]
    assert abs(inches.mm - millimetres.mm) <= inches.near


@pytest.mark.parametrize("heavy", ["520h", "520 h", "520H", "520MH", "520 mh", "520-mh", "520 heavy"])
def test_the_heavy_series_however_it_is_written(heavy: str) -> None:
    assert typed(heavy).words == ("520", "heavy")


def test_what_is_typed_never_breaks_the_search() -> None:
    for text in (
        "",
        " ",
        "zzzz",
        "x",
        "on",
        "5/0",
        "9" * 400,
        "<script>",
        "constructor",
        "__proto__",
        "½",
        "- -",
        "блок",
    ):
        search().find(text)
    assert search().find("zzzzzz") == []


def test_size_codes_are_never_mistaken_for_each_other() -> None:
    """One digit is another chain: digits are not forgiven as letters are."""
    assert "sizes/525/" not in search().find("523")
    assert search().find("52")[0].startswith(("sizes/52", "chains/"))


@pytest.mark.parametrize(
    ("wrong", "right"),
    [("cip", "clip"), ("clpi", "clip"), ("clap", "clip"), ("cllip", "clip"), ("lip", "clip")],
)
def test_one_letter_off(wrong: str, right: str) -> None:
    assert one_off(wrong, right)
    assert one_off(right, wrong)


@pytest.mark.parametrize(
    ("wrong", "right"), [("clip", "clip"), ("cpil", "clip"), ("cl", "clip"), ("calp", "clip")]
)
def test_not_one_letter_off(wrong: str, right: str) -> None:
    assert not one_off(wrong, right)


def test_a_code_or_a_caution_leads_to_its_own_place() -> None:
    assert search().find("L104")[0] == "problems/#L104"
    assert search().find("x301")[0] == "problems/#X301"
    assert search().find("clip direction")[0] == "safety/#clip-direction"
    assert "safety/#jet-wash" in search().find("pressure washer")[:3]


def test_the_words_of_the_lists_are_in_the_glossary() -> None:
    known = demo().shelf.glossary
    assert [word for words in LIST_WORDS.values() for word in words if word not in known] == []


def test_the_index_is_the_same_for_the_same_data() -> None:
    again = search_index(demo_book(), demo_site().pages)
    assert again.content == script()


def test_text_as_typed_cannot_end_the_script_or_its_line() -> None:
    """A line separator ended a string in scripts before 2019 (ECMA-262, 10th edition)."""
    hostile = Page("hostile/", "a\u2028b\u2029</script>", 'c"\\', "x", {}, ("d\u2028",))
    text = search_index(demo_book(), (hostile,)).content
    assert isinstance(text, str)
    assert "\u2028" not in text and "\u2029" not in text
    assert index_of(text)["docs"][0][1] == hostile.title


def test_parts_come_first_and_only_where_they_have_a_page() -> None:
    kinds = [entry.kind for entry in search_entries(demo(), demo_site().pages)]
    assert kinds[0] == "chain"
    without = [page for page in demo_site().pages if page.kind != "bike"]
    assert not [entry for entry in search_entries(demo(), without) if entry.path.startswith("bikes/b")]


def test_names_before_words_that_only_help() -> None:
    """A label outweighs the same word in a description."""
    page = next(page for page in demo_site().pages if page.kind == "safety")
    loud = replace(page, description="tin-3-red, tin-3-red and once more tin-3-red")
    pages = [loud if other is page else other for other in demo_site().pages]
    found = Search(index_of(str(search_index(demo_book(), pages).content))).find("tin 3 red")
    assert found[0] == "links/tin-3-red/"


def test_small_words_are_not_needed_and_do_no_harm() -> None:
    assert search().find("the tin 3 red on a bike") == search().find("tin 3 red bike")
    assert "in" in STOP_WORDS.split()


def test_descriptions_end_at_a_word() -> None:
    assert shortened("One. Two.") == "One"
    long = shortened("word " * 60)
    assert len(long) <= 112 and long.endswith("word …")


def test_there_is_a_way_without_scripts() -> None:
    """The plain list of all pages leads to everything that the search can find."""
    listed = {path for path, _ in led_to("pages/")}
    assert {row[0].partition("#")[0] for row in index()["docs"]} - {"pages/"} <= listed
