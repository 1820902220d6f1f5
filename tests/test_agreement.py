"""Bike, pair, search, grid and JSON say the same of every link on every bike of the demo.

Outside source: none; each place is read out of what is printed, the JSON is what the contract publishes.
"""

import json
import re
from functools import cache
from typing import Any

import pytest

from generator.render.base.routes import pair_route
from generator.render.pages.fit_rows import pair_at
from generator.render.search.pairs import DIGITS, pair_grid, verdict_said
from tests.handbook import bodies, demo, demo_all, demo_book, demo_fits, demo_site

ROW = re.compile(
    r'<span class="plate fit__plate v-([a-z-]+)">.*?<span class="tag">([a-z0-9-]+)</span>', re.DOTALL
)
PANEL = re.compile(
    r'<div class="panels__one"(?: id="([a-z0-9-]+)")?>.*?<div class="plate panel v-([a-z-]+)"', re.DOTALL
)
CELL = re.compile(r'<a class="cell v-([a-z-]+)" href="([^"]+)"')


@cache
def published() -> dict[tuple[str, str], dict[str, Any]]:
    text = next(str(a.content) for a in demo_site().assets if a.path == "data/v1/fits.json")
    return {(pair["chain"], pair["link"]): pair for pair in json.loads(text)["pairs"]}


def words_of(body: str) -> dict[str, str]:
    """The word of every row by its label."""
    return {tag: word for word, tag in ROW.findall(body)}


def of_json(bike: str, chain: str, link: str) -> str:
    pair = published()[chain, link]
    word: str = next((each["word"] for each in pair["by_bike"] if each["bike"] == bike), pair["word"])
    return word


@pytest.mark.parametrize("bike", sorted(demo().bikes))
def test_a_bike_says_what_the_contract_says(bike: str) -> None:
    """A row, or a label among those that one check rules out, for every link of the club."""
    chain, body = demo().bikes[bike].record.chain, bodies()[f"bikes/{bike}/"]
    rows = words_of(body)
    for fit in demo_all().by_bike[bike]:
        word = of_json(bike, chain, fit.link)
        if fit.link in rows:
            assert rows[fit.link] == word, fit.link
        else:
            assert not fit.own_page and f'<span class="tag">{fit.link}</span>' in body, fit.link
            assert word in ("no-go", "cannot-judge")


@pytest.mark.parametrize("bike", sorted(demo().bikes))
def test_a_pair_opens_at_the_verdict_of_the_bike(bike: str) -> None:
    """The panel that the row of the bike leads to, or the only one there is; the first to be seen either way."""
    chain = demo().bikes[bike].record.chain
    for fit in demo_all().by_bike[bike]:
        pair = next(each for each in demo_book().of_chain[chain] if each.link == fit.link)
        path, _, panel = pair_at(demo_book(), pair, bike).partition("#")
        if fit.own_page:
            panels = dict(PANEL.findall(bodies()[path]))
            assert panels[panel] == of_json(bike, chain, fit.link), (bike, fit.link)


def test_a_bike_that_differs_has_a_panel_of_its_own() -> None:
    apart = [pair for pair in published().values() if pair["by_bike"]]
    assert apart
    for pair in apart:
        path = pair["page"]
        if "#" not in path and path in bodies():
            assert len(PANEL.findall(bodies()[path])) == len(
                {each["word"] for each in pair["by_bike"]}
            ) or len(PANEL.findall(bodies()[path])) == len(
                {(each["best"], each["worst"]) for each in pair["by_bike"]}
            )


def test_the_grid_says_what_the_contract_says() -> None:
    cells = {address.replace("../", ""): word for word, address in CELL.findall(bodies()["pairs/"])}
    told = 0
    for fit in demo_fits():
        if fit.own_page:
            at = pair_route(fit).removeprefix("pairs/")
            assert cells[at] == published()[fit.chain, fit.link]["word"], at
            told += 1
    assert told > 300


def test_the_search_says_what_the_contract_says() -> None:
    """Both labels typed together lead to the verdict of that bike, or of the chain."""
    grid = pair_grid(demo_book())
    for bike, fits in demo_all().by_bike.items():
        _, characters, _ = grid.rows[bike]
        for fit in fits:
            place = DIGITS.index(characters[grid.links.index(fit.link)]) // 2
            assert grid.words[place] == of_json(bike, fit.chain, fit.link)
            assert grid.says[place] == verdict_said(fit)


@pytest.mark.parametrize("kind", ["chains", "links"])
def test_chain_and_link_pages_say_what_the_contract_says(kind: str) -> None:
    for fit in demo_fits():
        id_, other = (fit.chain, fit.link) if kind == "chains" else (fit.link, fit.chain)
        rows = words_of(bodies()[f"{kind}/{id_}/"])
        if other in rows:
            assert rows[other] == published()[fit.chain, fit.link]["word"], (fit.chain, fit.link)


def test_no_page_of_a_part_prints_a_better_word_than_the_joint() -> None:
    """Of every clip and link: the best joint of any chain with both is no worse than the word beside the link."""
    order = ["proper", "get-home", "last-resort", "no-go"]
    told = 0
    for clip in demo().clips:
        for link, word in words_of(bodies()[f"clips/{clip}/"]).items():
            if word not in order:
                continue
            ways = [
                way
                for (_, id_), all_ in demo_all().ways.items()
                if id_ == link
                for way in all_
                if way.clip == clip
            ]
            assert word == "no-go" or any(order.index(word) >= way.worst for way in ways), (clip, link)
            told += 1
    assert told > 50
