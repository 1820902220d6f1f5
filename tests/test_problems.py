"""The catalogue of problem codes is its own test: every sample is run, every code is used; and how problems are shown."""

import ast
import json
import re
from pathlib import Path
from shutil import copytree

import pytest

from generator.cli import main
from generator.load.problem_texts import load_catalogue
from generator.problems import Place, Problem, sorted_problems
from generator.problems.report import json_report, text_report
from tests.samples import DATA, check_club, problems_of

CATALOGUE = load_catalogue(DATA)
CODE = re.compile(r"[CFLRSTUWXY][1-9]\d\d")
GENERATOR = DATA.parent / "generator"


def codes_in_source() -> set[str]:
    """Every string of the source that looks like a code."""
    found = set()
    for path in GENERATOR.rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            if isinstance(node, ast.Constant) and isinstance(node.value, str) and CODE.fullmatch(node.value):
                found.add(node.value)
    return found


def test_every_code_is_catalogued_and_every_catalogued_code_is_used() -> None:
    assert codes_in_source() == set(CATALOGUE)


def test_there_are_at_least_25_rules_between_fields_and_records() -> None:
    crossing = [code for code in CATALOGUE if code[0] in "CTX"]
    assert len(crossing) >= 25


@pytest.mark.parametrize("code", CATALOGUE)
def test_the_good_sample_is_good(code: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    assert problems_of(CATALOGUE[code].good, tmp_path, monkeypatch) == ()


@pytest.mark.parametrize("code", CATALOGUE)
def test_the_bad_sample_gives_its_code_at_its_place(
    code: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    entry = CATALOGUE[code]
    (problem,) = problems_of(entry.bad, tmp_path, monkeypatch)
    assert (problem.code, problem.level) == (code, entry.level)
    place = problem.place
    assert f"{place.file}:{place.line}:{place.column}" == _place(entry.at)
    assert place.end_column >= place.column
    assert problem.message


def _place(at: str) -> str:
    """`file:+1:1` counts from the end of the file that ships."""
    file, line, column = at.rsplit(":", 2)
    if line.startswith("+"):
        line = str(len((DATA / file).read_text("utf-8").splitlines()) + int(line))
    return f"{file}:{line}:{column}"


@pytest.mark.parametrize("code", CATALOGUE)
def test_the_words_of_a_code_say_why_and_how(code: str) -> None:
    entry = CATALOGUE[code]
    assert entry.title[0].isupper()
    assert entry.why.endswith(".")
    assert entry.fix[0].islower()
    assert not entry.fix.endswith(".")


@pytest.mark.parametrize("club", ["problems_base", "demo"])
def test_the_clubs_that_ship_have_no_errors(club: str) -> None:
    files = {path.name: path.read_bytes() for path in (DATA / club).iterdir()}
    assert [p for p in check_club(files) if p.level == "error"] == []


# ---- how problems are shown

TEXT = "tin-1:\n  pin_reach: 14,92 mm\n"
FAULT = Problem(
    "L104",
    "comma between digits in '14,92'",
    Place("links.yaml", 2, 14, 18),
    ("tin-1", "pin_reach"),
    fix="write a point: 14.92 mm",
    related=(Place("links.yaml", 1, 1, 5),),
)
SLIP = Problem(
    "R201", "there is no key 'pin_reech' here", Place("a.yaml", 1, 3, 11), did_you_mean="pin_reach"
)


def test_text_shows_line_caret_why_and_fix() -> None:
    why = CATALOGUE["L104"].why
    assert text_report([FAULT], {"links.yaml": TEXT, "club.yaml": ""}, CATALOGUE) == (
        "links.yaml:2:14  L104  comma between digits in '14,92'\n"
        "      pin_reach: 14,92 mm\n"
        "                 ^^^^^\n"
        f"    why: {why}\n"
        "    fix: write a point: 14.92 mm\n"
        "    see also: links.yaml:1:1\n"
        "\n"
        "1 error, 0 warnings in 2 files\n"
    )


def test_the_catalogue_gives_the_fix_where_the_problem_has_none() -> None:
    shown = text_report([SLIP], {"a.yaml": "  pin_reech: 1 mm\n"}, CATALOGUE)
    assert "    did you mean: pin_reach\n" in shown
    assert f"    fix: {CATALOGUE['R201'].fix}\n" in shown


@pytest.mark.parametrize(
    ("line", "column", "end", "shown", "caret"),
    [
        ("  a: ü€x", 8, 8, "      a: ü€x", "           ^"),
        ("  a: 中文x", 8, 8, "      a: 中文x", "             ^"),
        ("\ta: x", 5, 5, "     a: x", "        ^"),
        ("  a: e\u0301x", 8, 8, "      a: e\u0301x", "          ^"),
        ("  a: \x1b[31mx", 6, 6, "      a: \ufffd[31mx", "         ^"),
    ],
)
def test_the_caret_stands_under_the_fault_in_a_terminal(
    line: str, column: int, end: int, shown: str, caret: str
) -> None:
    report = text_report([Problem("Y101", "m", Place("f", 1, column, end))], {"f": line})
    assert report.split("\n")[1:3] == [shown, caret]


def test_a_long_line_is_cut_around_the_fault() -> None:
    line = "a: " + "b" * 500 + "X" + "c" * 500
    report = text_report([Problem("Y101", "m", Place("f", 1, 504, 504))], {"f": line})
    shown, caret = report.split("\n")[1:3]
    assert len(shown) < 120
    assert shown[caret.index("^")] == "X"


def test_json_is_the_contract() -> None:
    found = json.loads(json_report([SLIP, FAULT], 9, CATALOGUE))
    assert {key: found[key] for key in found if key != "problems"} == {
        "schema": "check/1",
        "ok": False,
        "files": 9,
        "errors": 2,
        "warnings": 0,
    }
    assert found["problems"][1] == {
        "code": "L104",
        "level": "error",
        "file": "links.yaml",
        "line": 2,
        "column": 14,
        "end_column": 18,
        "path": ["tin-1", "pin_reach"],
        "message": "comma between digits in '14,92'",
        "why": CATALOGUE["L104"].why,
        "fix": "write a point: 14.92 mm",
        "did_you_mean": None,
        "related": [{"file": "links.yaml", "line": 1, "column": 1}],
    }


def test_problems_stand_in_reading_order_once_each() -> None:
    places = [Place("b", 1, 1, 1), Place("a", 2, 9, 9), Place("a", 2, 1, 1), Place("a", 10, 1, 1)]
    problems = [Problem("Y101", "m", place) for place in (*places, *places)]
    assert [p.place for p in sorted_problems(problems)] == [places[2], places[1], places[3], places[0]]


# ---- the command


def test_a_sound_club_is_fine(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check", "--club", str(DATA / "problems_base")]) == 0
    assert capsys.readouterr().out.startswith("0 errors, 0 warnings in 7 files\n")


def test_warnings_alone_are_fine(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    copytree(DATA / "problems_base", tmp_path / "club")
    (tmp_path / "club" / "links.yml").write_text("", "utf-8")
    assert main(["check", "--club", str(tmp_path / "club"), "--format", "json"]) == 0
    found = json.loads(capsys.readouterr().out)
    assert (found["ok"], found["errors"], found["warnings"]) == (True, 0, 1)


def test_a_folder_that_is_not_there_is_no_fault_of_the_data(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["check", "--club", str(tmp_path / "nowhere"), "--format", "json"]) == 3
    assert [p["code"] for p in json.loads(capsys.readouterr().out)["problems"]] == ["F101"]


def test_errors_are_shown_on_stdout_with_their_place(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    copytree(DATA / "problems_base", tmp_path / "club")
    (tmp_path / "club" / "seals.yaml").write_text("rings-1:\n  shape: O\n  thickness: 1,28 mm\n", "utf-8")
    assert main(["check", "--club", str(tmp_path / "club")]) == 1
    out = capsys.readouterr().out
    assert "seals.yaml:3:14  L104  comma between digits in '1,28'\n" in out
    assert out.endswith("1 error, 0 warnings in 7 files\n")
