"""A club with so many pairs that each is said in few bytes: the same answers, nothing left out.

Outside source: the demo's own fits and ways, made short by lowering the number of pairs that counts as many.
"""

import json
import re
from collections.abc import Iterator

import pytest

from generator.compute.fit.by_bike import apart_on
from generator.compute.fit.fits import explain_pair
from generator.render import many
from generator.render.contract.fits_json import explain_document
from generator.render.page import Site
from generator.render.routes import pair_route
from generator.render.words.joint import clip_short
from generator.site.content import site_of
from tests.handbook import PAIR_SECTIONS, Seen, address, demo, demo_all, demo_fits, printed


@pytest.fixture(scope="module")
def short() -> Iterator[Site]:
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(many, "MANY_PAIRS", 0)
        yield site_of(demo())


@pytest.fixture(scope="module")
def bodies(short: Site) -> dict[str, str]:
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(many, "MANY_PAIRS", 0)
        return printed(short)


def words(html: str) -> str:
    return " ".join(re.sub("<[^>]*>", "", html).split())


def test_each_pair_of_a_family_keeps_its_page_with_every_answer(bodies: dict[str, str]) -> None:
    for fit in demo_fits():
        if fit.own_page:
            ids = Seen(bodies[pair_route(fit)]).ids
            found = [id_ for id_ in ids if id_ in PAIR_SECTIONS]
            assert found == [id_ for id_ in PAIR_SECTIONS if id_ in found], fit
            assert {"verdict", "why", "cut", "basis"} <= set(found)
            assert ("next" in found) == (fit.best != fit.worst or fit.refused is not None)
            assert ("all-checks" in found) == (fit.option is not None)


def test_every_check_and_every_way_is_named_with_both_units(bodies: dict[str, str]) -> None:
    ways = demo_all().ways
    rules = demo().shelf.joint_rules
    for fit in demo_fits():
        if not fit.own_page or fit.option is None:
            continue
        html = bodies[pair_route(fit)]
        joining = words(html[html.index('id="ways-of-joining"') : html.index('id="all-checks"')])
        checks = words(html[html.index('id="all-checks"') : html.index('id="basis"')])
        for check in fit.option.checks:
            assert rules[check.rule_id].title in checks, (fit.chain, fit.link, check.id)
        for way in ways[fit.chain, fit.link]:
            assert clip_short(way) in joining and rules[way.rule_id].title in joining
        assert len(re.findall(r"[0-9] mm \(", checks)) == len(re.findall(r"[0-9] in\)", checks))


def test_every_pair_is_led_to_from_the_page_of_its_chain(short: Site, bodies: dict[str, str]) -> None:
    for chain in demo().chains:
        at = f"pairs/{chain}/"
        led = {address(at, link)[0] for link in Seen(bodies[at]).links}
        ids = Seen(bodies[at]).ids
        for fit in demo_fits():
            if fit.chain == chain:
                assert fit.link in ids
                assert pair_route(fit) in led or not fit.own_page
    files = {asset.path for asset in short.assets}
    places = {page.path for page in short.pages}
    for path, html in bodies.items():
        for link in Seen(html).links:
            to = address(path, link)[0]
            assert to in places | files | {"safety/", "about/"} or "://" in link, (path, link)


def test_explain_gives_the_very_element_of_the_short_file(short: Site) -> None:
    fits = json.loads(next(str(a.content) for a in short.assets if a.path == "data/v1/fits.json"))["pairs"]
    assert len(fits) == len(demo_fits())
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(many, "MANY_PAIRS", 0)
        for found in fits[:: len(fits) // 7]:
            fit, options = explain_pair(demo(), found["chain"], found["link"])
            assert (
                json.loads(json.dumps(explain_document(demo(), fit, options, apart_on(demo(), fit))))["pair"]
                == found
            )
    for found in fits:
        for check in found["checks"]:
            assert check["edges"] == [] or check["id"] == found["deciding"]


def test_no_file_has_the_numbers_of_all_checks_twice(short: Site) -> None:
    names = [asset.path for asset in short.assets]
    assert len(set(names)) == len(names)
    assert not [name for name in names if "/tables/checks-" in name or "/tables/ways-" in name]
    assert not [name for name in names if re.search("/tables/(pairs-(?!by-)|chains-for-).*json", name)]
    for chain in demo().chains:
        assert f"data/v1/tables/pairs-{chain}.csv" in names


def test_a_short_page_stays_short(bodies: dict[str, str]) -> None:
    """6,845 pages of 60 chains x 200 links with their frames, and 65 MB of the rest, must stay below 150 MB."""
    sizes = [len(bodies[pair_route(fit)].encode()) for fit in demo_fits() if fit.own_page]
    assert sum(sizes) / len(sizes) < 9_500
