"""What the command line says: exit codes in one place, ids that are not there, warnings that are not hidden."""

import ast
import json
import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

import generator.cli
from generator.cli import main
from generator.cli.arguments import COMMANDS
from generator.cli.exit_codes import BAD_DATA, CANNOT_READ_OR_WRITE, FINE, INTERNAL_FAULT, WRONG_USAGE
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


def test_a_pair_asked_with_a_clip_opens_with_what_that_clip_makes_of_it(
    capsys: pytest.CaptureFixture[str],
) -> None:
    """The clip that was off once gets home; the verdict of the pair is that of a new one."""
    assert explain("blue-520", "tin-1-blue", "--clip", "clip-blue-off") == FINE
    said = capsys.readouterr().out.splitlines()
    assert said[0].split()[:5] == ["asked", "with", "clip", "clip-blue-off:", "get-home;"]
    assert next(line for line in said if line.startswith("verdict")).split()[1] == "proper"


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
    files = len(list((DATA / "demo").iterdir()))
    assert f"0 errors, 1 warning in {files} files" in told


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


def test_what_was_typed_cannot_upset_a_terminal(capsys: pytest.CaptureFixture[str]) -> None:
    assert explain("blue-520", "tin\x1b[31m\n" + "x" * 500) == WRONG_USAGE
    said = capsys.readouterr().err
    assert "\x1b" not in said and "x" * 100 not in said


@pytest.mark.parametrize(
    "command",
    [("check", "--club", ""), ("build", "--to", " "), ("start", ""), ("schema", "--to", "")],
)
def test_no_folder_is_not_this_folder(command: tuple[str, ...], capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as left:
        main(command)
    assert left.value.code == WRONG_USAGE
    assert "no folder is named" in capsys.readouterr().err


BAD_FOLDERS: tuple[tuple[str, str, bytes | None, int], ...] = (
    # what is done to a copy of the demo, to which file, what stands in it then, exit code of check
    ("a byte order mark", "chains.yaml", b"\xef\xbb\xbf# nothing\n", BAD_DATA),
    ("random bytes", "chains.yaml", bytes(range(255, 0, -1)) * 4, BAD_DATA),
    ("another encoding", "tools.yaml", "press:\n  does: press\n  name: T\xfcr\n".encode("latin-1"), BAD_DATA),
    ("nul bytes", "clips.yaml", b"a\0b: 1\n", BAD_DATA),
    ("no file", "club.yaml", None, BAD_DATA),
)


@pytest.mark.parametrize(("what", "file", "held", "code"), BAD_FOLDERS, ids=[each[0] for each in BAD_FOLDERS])
def test_a_bad_file_is_named_and_nothing_crashes(
    what: str,
    file: str,
    held: bytes | None,
    code: int,
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
) -> None:
    club = Path(shutil.copytree(DATA / "demo", tmp_path / "club"))
    (club / file).unlink()
    if held is not None:
        (club / file).write_bytes(held)
    assert main(["check", "--club", str(club)]) == code, what
    assert f"{file}:" in capsys.readouterr().out or (held is not None and held.startswith(b"\xef"))
    assert main(["explain", "blue-520", "tin-3-red", "--club", str(club)]) == code
    assert main(["build", "--club", str(club), "--to", str(tmp_path / "out")]) == code
    assert not (tmp_path / "out").exists()


def test_line_ends_and_a_mark_of_another_system_change_nothing(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["check", "--club", str(DATA / "demo")]) == FINE
    plain = capsys.readouterr().out
    club = Path(shutil.copytree(DATA / "demo", tmp_path / "club"))
    for path in (*club.glob("*.yaml"), *club.glob("*.csv")):
        path.write_bytes(b"\xef\xbb\xbf" + path.read_bytes().replace(b"\n", b"\r\n"))
    assert main(["check", "--club", str(club)]) == FINE
    assert capsys.readouterr().out == plain


def test_what_is_no_folder_of_a_club_gives_3_and_what_is_no_file_gives_1(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("")
    (tmp_path / "dangling").symlink_to(tmp_path / "nowhere")
    for name in ("nowhere", "file", "dangling"):
        assert main(["check", "--club", str(tmp_path / name)]) == CANNOT_READ_OR_WRITE, name
        assert main(["explain", "a", "b", "--club", str(tmp_path / name)]) == CANNOT_READ_OR_WRITE, name
    club = Path(shutil.copytree(DATA / "demo", tmp_path / "club"))
    (club / "chains.yaml").unlink()
    (club / "chains.yaml").mkdir()
    (club / "tools.yaml").unlink()
    (club / "tools.yaml").symlink_to(tmp_path / "nowhere")
    assert main(["check", "--club", str(club)]) == BAD_DATA


PAIRS = (
    ("blue-520", "tin-1-blue"), ("blue-520", "tin-3-red"), ("blue-520", "tin-8-tan"), ("bench-520", "tin-1-blue"),
    ("van-520", "tin-14-packet"), ("tan-520", "tin-1-grey"), ("tan-520", "tin-9-black"), ("mud-520", "tin-14-inch"),
    ("green-428", "tin-1-blue"), ("blue-520", "tin-15-unknown"),
)  # fmt: skip


@pytest.mark.parametrize(("chain", "link"), PAIRS)
def test_an_explanation_is_aligned_and_fits_a_terminal(
    chain: str, link: str, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.delenv("NO_COLOR", raising=False)
    assert explain(chain, link) == FINE
    said = capsys.readouterr().out
    lines = said.splitlines()
    assert all(len(line) <= 80 and line == line.rstrip() for line in lines), [x for x in lines if len(x) > 80]
    assert "\x1b" not in said
    assert "±0.00" not in said and "± 0.00 " not in said and "-0.000 " not in said
    rungs = [line for line in lines if re.match(r" {7}(proper|get-home|last-resort) ", line)]
    assert all(re.match(r" {7}\S+ +(>=|<=) (not known|[+-]\d+\.\d{3,} (mm|kN))", line) for line in rungs)
    assert len({re.search(r"[<>]=", line).start() for line in rungs if re.search(r"[<>]=", line)}) <= 1  # type: ignore[union-attr]
    assert re.search(r"^verdict {5}\S", said, re.MULTILINE)
    # why a pair cannot be judged stands below that it cannot
    judged = "verdict     cannot judge\n" not in said
    assert bool(re.search(r"^why {9}- \S", said, re.MULTILINE)) == judged


# each writes so little that nothing goes out before the command ends
SHORT = (("check", "--club", "no-such-folder"), ("explain", "--help"))


def in_a_shell(
    arguments: tuple[str, ...], redirections: str = "", **more: str
) -> subprocess.CompletedProcess[str]:
    """The command on its own, its output kept back until its end as it is outside of tests."""
    command = f'"$0" -m generator "$@" {redirections}'
    environment = {name: value for name, value in os.environ.items() if name != "PYTHONUNBUFFERED"} | more
    return subprocess.run(
        ["bash", "-c", command, sys.executable, *arguments],
        cwd=DATA.parent, env=environment, capture_output=True, text=True, errors="surrogateescape",
    )  # fmt: skip


@pytest.mark.parametrize("arguments", SHORT)
def test_output_that_cannot_be_written_gives_3_also_where_it_is_short(arguments: tuple[str, ...]) -> None:
    ran = in_a_shell(arguments, "> /dev/full")
    assert ran.returncode == CANNOT_READ_OR_WRITE
    assert "cannot read or write: " in ran.stderr and "Exception ignored" not in ran.stderr


@pytest.mark.parametrize("arguments", SHORT)
def test_a_reader_that_goes_away_is_no_fault(arguments: tuple[str, ...]) -> None:
    ran = in_a_shell(arguments, "> >(exec true)")
    assert ran.returncode in (FINE, CANNOT_READ_OR_WRITE), "that of the command itself"
    assert ran.returncode == FINE or "no-such-folder" in arguments
    assert ran.stderr == "" or "Broken" not in ran.stderr
    ran = in_a_shell(("schema",), "| exec true; exit ${PIPESTATUS[0]}")
    assert (ran.returncode, ran.stderr) == (FINE, "")


def test_a_closed_output_gives_3_and_a_closed_message_channel_leaves_the_data_clean() -> None:
    pair = ("explain", "blue-520", "tin-1-blue", "--json", "--club", str(DATA / "demo"))
    ran = in_a_shell(pair, ">&-")
    assert (ran.returncode, ran.stderr) == (
        CANNOT_READ_OR_WRITE,
        "cannot write: standard output is closed\n",
    )
    ran = in_a_shell(pair, "2>&-")
    assert ran.returncode == FINE
    assert json.loads(ran.stdout)["schema"] == "explain/1"


@pytest.mark.parametrize("encoding", ["ascii", "latin-1", "utf-16"])
def test_data_are_utf_8_whatever_the_machine_speaks(encoding: str) -> None:
    ran = in_a_shell(("check", "--club", str(DATA / "demo")), PYTHONIOENCODING=encoding)
    assert ran.returncode == FINE and "16.35 ± 0.03 mm" in ran.stdout


def test_a_folder_whose_name_is_no_text_or_too_long_is_named_or_refused(tmp_path: Path) -> None:
    long = "a" * 5000
    ran = in_a_shell(("check", "--format", "json", "--club", long))
    assert ran.returncode == CANNOT_READ_OR_WRITE
    assert [problem["code"] for problem in json.loads(ran.stdout)["problems"]] == ["F101"]
    ran = in_a_shell(("build", "--to", long))
    assert ran.returncode == CANNOT_READ_OR_WRITE
    *_, club, last = ran.stderr.splitlines()
    assert club.startswith("club: ")
    assert last.startswith("cannot read or write aaa") and len(last) < 200
    odd = os.fsdecode(bytes(tmp_path) + b"/st\xff")
    ran = in_a_shell(("start", odd))
    assert ran.returncode == FINE and f"handbook check --club {odd}\n" in ran.stderr
    assert in_a_shell(("check", "--club", odd)).returncode == FINE


def test_the_readme_shows_every_command_and_no_other() -> None:
    shown = set(
        re.findall(r"`\.venv/bin/handbook ([a-z]+)", (DATA.parent / "README.md").read_text(encoding="utf-8"))
    )
    assert shown == set(COMMANDS)
