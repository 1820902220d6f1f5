"""The files of clips, seals, side plates, strips and tools: true to their schemas.

Outside source: JSON Schema draft-07, by a validator of its own; the engine's fits.
"""

import json
from collections.abc import Iterator
from functools import cache
from typing import Any

import pytest
from jsonschema import Draft7Validator

from generator.compute.others.table import other_fits
from generator.model.shipped import RUNGS
from generator.render.contract.others_json import other_documents
from generator.render.pages.reference.file_words import FILES
from tests.handbook import address, bodies, demo, demo_others, demo_site, seen
from tests.others_club import exact_club
from tests.page_tables import PageTables

NAMES = ("clip_links", "plate_fits", "seal_fits", "strip_fits", "tool_fits")


@cache
def site_files() -> dict[str, str]:
    """What the site has below data/v1/, by name."""
    return {
        asset.path.removeprefix("data/v1/"): asset.content
        for asset in demo_site().assets
        if isinstance(asset.content, str) and asset.path.startswith("data/v1/")
    }


@cache
def documents() -> dict[str, Any]:
    names = [f"{folder}{name}.json" for name in NAMES for folder in ("", "schema/")]
    return {name: json.loads(site_files()[name]) for name in names}


def thinned(document: dict[str, Any]) -> dict[str, Any]:
    """Every seventh of the entries of long lists: a validator takes its time."""
    return {
        name: value[::7] if isinstance(value, list) and len(value) > 100 else value
        for name, value in document.items()
    }


def each_met(entries: list[dict[str, Any]]) -> Iterator[dict[str, Any]]:
    """An entry for each link, or each chain and link, that one entry of the file speaks of."""
    for entry in entries:
        for link in entry.get("links", ()):
            yield entry | {"link": link}
        for chain, links in entry.get("chains", {}).items():
            for link in links:
                yield entry | {"chain": chain, "link": link}


def test_a_wrong_entry_breaks_its_schema() -> None:
    validator = Draft7Validator(documents()["schema/clip_links.json"])
    whole = thinned(documents()["clip_links.json"])
    for wrong in ({"best": 4}, {"word": "maybe"}, {"chain": "blue-520"}, {"checks": [{"id": "x"}]}):
        entry = whole["pairs"][0] | wrong
        assert not validator.is_valid(whole | {"pairs": [entry]}), wrong


@pytest.mark.parametrize("name", ["clip_links", "seal_fits", "plate_fits", "strip_fits", "tool_fits"])
def test_files_keep_to_their_schema(name: str) -> None:
    schema = documents()[f"schema/{name}.json"]
    Draft7Validator.check_schema(schema)
    document = documents()[f"{name}.json"]
    assert list(Draft7Validator(schema).iter_errors(thinned(document))) == []
    assert document["schema"] == f"{name}/1"
    assert document["data_version"] == demo().data_version
    assert document["as_of"] == demo().as_of.isoformat()


def test_files_hold_every_fit_sorted() -> None:
    found, others = documents(), demo_others()
    for name, key, kind, fits in (
        ("clip_links", "pairs", "clip", others.clip_links),
        ("seal_fits", "joints", "seal", others.seals),
        ("strip_fits", "neighbours", "strip", others.neighbours),
    ):
        entries = found[f"{name}.json"][key]
        assert [entry[kind] for entry in entries] == sorted(entry[kind] for entry in entries)
        meetings = [(e[kind], e.get("chain"), e["link"]) for e in each_met(entries)]
        assert len(set(meetings)) == len(meetings) == len(fits), name
    assert len(found["tool_fits.json"]["keys"]) == len(others.keys)


def test_words_and_rungs_in_files_agree() -> None:
    for name, document in documents().items():
        if name.startswith("schema/"):
            continue
        for each in (
            e for part in document.values() if isinstance(part, list) for e in part if isinstance(e, dict)
        ):
            best, worst = each["best"], each["worst"]
            assert (best is None) == (worst is None) == (each["refused"] is not None)
            if best is None:
                assert each["word"] == "cannot-judge"
            else:
                assert each["word"] == (RUNGS[best] if best == worst else "measure-first")


def test_a_difference_of_elongation_is_in_per_cent() -> None:
    document = other_documents(exact_club(), other_fits(exact_club()))["strip_fits"]
    (pair,) = document["pairs"]
    check = next(each for each in pair["checks"] if each["id"] == "strip-elongation")
    assert check["clearance_mm"] is None
    # 0.1 - 0.4, every dimension of that club exact
    assert check["clearance_percent"] == {"low": -0.3, "nominal": -0.3, "high": -0.3}
    assert {edge["at_percent"] for edge in check["edges"]} == {-0.5, 0.5, -2.0, 2.0, -100.0, 100.0}


def test_the_downloads_page_tells_each_file_and_its_schema() -> None:
    rows = {row[0].text: row for row in PageTables(bodies()["downloads/"]).found["files"].rows}
    for name in NAMES:
        assert FILES[f"{name}.json"] in [cell.text for cell in rows[f"{name}.json"]]
        assert {f"data/v1/{name}.json", f"data/v1/schema/{name}.json"} <= {
            address("downloads/", to)[0] for to in seen("downloads/").links
        }


def test_where_pairs_are_many_a_file_has_the_deciding_check_of_all_that_may_go_together(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr("generator.model.many.MANY_PAIRS", 0)
    brief = other_documents(demo(), demo_others())
    for name, kind in (("clip_links", "clip"), ("plate_fits", "plate")):
        whole, told = (
            {(e[kind], e["link"]): e for e in every_pair(doc)}
            for doc in (documents()[f"{name}.json"], brief[name])
        )
        may_go = {meeting: entry for meeting, entry in whole.items() if entry["best"] != 3}
        assert 0 < len(may_go) < len(whole)
        assert set(told) == set(may_go)
        for meeting, full in may_go.items():
            deciding = [without_empty(c) for c in full["checks"] if c["id"] == full["deciding"]]
            for short in (told[meeting], full):
                short.pop("links", None)
            assert told[meeting] == full | {"checks": deciding}


def without_empty(check: dict[str, Any]) -> dict[str, Any]:
    left_out = ("edges", *(["clearance_mm"] if "category" in check else []))
    return {name: value for name, value in check.items() if name not in left_out and value != []}


def every_pair(document: dict[str, Any]) -> Iterator[dict[str, Any]]:
    for entry in document["pairs"]:
        yield from each_met([entry]) if "links" in entry else (dict(entry),)


def test_what_reads_alike_is_said_once() -> None:
    document = documents()
    for name, key in (("clip_links", "pairs"), ("seal_fits", "joints"), ("strip_fits", "neighbours")):
        entries = document[f"{name}.json"][key]
        said_ = [{k: v for k, v in e.items() if k not in ("links", "chains")} for e in entries]
        assert len({json.dumps(e, sort_keys=True) for e in said_}) == len(entries)
