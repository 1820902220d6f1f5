"""A club with so many pairs that each is said in few bytes: the same answers, the numbers in a file.

Outside source: the demo's own fits and ways, made short by lowering the number of pairs that counts as many.
"""

import json
from collections.abc import Iterator

import pytest
from jsonschema import Draft7Validator

from generator.compute.fit.by_bike import apart_on
from generator.compute.fit.fits import explain_pair
from generator.compute.next_act import next_act
from generator.model import many
from generator.render.base.page import Site
from generator.render.base.routes import pair_route
from generator.render.contract.fits_json import explain_document
from generator.site.content import site_of
from tests.handbook import PAIR_SECTIONS, Seen, address, demo, demo_fits, demo_others, printed

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


def test_explain_gives_the_very_element_of_the_short_file(short: Site) -> None:
    fits = json.loads(next(str(a.content) for a in short.assets if a.path == "data/v1/fits.json"))["pairs"]
    assert len(fits) == len(demo_fits())
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(many, "MANY_PAIRS", 0)
        for found in fits[:: len(fits) // 7]:
            fit, options = explain_pair(demo(), found["chain"], found["link"])
            told = explain_document(demo(), fit, options, apart_on(demo(), fit), next_act(demo(), fit))
            assert json.loads(json.dumps(told))["pair"] == found
    for found in fits:
        for check in found["checks"]:
            in_full = check["id"] == found["deciding"]
            assert ("edges" in check) == in_full
            assert in_full or check.get("missing") != []
            assert ("clearance_mm" in check) == (in_full or "category" not in check)


def test_the_short_file_tells_every_check_that_holds_a_verdict_down(short: Site) -> None:
    found = json.loads(next(str(a.content) for a in short.assets if a.path == "data/v1/fits.json"))["pairs"]
    left_out = 0
    for fit, told in zip(demo_fits(), found, strict=True):
        checks = fit.option.checks if fit.option and fit.refused is None else ()
        kept = [check["id"] for check in told["checks"]]
        least = [c.id for c in checks if (c.best == 3 if fit.best == 3 else c.worst > 0)]
        assert set(least) <= set(kept) and kept == [c.id for c in checks if c.id in kept]
        assert len(kept) <= len(least) + 1
        left_out += len(checks) - len(kept)
    assert left_out > len(found)


def test_the_short_files_keep_to_their_schemas(short: Site) -> None:
    files = {a.path: str(a.content) for a in short.assets if a.path.endswith(".json")}
    for name in ("fits", "clip_links", "seal_fits", "plate_fits", "strip_fits", "tool_fits"):
        document = json.loads(files[f"data/v1/{name}.json"])
        thinned = {k: v[::11] if isinstance(v, list) and len(v) > 100 else v for k, v in document.items()}
        schema = json.loads(files[f"data/v1/schema/{name}.json"])
        assert list(Draft7Validator(schema).iter_errors(thinned)) == [], name


def test_a_short_page_stays_short(bodies: dict[str, str]) -> None:
    """6,816 pages of 60 chains x 200 links with their frames, and 50 MB of the rest, must stay below 150 MB."""
    sizes = [len(bodies[pair_route(fit)].encode()) for fit in demo_fits() if fit.own_page]
    assert sum(sizes) / len(sizes) < 9_300


def test_each_pair_of_a_family_keeps_its_page_with_every_answer(bodies: dict[str, str]) -> None:
    for fit in demo_fits():
        if fit.own_page:
            ids = Seen(bodies[pair_route(fit)]).ids
            found = [id_ for id_ in ids if id_ in PAIR_SECTIONS]
            assert found == [id_ for id_ in PAIR_SECTIONS if id_ in found], fit
            assert {"verdict", "why", "known"} <= set(found)
            # the numbers stand in the file, which the page leads to
            assert "numbers" not in found
            assert fit.option is None or 'data/v1/fits.json"' in bodies[pair_route(fit)]


def test_every_pair_is_led_to_from_the_page_of_its_chain(bodies: dict[str, str]) -> None:
    """As a row, or as a label under the check that rules it out."""
    for chain in demo().chains:
        at = f"pairs/{chain}/"
        led = {address(at, link)[0] for link in Seen(bodies[at]).links}
        ids = Seen(bodies[at]).ids
        for fit in demo_fits():
            if fit.chain == chain:
                assert pair_route(fit) in led or fit.link in ids, fit.link


def test_parts_that_one_check_brings_to_one_verdict_stand_under_its_name(bodies: dict[str, str]) -> None:
    for fit in demo_others().clip_links:
        assert f'<span class="tag">{fit.id_of("link")}</span>' in bodies[f"clips/{fit.id_of('clip')}/"]
