"""`handbook build` and `serve` as commands: exit codes, what is written and what is left alone."""

import gc
import os
import shutil
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path

import pytest

from generator.cli import main
from generator.cli.exit_codes import BAD_DATA, CANNOT_READ_OR_WRITE, FINE, INTERNAL_FAULT
from generator.render.base.page import Asset, Site
from generator.shipped import shipped_root
from generator.site.collector import collector_resting
from tests.fake_site import fake_site
from tests.processes import running
from tests.test_site_shell import tree

SMALL_CLUB = shipped_root() / "data" / "problems_base"


@pytest.fixture
def club(tmp_path: Path) -> Path:
    return Path(shutil.copytree(SMALL_CLUB, tmp_path / "club"))


@pytest.fixture
def quick(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """The frame alone: what the pages say is not looked at here."""
    monkeypatch.setattr("generator.site.content.site_of", lambda _dataset: fake_site())
    yield


def build(club: Path, to: Path, *more: str) -> int:
    return main(["build", "--club", str(club), "--to", str(to), *more])


@pytest.mark.usefixtures("quick")
def test_a_build_says_where_it_went_and_for_which_day(
    club: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    to = tmp_path / "out"
    assert build(club, to, "--as-of", "2030-05-06") == FINE
    said = capsys.readouterr()
    assert said.out == f"{to / 'index.html'}\n"
    assert "as of 2030-05-06" in said.err
    assert "page " not in said.err, "progress is for terminals"
    assert to.joinpath("index.html").is_file()


@pytest.mark.usefixtures("quick")
def test_a_folder_that_is_not_ours_gives_3_and_stays(
    club: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    to = tmp_path / "out"
    to.mkdir()
    to.joinpath("photo.jpg").write_bytes(b"precious")
    assert build(club, to) == CANNOT_READ_OR_WRITE
    assert "was not made by `handbook build`" in capsys.readouterr().err
    assert list(tree(to)) == ["photo.jpg"]


@pytest.mark.parametrize("to", ["unmounted/web", "out"])
def test_a_link_that_leads_nowhere_gives_3(
    club: Path, tmp_path: Path, to: str, capsys: pytest.CaptureFixture[str]
) -> None:
    link = tmp_path / "out"
    link.symlink_to(tmp_path / to)
    assert build(club, link) == CANNOT_READ_OR_WRITE
    said = capsys.readouterr()
    assert said.out == "" and "there is nothing there" in said.err
    assert sorted(entry.name for entry in tmp_path.iterdir()) == ["club", "out"]


def test_problems_in_the_data_give_1_and_nothing_is_written(
    club: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    club.joinpath("chains.yaml").write_text("a: [\n")
    assert build(club, tmp_path / "out") == BAD_DATA
    assert "chains.yaml:" in capsys.readouterr().err
    assert sorted(entry.name for entry in tmp_path.iterdir()) == ["club"]


def test_a_fault_of_the_handbook_gives_4_and_the_old_site_stays(
    club: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    to = tmp_path / "out"
    monkeypatch.setattr("generator.site.content.site_of", lambda _dataset: fake_site())
    assert build(club, to) == FINE
    before = tree(to)
    styled = Asset("a.html", '<meta charset="utf-8"><p style="a">x</p>')
    broken = Site(fake_site().facts, fake_site().pages, (styled,), fake_site().values)
    monkeypatch.setattr("generator.site.content.site_of", lambda _dataset: broken)
    assert build(club, to) == INTERNAL_FAULT
    assert "a.html: line 1: the content policy does not allow style" in capsys.readouterr().err
    assert tree(to) == before
    assert gc.isenabled()


@pytest.mark.parametrize("was_on", [True, False])
def test_the_collector_rests_during_a_build_and_is_afterwards_as_it_was(was_on: bool) -> None:
    before = gc.isenabled()
    try:
        (gc.enable if was_on else gc.disable)()
        with collector_resting():
            assert not gc.isenabled()
        assert gc.isenabled() == was_on
    finally:
        (gc.enable if before else gc.disable)()


@pytest.fixture(scope="module")
def small_build(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The real handbook of a club of a handful of parts."""
    to = tmp_path_factory.mktemp("small") / "site"
    assert build(SMALL_CLUB, to) == FINE
    return to


def test_the_site_builder_on_its_own_gives_the_same_bytes(small_build: Path, tmp_path: Path) -> None:
    """A bare `mkdocs build`, told the club as mkdocs.yml lets it be told."""
    to = tmp_path / "bare"
    command = [
        sys.executable,
        "-m",
        "mkdocs",
        "build",
        "-f",
        str(shipped_root() / "mkdocs.yml"),
        "-d",
        str(to),
    ]
    subprocess.run(
        command, env=os.environ | {"HANDBOOK_CLUB": str(SMALL_CLUB)}, check=True, capture_output=True
    )
    assert tree(to) == tree(small_build)


def test_a_bare_build_of_bad_data_reports_the_problems(club: Path, tmp_path: Path) -> None:
    club.joinpath("chains.yaml").write_text("a: [\n")
    command = [sys.executable, "-m", "mkdocs", "build", "-f", str(shipped_root() / "mkdocs.yml")]
    command += ["-d", str(tmp_path / "bare")]
    ran = subprocess.run(
        command, env=os.environ | {"HANDBOOK_CLUB": str(club)}, capture_output=True, text=True
    )
    assert ran.returncode == 1
    assert "chains.yaml:" in ran.stderr
    assert "Traceback" not in ran.stderr


@pytest.mark.long
def test_ten_kills_of_a_real_build_leave_a_whole_site(small_build: Path, tmp_path: Path) -> None:
    """At ten moments spread over the whole run of the command, from its start to after its end."""
    to = tmp_path / "site"
    shutil.copytree(small_build, to)
    command = [sys.executable, "-c", "import generator.cli as cli; cli.run()"]
    command += ["build", "--club", str(SMALL_CLUB), "--to", str(to)]
    started = time.monotonic()
    subprocess.run(command, cwd=shipped_root(), check=True, capture_output=True)
    whole = time.monotonic() - started
    for tenth in range(1, 11):
        with running(command, shipped_root(), stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL):
            time.sleep(whole * tenth / 10)
        assert tree(to) == tree(small_build)
    subprocess.run(command, cwd=shipped_root(), check=True, capture_output=True)
    assert sorted(entry.name for entry in tmp_path.iterdir()) == ["site"], "leftovers are cleared"


@pytest.mark.parametrize("text", ["20270301", "2027-W09-1", "2027-3-1", "1.3.2027"])
def test_a_day_is_written_year_month_day(
    text: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    with pytest.raises(SystemExit) as refused:
        main(["build", "--to", str(tmp_path / "site"), "--as-of", text])
    assert refused.value.code == 2
    assert "write year-month-day" in capsys.readouterr().err
