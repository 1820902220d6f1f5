"""Records, fits and the catalogue as files to take away: each document true to its schema, every reading there.

Outside source: JSON Schema draft-07, by a validator of its own; the records of the demo, as the loader read them.
"""

import json
from datetime import date
from functools import cache
from typing import Any

import pytest
from jsonschema import Draft7Validator

from generator.compute.fit.by_bike import apart_on
from generator.compute.fit.fits import explain_pair
from generator.compute.next_act import next_act
from generator.model.club import RuleOverride
from generator.problems import Place, Problem
from generator.problems.catalogue import CatalogueEntry
from generator.problems.report import json_report
from generator.render.contract.fits_json import explain_document
from generator.render.downloads.files import data_files
from generator.render.downloads.record_files import record_documents
from generator.render.schema.club import club_schemas
from generator.render.schema.contract import contract_schemas
from tests.clubs import CLUB_KINDS, KIND_OF
from tests.handbook import demo, demo_all, demo_fits

ENTRY = CatalogueEntry(
    "L104", "No unit", "error", "why", "fix", {"links.yaml": "a: 1"}, {"links.yaml": "a"}, "links.yaml:1:1"
)


@cache
def files() -> dict[str, Any]:
    assets = data_files(demo(), demo_all(), {"L104": ENTRY})
    return {asset.path.removeprefix("data/v1/"): json.loads(asset.content) for asset in assets}


def test_every_document_stands_beside_its_schema_and_follows_it() -> None:
    documents = {name: value for name, value in files().items() if not name.startswith("schema/")}
    of_the_club = {kind.file.rsplit(".", 1)[0] for kind in CLUB_KINDS if kind is not RuleOverride}  # type: ignore[attr-defined]
    assert {f"{name}.json" for name in of_the_club | {"overrides", "sizes", "fit_rules", "sources"}} <= set(
        documents
    )
    for name, value in documents.items():
        schema = files()[f"schema/{name}"]
        Draft7Validator.check_schema(schema)
        Draft7Validator(schema).validate(value)
        assert value["schema"] == schema["title"] == f"{name.removesuffix('.json')}/1"


def test_only_what_a_command_writes_has_a_schema_without_a_file() -> None:
    schemas = {name.removeprefix("schema/") for name in files() if name.startswith("schema/")}
    of_the_club = {f"club/{name}" for name in club_schemas()}
    assert schemas - set(files()) == {"explain.json", "check.json", "cards.json"} | of_the_club


def test_keys_are_sorted_and_the_day_and_version_are_there() -> None:
    assert list(files()["chains.json"]) == sorted(files()["chains.json"])
    for name, value in files().items():
        if not name.startswith("schema/"):
            assert (value["as_of"], value["data_version"]) == ("2027-03-01", demo().data_version)


def test_a_length_is_published_as_the_engine_uses_it() -> None:
    by_id = {chain["id"]: chain for chain in files()["chains.json"]["chains"]}
    assert list(by_id) == sorted(demo().chains)
    bore = by_id["blue-520"]["bush_bore"]
    assert bore == {
        "low_mm": 5.28,
        "nominal_mm": 5.3,
        "high_mm": 5.32,
        "evidence": "measured",
        "source": None,
        "as_written": "5.30 ± 0.02 mm",
    }


def test_every_known_dimension_of_every_part_is_published() -> None:
    documents = record_documents(demo())
    for kind in KIND_OF:
        published = {record["id"]: record for record in documents[f"{kind}.json"][kind]}
        for id_, part in getattr(demo(), kind).items():
            known = {
                name
                for name, value in published[id_].items()
                if isinstance(value, dict) and "evidence" in value
            }
            # an elongation is published as it was typed; wear.json has what the wear log says
            assert known == set(part.dims) - {"elongation"}
            for name in sorted(known):
                quantity = part.dims[name]
                base, unit = (
                    (1_000, "g")
                    if name in ("mass", "carries")
                    else (1_000_000, "kn" if name == "tensile" else "mm")
                )
                ends = [published[id_][name][f"{end}_{unit}"] for end in ("low", "nominal", "high")]
                assert [round(end * base) for end in ends] == [quantity.low, quantity.nominal, quantity.high]


def test_what_was_worked_out_says_so_and_unknown_is_null() -> None:
    chains = {chain["id"]: chain for chain in files()["chains.json"]["chains"]}
    derived = [
        id_
        for id_, chain in chains.items()
        if chain["between_outer_plates"] and chain["between_outer_plates"]["as_written"] is None
    ]
    assert derived and all(demo().chains[id_].record.between_outer_plates is None for id_ in derived)
    unknown = [
        id_
        for id_, part in demo().seals.items()
        if part.record.thickness and part.record.thickness.is_unknown
    ]
    seals = {seal["id"]: seal for seal in files()["seals.json"]["seals"]}
    assert unknown and all(seals[id_]["thickness"] is None for id_ in unknown)


def test_contradicting_values_are_published_with_their_reason() -> None:
    sizes = {size["id"]: size for size in files()["sizes.json"]["sizes"]}
    others = sizes["520"]["other_readings"]
    assert {other["is"]["as_written"] for other in others} >= {"6.35 mm", "12.7 mm"}
    assert all(other["because"] and other["source"] for other in others)


def test_an_explanation_follows_its_schema_for_every_kind_of_pair() -> None:
    checker = Draft7Validator(contract_schemas()["explain"])
    one_a_word = {fit.word: fit for fit in demo_fits() if fit.chain in ("blue-520", "grey-520")}
    assert len(one_a_word) >= 5
    for fit in one_a_word.values():
        pair, options = explain_pair(demo(), fit.chain, fit.link)
        found = explain_document(demo(), pair, options, apart_on(demo(), pair), next_act(demo(), pair))
        checker.validate(json.loads(json.dumps(found)))


def test_the_report_of_a_check_follows_its_schema() -> None:
    place = Place("links.yaml", 14, 14, 21)
    problem = Problem(
        "L104", "no unit", place, ("tin-3-red", "pin_reach"), did_you_mean="mm", related=(place,)
    )
    report = json.loads(json_report([problem], 9, {"L104": ENTRY}))
    checker = Draft7Validator(contract_schemas()["check"])
    checker.validate(report)
    assert not checker.is_valid(report | {"problems": [report["problems"][0] | {"line": 0}]})
    assert not checker.is_valid({name: value for name, value in report.items() if name != "ok"})


@pytest.mark.parametrize(
    ("name", "value"),
    [("word", "fine"), ("best", 4), ("checks", None), ("evidence", "guessed"), ("spare", 1)],
)
def test_a_wrong_pair_breaks_the_schema_of_fits(name: str, value: object) -> None:
    document = files()["fits.json"]
    checker = Draft7Validator(files()["schema/fits.json"])
    assert not checker.is_valid(document | {"pairs": [document["pairs"][0] | {name: value}]})


def test_dates_of_trials_are_dates() -> None:
    for trial in files()["trials.json"]["trials"]:
        assert date.fromisoformat(trial["on"]) <= demo().as_of
