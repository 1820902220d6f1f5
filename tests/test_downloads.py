"""Files to take away: the same cells as the page, safe in a spreadsheet, one file a kind of table.

Outside sources: RFC 4180 (line ends, quotes); the list of characters that start a formula is the one of the
OWASP page on CSV injection, from memory.
"""

import csv
import io
from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.render.base.lengths import shown_length
from generator.render.base.page import Page
from generator.render.base.table import Cell, Column, Row, Table
from generator.render.base.verdicts import shown_verdict
from generator.render.downloads.csv_text import csv_cell, csv_text, decimal_text, harmless
from generator.render.downloads.data_table import data_table, slug
from generator.render.downloads.files import files_of_tables


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


def test_a_csv_holds_the_cells_of_its_table() -> None:
    page = Page("a/", "a", "a", "t", {}, tables=(sample(),))
    (asset,) = files_of_tables([page])
    assert asset.path == "data/v1/tables/sample.csv"
    assert isinstance(asset.content, str)
    lines = list(csv.DictReader(io.StringIO(asset.content, newline=""), strict=True))
    assert lines[0]["clearance_mm"] == "-0.130001"
    data = data_table(sample())
    for line, row in zip(lines, data.rows, strict=True):
        for column, value in zip(data.columns, row, strict=True):
            assert line[column.name] == csv_cell(value)


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


def test_a_table_of_two_pages_is_written_once_and_only_where_a_page_says_so() -> None:
    table = Table("shared", "shared", (Column("Bag", "head"),), (Row((Cell("a"),)),))
    pages = [
        Page("a/", "a", "a", "t", {}, tables=(table,)),
        Page("b/", "b", "b", "t", {}, tables=(table,)),
        Page("c/", "c", "c", "t", {"table": replace(table, id="only-printed")}),
    ]
    assert [asset.path for asset in files_of_tables(pages)] == ["data/v1/tables/shared.csv"]
