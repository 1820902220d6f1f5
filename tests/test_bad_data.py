"""Faults planted in a copy of the demo, hostile names, and files made to hurt: all found, nothing touched."""

import json
from pathlib import Path
from shutil import copytree
from typing import Any

import pytest
import yaml

from generator.cli import main
from generator.load.files import read_club
from generator.load.folder import load_club
from generator.load.strict_yaml import parse
from generator.model.node import to_plain
from generator.validate.dataset import build_dataset
from tests.clubs import shelf_files
from tests.samples import DATA, check_club

HERE = Path(__file__).parent / "bad_data"
FAULTS: dict[str, dict[str, str]] = yaml.safe_load(
    (HERE / "planted-in-the-demo" / "faults.yaml").read_text("utf-8")
)
Spot = tuple[str, int, int]


def plant(club: Path, fault: dict[str, str]) -> None:
    """Put the faulty line, marks and all, in the place of the sound one."""
    path = club / fault["file"]
    lines = path.read_text("utf-8").split("\n")
    start = lines.index(f"{fault['record']}:")
    at = lines.index(fault["line"], start)
    lines[at : at + 1] = fault["becomes"].split("\n")
    path.write_text("\n".join(lines), "utf-8")


def take_marks(club: Path) -> list[Spot]:
    """Where the marks stand, by file, line and column; the files are written without them."""
    spots = []
    for path in sorted(club.iterdir()):
        lines = path.read_text("utf-8").split("\n")
        for number, line in enumerate(lines, 1):
            if "«" in line:
                spots.append((path.name, number, line.index("«") + 1))
        path.write_text("\n".join(lines).replace("«", "").replace("»", ""), "utf-8")
    return spots


def planted(club: Path, faults: dict[str, dict[str, str]]) -> dict[Spot, dict[str, str]]:
    """Each fault and where it must be found."""
    copytree(DATA / "demo", club)
    for fault in faults.values():
        plant(club, fault)
    spots = take_marks(club)
    assert len(spots) == len(faults)
    # marks were planted file by file and record by record; match them by what the fault becomes
    return {spot: _fault_at(club, spot, faults) for spot in spots}


def _fault_at(club: Path, spot: Spot, faults: dict[str, dict[str, str]]) -> dict[str, str]:
    line = (club / spot[0]).read_text("utf-8").split("\n")[spot[1] - 1]
    for fault in faults.values():
        clean = fault["becomes"].replace("«", "").replace("»", "").split("\n")[-1]
        if fault["file"] == spot[0] and clean == line:
            return fault
    raise AssertionError(f"no fault was planted at {spot}")


def report(club: Path, capsys: pytest.CaptureFixture[str]) -> tuple[int, dict[str, Any]]:
    code = main(["check", "--club", str(club), "--format", "json"])
    return code, json.loads(capsys.readouterr().out)


def test_eleven_faults_at_once_are_found_where_they_stand(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    expected = planted(tmp_path / "club", FAULTS)
    before = {path.name: path.read_bytes() for path in (tmp_path / "club").iterdir()}
    code, found = report(tmp_path / "club", capsys)
    errors = [problem for problem in found["problems"] if problem["level"] == "error"]
    assert {(p["file"], p["line"], p["column"]): p["code"] for p in errors} == {
        spot: fault["code"] for spot, fault in expected.items()
    }
    meant = {(p["file"], p["line"], p["column"]): p["did_you_mean"] for p in errors}
    assert meant == {spot: fault.get("meant") for spot, fault in expected.items()}
    assert (code, found["errors"], found["ok"]) == (1, 11, False)
    assert {path.name: path.read_bytes() for path in (tmp_path / "club").iterdir()} == before
    assert sorted(path.name for path in tmp_path.iterdir()) == ["club"]


@pytest.mark.parametrize("name", FAULTS)
def test_each_fault_alone_is_one_error(name: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (spot,) = planted(tmp_path / "club", {name: FAULTS[name]})
    code, found = report(tmp_path / "club", capsys)
    errors = [p for p in found["problems"] if p["level"] == "error"]
    assert [(p["file"], p["line"], p["column"], p["code"]) for p in errors] == [(*spot, FAULTS[name]["code"])]
    assert code == 1


HOSTILE_IDS = [
    "../../etc/passwd",
    "..",
    "a/b",
    "a\\b",
    "x" * 41,
    "ünder",
    "Tin-1",
    "con",
    "lpt1",
    "-first",
    "tin 1",
    "tin%2f1",
    "<script>",
    "tin\u200b1",
    "ｔｉｎ",
    "tin.yaml",
    "__proto__",
]


@pytest.mark.parametrize("name", HOSTILE_IDS)
def test_a_hostile_id_is_refused_where_it_stands(name: str) -> None:
    text = f"{json.dumps(name, ensure_ascii=False)}:\n  shape: O\nrings-1:\n  shape: O\n"
    (problem,) = check_club({"seals.yaml": text.encode()})
    assert problem.code in ("R206", "R215")
    assert (problem.place.file, problem.place.line, problem.place.column) == ("seals.yaml", 1, 1)


@pytest.mark.parametrize("character", ["\x00", "\x1b", "\x7f", "\x85", "\u2028", "\u202e", "\ufeff"])
def test_invisible_characters_are_named_where_they_stand(character: str) -> None:
    (problem,) = check_club({"seals.yaml": f"rings-1:\n  shape: O\n  note: a{character}b\n".encode()})
    assert problem.code == "Y113"
    assert (problem.place.line, problem.place.column) == (3, 10)
    assert f"U+{ord(character):04X}" in problem.message


@pytest.mark.parametrize("escape", ["\\0", "\\e", "\\x7f", "\\N", "\\L", "\\u202e", "\\uFEFF"])
def test_an_escape_brings_in_no_invisible_character(escape: str) -> None:
    (problem,) = check_club({"seals.yaml": f'rings-1:\n  shape: O\n  note: "a{escape}b"\n'.encode()})
    assert problem.code == "Y113"
    assert (problem.place.line, problem.place.column) == (3, 9)
    assert check_club({"seals.yaml": b'rings-1:\n  shape: O\n  note: "a\\u00e9\\tb"\n'}) == ()


@pytest.mark.parametrize("character", ["\x00", "\x1b", "\u202e"])
def test_invisible_characters_of_the_wear_log_are_named_too(character: str) -> None:
    log = (
        "date,chain,hours,pitches,inside,outside,place,new_chain\n"
        f"2027-02-01,red,10,16,243.80 mm,264.00 mm,a{character}b,no\n"
    )
    (problem,) = check_club({"wear_log.csv": log.encode()})
    assert (problem.code, problem.place.file, problem.place.line) == ("Y113", "wear_log.csv", 2)


def test_a_day_that_cannot_be_read_is_one_problem() -> None:
    """Nobody is told beside it that no day stands anywhere."""
    club = b"name: Tests\nid: tests\nas_of: 99999-01-01\n"
    found = read_club({"club.yaml": club})
    assert [p.code for p in build_dataset(found, shelf_files())[1]] == ["R208"]


def test_a_sprocket_without_teeth_is_an_error_and_an_unusual_one_a_warning() -> None:
    bike = "b01:\n  chain: red\n  front_teeth: {}\n  rear_teeth: 50\n  pitches: 114\n"
    for teeth, level in ((0, "error"), (30, "warning")):
        found = check_club({"bikes.yaml": bike.format(teeth).encode()})
        assert [(p.code, p.level) for p in found if p.code == "C474"] == [("C474", level)]


def test_hostile_file_names_are_named_safely(tmp_path: Path) -> None:
    copytree(DATA / "problems_base", tmp_path / "club")
    for name in (
        "evil\x1b[31m.yaml",
        "Links.yaml",
        "links.yml",
        "notes.txt",
        ".hidden.yaml",
        "x" * 200 + ".yaml",
    ):
        (tmp_path / "club" / name).write_text("", "utf-8")
    found = [p for p in load_club(tmp_path / "club").problems if p.code == "F103"]
    assert [(p.place.file.isprintable(), p.level) for p in found] == [(True, "warning")] * len(found)
    assert sorted(p.place.file[:12] for p in found) == [
        "Links.yaml",
        "evil\ufffd[31m.ya",
        "links.yml",
        "x" * 12,
    ]


@pytest.mark.parametrize("name", ["a{:04}.jpg", "IMG_{:04}.JPG", "a{:04}.yaml"])
def test_files_beside_the_clubs_own_change_nothing(tmp_path: Path, name: str) -> None:
    """A trial that is not read would make a pair proper that was tried and did not go."""
    club = Path(copytree(DATA / "demo", tmp_path / "club"))
    alone = load_club(club)
    for number in range(600):
        (club / name.format(number)).touch()
    beside = load_club(club)
    assert beside.files == alone.files
    assert {p.code for p in beside.problems} <= {"F103"}


def test_of_many_files_that_nobody_reads_the_first_are_named_and_the_others_counted(tmp_path: Path) -> None:
    club = Path(copytree(DATA / "problems_base", tmp_path / "club"))
    for number in range(60):
        (club / f"notes-{number:02}.yaml").touch()
    *named, last = (p for p in load_club(club).problems if p.code == "F103")
    assert [p.place.file for p in named] == [f"notes-{number:02}.yaml" for number in range(40)]
    assert (last.place.file, last.message) == (
        "notes-40.yaml",
        "nobody reads this and 19 more files after it",
    )


def test_a_file_of_a_mebibyte_is_read_and_a_larger_one_is_not() -> None:
    start = b"rings-1:\n  shape: O\n"
    full = start + b"# " + b"x" * ((1 << 20) - len(start) - 3) + b"\n"
    assert len(full) == 1 << 20
    assert check_club({"seals.yaml": full}) == ()
    assert [p.code for p in check_club({"seals.yaml": full + b"#"})] == ["Y110"]


@pytest.mark.parametrize(
    "text", ["a: " + "[" * 200_000, "{" * 200_000, "a: " + "[" * 9 + "]" * 9, "- " * 100_000]
)
def test_deep_nesting_ends_early(text: str) -> None:
    node, problems = parse(text, "deep.yaml")
    assert node is None
    assert [p.code for p in problems] == ["Y111"]


def test_laughs_are_refused_and_never_told() -> None:
    """A list of lists of lists, each named and used nine times: 10^9 texts if anybody wrote them out."""
    lines = ["a: &a [lol, lol, lol]"]
    for before, after in zip("abcdefgh", "bcdefghi", strict=True):
        lines.append(f"{after}: &{after} [{', '.join([f'*{before}'] * 9)}]")
    node, problems = parse("\n".join(lines), "laughs.yaml")
    assert {p.code for p in problems} == {"Y105", "Y106"}
    assert len([p for p in problems if p.code == "Y106"]) == 8 * 9
    assert node is not None
    assert len(str(to_plain(node))) < 200


def test_a_file_that_cannot_be_read_does_not_hide_the_others() -> None:
    problems = check_club({"clips.yaml": b"spring-1: [\n", "seals.yaml": b"rings-1:\n  shape: Q\n"})
    assert [(p.code, p.place.file) for p in problems] == [("Y101", "clips.yaml"), ("R203", "seals.yaml")]


def test_a_bad_field_does_not_hide_the_rest_of_its_record() -> None:
    text = (
        "tin-1:\n  size_code: 520\n  closure: clyp\n  plate_fit: press\n  made_for: sealed\n"
        "  pin_diameter: 5.24 mm\n  groove_diameter: 5.90 mm\n  mass: heavy\n"
    )
    problems = check_club({"links.yaml": text.encode()})
    assert [(p.code, p.place.line) for p in problems] == [("R203", 3), ("C423", 7), ("L101", 8)]


def test_a_bom_and_windows_line_ends_change_nothing() -> None:
    unix = "rings-1:\n  shape: O\n  thickness: 1,28 mm\n"
    windows = b"\xef\xbb\xbf" + unix.replace("\n", "\r\n").encode()
    assert check_club({"seals.yaml": unix.encode()}) == check_club({"seals.yaml": windows})
    assert read_club({"seals.yaml": windows}).texts["seals.yaml"].startswith("rings-1")
