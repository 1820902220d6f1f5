"""A club with so many pairs that each is said in few bytes: the same answers, nothing left out.

Outside source: the demo's own fits and ways, made short by lowering the number of pairs that counts as many.
"""

import json
import re
from collections.abc import Iterator

import pytest
from jsonschema import Draft7Validator

from generator.compute.fit.by_bike import apart_on
from generator.compute.fit.fits import explain_pair
from generator.model.shipped import NO_GO
from generator.render import many
from generator.render.base.page import Site
from generator.render.base.routes import pair_route
from generator.render.base.verdicts import range_in_words
from generator.render.contract.fits_json import explain_document
from generator.render.say.joint import clip_short
from generator.site.content import site_of
from tests.handbook import PAIR_SECTIONS, Seen, address, demo, demo_all, demo_fits, demo_others, printed
from tests.page_tables import PageTables

pytestmark = pytest.mark.long


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


def rows_of(body: str, table: str) -> list[list[str]]:
    """Texts of the cells, a verdict by its range, of a table that may not be there."""
    found = PageTables(body).found.get(table)
    rows = found.rows if found else []
    return [[cell.span.strip() or cell.text.strip() for cell in row] for row in rows]


def lines_of(body: str, list_: str) -> list[list[str]]:
    """Check, verdict by its range, and the texts after the colons of its paragraphs, of a list that may not be there."""
    found = re.search(f'<ul id="{list_}".*?</ul>', body, re.DOTALL)
    lines = re.findall("<li>(.*?)</li>", found[0], re.DOTALL) if found else []
    return [_line(line) for line in lines]


def _line(html: str) -> list[str]:
    verdict, rest = html.split("</b></span>", 1)
    check, *paragraphs = rest.split("<p>")
    span = re.search("<i>(.*)</i>", verdict)
    said = span[1] if span else verdict
    return [words(check), words(said), *(words(each).split(": ", 1)[1] for each in paragraphs)]


def ranges(best: int | None, worst: int | None) -> str:
    return "cannot judge" if best is None or worst is None else range_in_words(best, worst)


def test_links_that_one_check_brings_to_one_verdict_share_a_row_of_their_clip(bodies: dict[str, str]) -> None:
    wanted = {
        (fit.id_of("clip"), fit.id_of("link"), ranges(fit.best, fit.worst))
        for fit in demo_others().clip_links
        if fit.best != NO_GO
    }
    rows = {clip: lines_of(bodies[f"clips/{clip}/"], f"clip-{clip}-links") for clip in demo().clips}
    found = [
        (clip, link, verdict)
        for clip, rows_ in rows.items()
        for _, verdict, links in rows_
        for link in links.split(", ")
    ]
    assert len(set(found)) == len(found) and set(found) == wanted
    assert sum(map(len, rows.values())) < len(wanted) / 2
    for clip, link, _ in found:
        assert f'href="../../links/{link}/"' in bodies[f"clips/{clip}/"]


def test_chains_and_links_that_a_seal_fits_alike_share_a_row(bodies: dict[str, str]) -> None:
    wanted = {
        (fit.id_of("seal"), fit.id_of("chain"), fit.id_of("link"), ranges(fit.best, fit.worst))
        for fit in demo_others().seals
        if fit.best != NO_GO
    }
    rows = {seal: lines_of(bodies[f"seals/{seal}/"], f"seal-{seal}-joints") for seal in demo().seals}
    found = [
        (seal, chain, link, verdict)
        for seal, rows_ in rows.items()
        for _, verdict, chains, links in rows_
        for chain in chains.split(", ")
        for link in links.split(", ")
    ]
    assert len(set(found)) == len(found) and set(found) == wanted


def test_chains_that_a_link_joins_a_strip_to_alike_share_a_row(bodies: dict[str, str]) -> None:
    wanted = {
        (fit.strip, fit.link, fit.chain, ranges(fit.best, fit.worst), fit.clip or "none")
        for fit in demo_others().neighbours
        if fit.best != NO_GO
    }
    found = [
        (strip, link, chain, verdict, clip)
        for strip in demo().strips
        for link, verdict, chains, clip, *_ in rows_of(bodies[f"strips/{strip}/"], f"strip-{strip}-links")
        for chain in chains.split(", ")
    ]
    assert len(set(found)) == len(found) and set(found) == wanted


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
            in_full = check["id"] == found["deciding"]
            assert ("edges" in check) == in_full
            assert in_full or check.get("missing") != []
            assert ("clearance_mm" in check) == (in_full or "category" not in check)


def test_the_short_files_keep_to_their_schemas(short: Site) -> None:
    files = {a.path: str(a.content) for a in short.assets if a.path.endswith(".json")}
    for name in ("fits", "clip_links", "seal_fits", "plate_fits", "strip_fits", "tool_fits"):
        document = json.loads(files[f"data/v1/{name}.json"])
        thinned = {k: v[::11] if isinstance(v, list) and len(v) > 100 else v for k, v in document.items()}
        schema = json.loads(files[f"data/v1/schema/{name}.json"])
        assert list(Draft7Validator(schema).iter_errors(thinned)) == [], name


def test_no_file_has_the_numbers_of_all_checks_twice(short: Site) -> None:
    names = [asset.path for asset in short.assets]
    assert len(set(names)) == len(names)
    assert not [name for name in names if "/tables/checks-" in name or "/tables/ways-" in name]
    assert not [name for name in names if re.search("/tables/(pairs-(?!by-)|chains-for-).*json", name)]
    for chain in demo().chains:
        assert f"data/v1/tables/pairs-{chain}.csv" in names


def test_a_short_page_stays_short(bodies: dict[str, str]) -> None:
    """6,816 pages of 60 chains x 200 links with their frames, and 50 MB of the rest, must stay below 150 MB."""
    sizes = [len(bodies[pair_route(fit)].encode()) for fit in demo_fits() if fit.own_page]
    assert sum(sizes) / len(sizes) < 9_300
