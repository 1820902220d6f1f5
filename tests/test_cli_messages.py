"""What the command line says: exit codes in one place, ids that are not there, warnings that are not hidden."""

import ast
import shutil
from pathlib import Path

import pytest

import generator.cli
from generator.cli import main
from generator.cli.exit_codes import BAD_DATA, FINE, INTERNAL_FAULT, WRONG_USAGE
from generator.cli.ids import MOST_NAMED, first_few
from generator.load.files import read_club
from generator.validate.dataset import build_dataset
from generator.validate.wording import nearest
from tests.clubs import DATA, shelf_files

CLI = Path(generator.cli.__file__).parent


def test_exit_codes_are_said_in_one_place() -> None:
    """No command has a number of its own for a code."""
    for path in sorted(CLI.glob("*.py")):
        if path.name == "exit_codes.py":
            continue
        numbers = [
            node.lineno
            for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
            if isinstance(node, (ast.Assign, ast.Return))
            and isinstance(node.value, ast.Constant)
            and type(node.value.value) is int
            and FINE <= node.value.value <= INTERNAL_FAULT
        ]
        assert not numbers, (path.name, numbers)


def explain(*arguments: str) -> int:
    return main(["explain", *arguments, "--club", str(DATA / "demo")])


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        (("BLUE-520", "tin-3-red"), "there is no chain 'BLUE-520'; did you mean 'blue-520'?"),
        (("blue-520", "tin-3"), "there is no connecting link 'tin-3'; did you mean 'tin-3-red'?"),
        (("tin-3-red", "blue-520"), "write handbook explain blue-520 tin-3-red"),
        (("blue-520", "clip-bench"), "'clip-bench' is a clip, not a connecting link; known: "),
        (("blue-520", "tin-3-red", "--clip", "tin-3-red"), "'tin-3-red' is a connecting link, not a clip"),
    ],
)
def test_an_id_that_is_not_there_gives_2_and_says_what_was_meant(
    typed: tuple[str, ...], said: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert explain(*typed) == WRONG_USAGE
    printed = capsys.readouterr()
    assert said in " ".join(printed.err.split())
    assert printed.out == ""


def test_a_list_of_known_ids_says_how_many_it_leaves_out(capsys: pytest.CaptureFixture[str]) -> None:
    assert first_few([f"a{n}" for n in range(MOST_NAMED)]).count(",") == MOST_NAMED - 1
    assert first_few([f"a{n}" for n in range(MOST_NAMED + 5)]).endswith(f"a{MOST_NAMED - 1} and 5 more")
    assert explain("qqqqqq", "tin-3-red") == WRONG_USAGE
    said = capsys.readouterr().err
    assert " more" in said
    assert all(len(line) <= 80 for line in said.splitlines() if not line.startswith("club:"))


@pytest.mark.parametrize("form", [(), ("--json",)])
def test_a_clip_asked_of_a_riveted_link_is_answered(
    form: tuple[str, ...], capsys: pytest.CaptureFixture[str]
) -> None:
    """Exit code 0 whatever the answer; the verdict still stands on stdout."""
    assert explain("blue-520", "tin-8-tan", "--clip", "clip-bench", *form) == FINE
    printed = capsys.readouterr()
    assert "is riveted and has no clip" in printed.err
    assert "tin-8-tan" in printed.out


def test_a_build_shows_warnings_as_check_does(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    from tests.fake_site import fake_site

    monkeypatch.setattr("generator.site.content.site_of", lambda _dataset: fake_site())
    demo = str(DATA / "demo")
    assert main(["check", "--club", demo]) == FINE
    shown = capsys.readouterr().out
    warning = next(line for line in shown.splitlines() if "warning: " in line)
    assert main(["build", "--club", demo, "--to", str(tmp_path / "out")]) == FINE
    told = capsys.readouterr().err
    assert warning in told
    assert "0 errors, 1 warning in 13 files" in told


def test_errors_are_shown_with_the_warnings_beside_them(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    club = tmp_path / "club"
    shutil.copytree(DATA / "demo", club)
    (club / "tools.yaml").write_text("press:\n  does: pres\n", encoding="utf-8")
    assert main(["build", "--club", str(club), "--to", str(tmp_path / "out")]) == BAD_DATA
    told = capsys.readouterr().err
    assert "1 error, 1 warning in" in told


def test_what_is_missing_from_an_empty_file_is_missed_in_that_file(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    for text in ("", "# nothing yet\n", "just words\n"):
        (tmp_path / "club.yaml").write_text(text, encoding="utf-8")
        assert main(["check", "--club", str(tmp_path)]) == BAD_DATA
        lines = capsys.readouterr().out.splitlines()
        assert not [line for line in lines if line.startswith(":")], text
        assert [line for line in lines if line.startswith("club.yaml:1:1  ")], text


@pytest.mark.parametrize(
    ("typed", "known", "meant"),
    [
        ("red", ("blue-520", "red-520h"), "red-520h"),
        ("RED-520H", ("blue-520", "red-520h"), "red-520h"),
        ("red", ("red-520h", "red-5250"), None),
        ("o", ("O", "X", "other"), "O"),
        ("tin-3-rde", ("tin-3-red", "tin-4"), "tin-3-red"),
    ],
)
def test_the_nearest_choice_is_alike_in_letters_or_the_only_one_with_that_word(
    typed: str, known: tuple[str, ...], meant: str | None
) -> None:
    assert nearest(typed, known) == meant


@pytest.mark.parametrize(
    ("label", "meant"),
    [("Spring 1", "spring-1"), ("Tür_3 (rot)", "tur-3-rot"), ("x" * 50, "x" * 40), ("???", None)],
)
def test_a_label_that_is_not_an_id_is_shown_as_one(label: str, meant: str | None) -> None:
    folder = read_club(
        {"club.yaml": b"name: A\nid: a\n", "clips.yaml": f'"{label}":\n  history: new\n'.encode()}
    )
    _, problems = build_dataset(folder, shelf_files())
    (problem,) = (each for each in problems if each.code == "R206")
    assert problem.did_you_mean == meant
