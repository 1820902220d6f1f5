"""Files to take away: the same cells as the page, safe in a spreadsheet, each document true to its schema.

Outside sources: RFC 4180 (line ends, quotes); the list of characters that start a formula is the one of the
OWASP page on CSV injection, from memory.
"""

import csv
import io
import json
from datetime import date
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from jsonschema import Draft7Validator

from generator.compute.all_fits import all_fits
from generator.compute.fit.fits import explain_pair, fit_table
from generator.load.folder import load_club, load_shelf
from generator.model.club import RuleOverride
from generator.model.dataset import Dataset
from generator.problems import Place, Problem
from generator.problems.catalogue import CatalogueEntry
from generator.problems.report import json_report
from generator.render.contract.fits_json import explain_document
from generator.render.downloads.csv_text import csv_cell, csv_text, decimal_text, harmless
from generator.render.downloads.data_table import data_table, slug
from generator.render.downloads.files import data_files, files_of_tables
from generator.render.downloads.record_files import record_documents
from generator.render.downloads.table_files import table_files, tables_in
from generator.render.lengths import shown_length
from generator.render.page import Page
from generator.render.schema.club import club_schemas
from generator.render.schema.contract import contract_schemas
from generator.render.table import Cell, Column, Download, Row, Table
from generator.render.verdicts import shown_verdict
from generator.validate.dataset import build_dataset
from tests.clubs import CLUB_KINDS

ROOT = Path(__file__).parents[1]
ENTRY = CatalogueEntry(
    "L104", "No unit", "error", "why", "fix", {"links.yaml": "a: 1"}, {"links.yaml": "a"}, "links.yaml:1:1"
)


@cache
def demo() -> Dataset:
    dataset, _ = build_dataset(load_club(ROOT / "data/demo"), load_shelf(ROOT / "data"))
    assert dataset is not None
    return dataset


@cache
def files() -> dict[str, Any]:
    assets = data_files(demo(), all_fits(demo()), {"L104": ENTRY})
    return {asset.path.removeprefix("data/v1/"): json.loads(asset.content) for asset in assets}


# --- tables ---


def sample() -> Table:
    columns = (
        Column("Connecting link", "head"),
        Column("Verdict", "verdict"),
        Column("Clearance", "number"),
        Column("Elongation", "number"),
        Column("Chain"),
        Column("What to do"),
    )
    rows = (
        Row(
            (
                Cell("tin-3-red", to="links/tin-3-red/", note="red bag"),
                Cell(verdict=shown_verdict("measure-first", 0, 3)),
                Cell(length=shown_length(-130_001)),
                Cell("0.4 %"),
                Cell("520"),
                Cell(said=("file off ", shown_length(50_000), ", then look")),
            ),
            id="tin-3-red",
        ),
        Row(
            (
                Cell('=HYPERLINK("x")'),
                Cell(verdict=shown_verdict("no-go", 3, 3)),
                Cell("not known"),
                Cell("unknown"),
                Cell("-0.13"),
                Cell(),
            ),
            id="second",
        ),
    )
    return Table("sample", "Links, a sample", columns, rows)


def test_a_table_becomes_columns_with_units_and_nothing_is_lost() -> None:
    table = data_table(sample())
    assert [column.name for column in table.columns] == [
        "id",
        "connecting_link",
        "connecting_link_note",
        "verdict",
        "verdict_range",
        "clearance_mm",
        "clearance_text",
        "elongation_percent",
        "elongation_text",
        "chain",
        "what_to_do",
    ]
    first, second = table.rows
    assert first == (
        "tin-3-red", "tin-3-red", "red bag", "measure-first", "proper to no-go", Fraction(-130_001, 10**6), None,
        Fraction(2, 5), None, "520", "file off 0.05 mm, then look",
    )  # fmt: skip
    assert second == (
        "second", '=HYPERLINK("x")', None, "no-go", None, None, "not known", None, "unknown", "-0.13", None
    )  # fmt: skip


def test_csv_and_json_hold_the_same_cells() -> None:
    csv_asset, json_asset, schema_asset = table_files(sample(), demo())
    assert [a.path for a in (csv_asset, json_asset, schema_asset)] == [
        "data/v1/tables/sample.csv",
        "data/v1/tables/sample.json",
        "data/v1/schema/tables/sample.json",
    ]
    assert isinstance(csv_asset.content, str)
    lines = list(csv.DictReader(io.StringIO(csv_asset.content, newline=""), strict=True))
    document = json.loads(json_asset.content)
    Draft7Validator(json.loads(schema_asset.content)).validate(document)
    assert document["schema"] == "tables/sample/1" and document["data_version"] == demo().data_version
    assert lines[0]["clearance_mm"] == "-0.130001" and document["rows"][0]["clearance_mm"] == -0.130001
    assert lines[1]["connecting_link"] == "'" + document["rows"][1]["connecting_link"]
    for line, row in zip(lines, document["rows"], strict=True):
        for name, value in row.items():
            assert line[name] == ("" if value is None else csv_cell(as_value(value)))


def as_value(value: str | float) -> str | Fraction:
    return value if isinstance(value, str) else Fraction(str(value))


def test_a_wrong_row_breaks_the_schema_of_its_table() -> None:
    _, json_asset, schema_asset = table_files(sample(), demo())
    document = json.loads(json_asset.content)
    checker = Draft7Validator(json.loads(schema_asset.content))
    for name, value in (("clearance_mm", "0.1"), ("verdict", 1), ("spare", 1)):
        broken = document | {"rows": [document["rows"][0] | {name: value}]}
        assert not checker.is_valid(broken)


def test_lines_end_as_the_rfc_asks_and_quotes_are_doubled() -> None:
    columns = (Column("Bag", "head"), Column("Note"))
    table = Table("t", "t", columns, (Row((Cell('a "b"'), Cell("two\nlines, one cell"))),))
    assert csv_text(data_table(table)) == 'bag,note\r\n"a ""b""","two\nlines, one cell"\r\n'


@pytest.mark.parametrize(
    "text", ["=1+1", "+1", "-x", "@sum", "\tx", "\rx", "\nx", "-1+1", "- 5", "＝1", "--1", "-.5"]
)
def test_what_a_spreadsheet_would_run_is_disarmed(text: str) -> None:
    assert harmless(text) == "'" + text


@pytest.mark.parametrize("text", ["-0.13", "-7", "0.5", "a=b", "5/8 in", "'x", "±0.02", ""])
def test_plain_numbers_and_plain_text_stay(text: str) -> None:
    assert harmless(text) == text


@given(st.text(st.characters(codec="utf-8", exclude_characters="\0"), max_size=40))
def test_any_text_comes_back_from_csv_but_for_the_apostrophe(text: str) -> None:
    table = Table("t", "t", (Column("Bag", "head"), Column("Note")), (Row((Cell("x"), Cell(text))),))
    _, (_, back) = csv.reader(io.StringIO(csv_text(data_table(table)), newline=""), strict=True)
    assert back in (text, "'" + text)
    assert not back.startswith(("=", "+", "@", "\t", "\r")) and back == harmless(text)


@given(st.integers(-(10**12), 10**12))
def test_a_length_keeps_every_nanometre_and_reads_as_on_the_page(nm: int) -> None:
    cell = Cell(length=shown_length(nm))
    table = data_table(Table("t", "t", (Column("Reach", "number"),), (Row((cell,)),)))
    (value,) = table.rows[0]
    assert table.columns[0].name == "reach_mm"
    assert isinstance(value, Fraction) and value * 10**6 == nm
    assert Fraction(decimal_text(value)) == value and "E" not in decimal_text(value)
    shown = cell.length.mm.removesuffix(" mm").replace("\N{MINUS SIGN}", "-") if cell.length else ""
    decimals = len(shown.split(".")[1])
    assert abs(Fraction(shown) - value) <= Fraction(1, 2 * 10**decimals)


def test_columns_of_one_title_are_told_apart() -> None:
    columns = (Column("Bag", "head"), Column("Low"), Column("Low"))
    table = data_table(Table("t", "t", columns, (Row((Cell("a"), Cell("b"), Cell("c"))),)))
    assert [column.name for column in table.columns] == ["bag", "low", "low_2"]


@pytest.mark.parametrize(
    ("title", "name"), [("± inside, %", "plus_minus_inside_percent"), ("At most", "at_most"), ("?", "column")]
)
def test_titles_become_names(title: str, name: str) -> None:
    assert slug(title) == name


def test_a_column_of_mixed_units_stays_text() -> None:
    rows = (Row((Cell("12 g"),)), Row((Cell("3 kN"),)))
    table = data_table(Table("t", "t", (Column("Mass", "number"),), rows))
    assert (table.columns[0].kind, table.rows) == ("text", (("12 g",), ("3 kN",)))


def test_tables_are_found_however_deep_and_written_once() -> None:
    own = tuple(Download(kind, f"data/v1/tables/deep.{kind}") for kind in ("csv", "json"))
    deep = Table("deep", "deep", (Column("Bag", "head"),), (Row((Cell("a"),)),), own)
    part = Table("part", "part of a larger one", deep.columns, deep.rows, own)
    pages = [
        Page("a/", "a", "a", "t", {"groups": {"one": [("x", deep)]}}),
        Page("b/", "b", "b", "t", {"table": deep, "part": part}),
    ]
    assert list(tables_in(pages[1].context)) == [deep, part]
    assert [asset.path for asset in files_of_tables(demo(), pages)] == [
        "data/v1/schema/tables/deep.json",
        "data/v1/tables/deep.csv",
        "data/v1/tables/deep.json",
    ]


# --- records, fits, catalogue ---


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


def test_only_explain_and_check_have_a_schema_without_a_file() -> None:
    schemas = {name.removeprefix("schema/") for name in files() if name.startswith("schema/")}
    of_the_club = {f"club/{name}" for name in club_schemas()}
    assert schemas - set(files()) == {"explain.json", "check.json"} | of_the_club


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
    for kind in ("chains", "links", "clips", "seals", "plates", "strips", "tools", "bikes"):
        published = {record["id"]: record for record in documents[f"{kind}.json"][kind]}
        for id_, part in getattr(demo(), kind).items():
            known = {
                name
                for name, value in published[id_].items()
                if isinstance(value, dict) and "evidence" in value
            }
            assert known == set(part.dims)
            for name, quantity in part.dims.items():
                base, unit = (
                    (1_000, "g") if name == "mass" else (1_000_000, "kn" if name == "tensile" else "mm")
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
        for id_, part in demo().links.items()
        if part.record.groove_diameter and part.record.groove_diameter.is_unknown
    ]
    links = {link["id"]: link for link in files()["links.json"]["links"]}
    assert unknown and all(links[id_]["groove_diameter"] is None for id_ in unknown)


def test_contradicting_values_are_published_with_their_reason() -> None:
    sizes = {size["id"]: size for size in files()["sizes.json"]["sizes"]}
    others = sizes["520"]["other_readings"]
    assert {other["is"]["as_written"] for other in others} >= {"6.35 mm", "12.7 mm"}
    assert all(other["because"] and other["source"] for other in others)


def test_an_explanation_follows_its_schema_for_every_kind_of_pair() -> None:
    checker = Draft7Validator(contract_schemas()["explain"])
    one_a_word = {fit.word: fit for fit in fit_table(demo(), ["blue-520", "grey-520"])}
    assert len(one_a_word) >= 5
    for fit in one_a_word.values():
        pair, options = explain_pair(demo(), fit.chain, fit.link)
        checker.validate(json.loads(json.dumps(explain_document(demo(), pair, options))))


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
