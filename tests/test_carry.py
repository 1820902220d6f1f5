"""What a user put into the folder of a handbook outlives every build, or the build refuses and changes nothing."""

import errno
import os
import shutil
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from generator.cli import main
from generator.cli.exit_codes import CANNOT_READ_OR_WRITE, FINE
from generator.shipped import shipped_root
from generator.site import working
from generator.site.marker import MARKER, theirs_in
from generator.site.swap import TargetRefused, left_beside, replacing
from generator.site.working import recover
from tests.fake_site import fake_site
from tests.swap_worker import EXCHANGES
from tests.test_swap import THEIRS, build, generations, kept, neighbours, put

as_root = os.geteuid() == 0
SMALL_CLUB = shipped_root() / "data" / "problems_base"
KINDS = pytest.mark.parametrize("kind", sorted(EXCHANGES))


@KINDS
def test_everything_is_carried_over(tmp_path: Path, kind: str) -> None:
    """With its times and rights, links as links, and a folder without files."""
    target = tmp_path / "site"
    build(target, 1, kind)
    put(target, THEIRS)
    target.joinpath("latest").symlink_to("gallery/2027")
    target.joinpath("lost").symlink_to("nowhere")
    os.utime(target / "CNAME", ns=(10**18, 10**18))
    target.joinpath(".git", "objects").chmod(0o500)
    for generation in (2, 3):
        build(target, generation, kind)
        assert generations(target) == {str(generation)}
        assert {name: text for name, text in kept(target).items() if not name.startswith("latest/")} == THEIRS
    assert (target / "CNAME").stat().st_mtime_ns == 10**18
    assert (target / "CNAME").stat().st_nlink == 1, "the old site is gone"
    assert (target / ".git" / "objects").stat().st_mode & 0o777 == 0o500
    assert [(target / name).readlink() for name in ("latest", "lost")] == [
        Path("gallery/2027"),
        Path("nowhere"),
    ]
    assert neighbours(target) == []


def test_a_repository_in_the_target_stays_a_repository(tmp_path: Path) -> None:
    """As the recipe for publishing from a branch has it."""
    target = tmp_path / "site"
    build(target, 1)
    git = ["git", "-C", str(target), "-c", "user.name=x", "-c", "user.email=x@example.org"]
    subprocess.run([*git, "init", "-q"], check=True)
    subprocess.run([*git, "add", "-A"], check=True)
    subprocess.run([*git, "commit", "-qm", "one"], check=True)
    build(target, 2)
    changed = subprocess.run(
        [*git, "status", "--porcelain"], check=True, capture_output=True, text=True
    ).stdout
    assert changed.splitlines() == [
        f" M part-{n % 5}/{n}.txt" for n in sorted(range(40), key=lambda n: f"{n % 5}/{n}.")
    ]
    subprocess.run([*git, "fsck", "--strict"], check=True, capture_output=True)


def test_where_files_have_one_name_only_they_are_copied(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """As on the file system of most USB sticks."""

    def no_second_name(_self: Path, _other: Path) -> None:
        raise OSError(errno.EPERM, "no links here")

    monkeypatch.setattr(Path, "hardlink_to", no_second_name)
    target = tmp_path / "site"
    build(target, 1)
    put(target, THEIRS)
    build(target, 2)
    assert kept(target) == THEIRS


@pytest.mark.parametrize(
    ("theirs", "named"),
    [
        ("part-9/x.html", "part-9/x.html"),  # a file where there is a file
        ("part-9", "part-9"),  # a file where there is a folder
        ("page.html/photo.jpg", "page.html"),  # a folder where there is a file
    ],
)
@KINDS
def test_a_path_that_the_new_handbook_needs_is_named_and_nothing_changes(
    tmp_path: Path, kind: str, theirs: str, named: str
) -> None:
    target = tmp_path / "site"
    build(target, 1, kind)
    target.joinpath(theirs).parent.mkdir(exist_ok=True)
    target.joinpath(theirs).write_text("precious")
    with (
        pytest.raises(TargetRefused, match=f": {named}.*nothing was changed"),
        replacing(target, EXCHANGES[kind]) as fresh,
    ):
        put(fresh, {"part-9/x.html": "new", "page.html": "new"})
    assert generations(target) == {"1"}
    assert target.joinpath(theirs).read_text() == "precious"
    assert neighbours(target) == []


def test_a_page_that_is_gone_goes_and_what_lies_beside_it_stays(tmp_path: Path) -> None:
    target = tmp_path / "site"
    with replacing(target) as fresh:
        put(fresh, {"links/old/index.html": "page", "links/gone/index.html": "page"})
    put(target, {"links/old/photo.jpg": "picture"})
    build(target, 1)
    assert sorted(path.as_posix() for path in theirs_in(target) if path.suffix) == ["links/old/photo.jpg"]
    assert not target.joinpath("links/old/index.html").exists()
    assert not target.joinpath("links/gone").exists()


@KINDS
def test_what_comes_into_the_old_site_at_the_last_moment_is_brought_over(tmp_path: Path, kind: str) -> None:
    """Between carrying and exchanging: a new file, and one written anew."""
    target = tmp_path / "site"
    build(target, 1)
    put(target, THEIRS)

    def late(fresh: Path, real: Path) -> bool:
        put(real, {"gallery/late.jpg": "picture"})
        real.joinpath("written").write_text("www.example.org")
        os.utime(real / "written", ns=(2 * 10**18, 2 * 10**18))
        real.joinpath("written").replace(real / "CNAME")
        return EXCHANGES[kind](fresh, real)

    with replacing(target, late) as fresh:
        put(fresh, {"index.html": "new"})
    assert kept(target) == THEIRS | {
        "gallery/late.jpg": "picture",
        "CNAME": "www.example.org",
        "index.html": "new",
    }
    assert neighbours(target) == []


def _stop(*_anything: object) -> bool:
    os._exit(9)


STOPS: dict[str, Callable[[], None]] = {
    "while carrying": lambda: setattr(shutil, "copystat", _stop),
    "before the exchange": lambda: EXCHANGES.update(kernel=_stop),
    "after the exchange": lambda: setattr(working, "bring_over", _stop),
}


@pytest.mark.parametrize("stop", sorted(STOPS))
def test_a_kill_in_the_middle_loses_nothing(tmp_path: Path, stop: str) -> None:
    target = tmp_path / "site"
    build(target, 1)
    put(target, THEIRS)
    child = os.fork()
    if child == 0:
        STOPS[stop]()
        build(target, 2)
        os._exit(0)
    assert os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) == 9
    assert kept(target) == THEIRS and len(neighbours(target)) == 1
    put(target, {"gallery/after the kill.jpg": "picture"})
    build(target, 3)
    assert generations(target) == {"3"}
    assert kept(target) == THEIRS | {"gallery/after the kill.jpg": "picture"}
    assert neighbours(target) == []


def test_a_leftover_that_holds_what_the_site_has_not_is_kept_and_named(tmp_path: Path) -> None:
    """The user cleared the site after a kill, and may not know that the photograph lies in the leftover only."""
    target = tmp_path / "site"
    build(target, 1)
    put(target, THEIRS)
    left = tmp_path / ".site.handbook-work-aaaa"
    shutil.copytree(target, left / "new")
    shutil.rmtree(target)
    assert left_beside(target) == [left]
    assert kept(left / "new") == THEIRS


@pytest.mark.skipif(not as_root, reason="only root can give up being root")
def test_a_read_only_old_site_is_cleared(tmp_path_factory: pytest.TempPathFactory) -> None:
    """As a plain user: its folders may not be written, as in a copy from a CD."""
    code = (
        "import os, sys; from pathlib import Path\n"
        "from tests.test_swap import build, generations, neighbours\n"
        "os.setuid(65534)\n"
        "target = Path(sys.argv[1]) / 'site'\n"
        "build(target, 1)\n"
        "for folder in (*target.glob('part-*'),): folder.chmod(0o555)\n"
        "build(target, 2); assert generations(target) == {'2'}; print(neighbours(target))"
    )
    place = tmp_path_factory.mktemp("x")
    for folder in (place, *place.parents[:3]):
        folder.chmod(0o755)
    place.chmod(0o777)
    ran = subprocess.run(
        [sys.executable, "-c", code, str(place)], cwd=shipped_root(), text=True, capture_output=True
    )
    assert ran.stdout == "[]\n", ran.stderr


def test_a_marker_that_names_nothing_is_refused_before_the_work(tmp_path: Path) -> None:
    target = tmp_path / "site"
    build(target, 1)
    target.joinpath(MARKER).write_text("This folder is ours.\n")
    with pytest.raises(TargetRefused, match="does not say which files"), replacing(target):
        pytest.fail("the work must not even start")
    assert generations(target) == {"1"}


@pytest.fixture
def frame_only(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("generator.site.content.site_of", lambda _dataset: fake_site())


@pytest.mark.usefixtures("frame_only")
def test_a_target_around_the_club_or_the_working_folders_history_gives_3(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    target, club = tmp_path / "site", tmp_path / "club"
    shutil.copytree(SMALL_CLUB, club)
    assert main(["build", "--club", str(club), "--to", str(target)]) == FINE
    shutil.copytree(club, target / "club")
    assert main(["build", "--club", str(target / "club"), "--to", str(target)]) == CANNOT_READ_OR_WRITE
    assert "holds the club's own folder" in capsys.readouterr().err
    assert sorted(entry.name for entry in (target / "club").iterdir()) == sorted(
        e.name for e in club.iterdir()
    )
    target.joinpath(".git").mkdir()
    monkeypatch.chdir(target)
    assert main(["build", "--club", str(club), "--to", "."]) == CANNOT_READ_OR_WRITE
    assert "the history of the folder you are in" in capsys.readouterr().err
    monkeypatch.chdir(tmp_path)
    assert main(["build", "--club", str(club), "--to", "site"]) == FINE
    assert target.joinpath(".git").is_dir() and target.joinpath("club", "club.yaml").is_file()


def test_a_target_around_this_program_gives_3(capsys: pytest.CaptureFixture[str]) -> None:
    root = shipped_root()
    for around in (root, root.parent):
        assert main(["build", "--club", str(SMALL_CLUB), "--to", str(around)]) == CANNOT_READ_OR_WRITE
        assert "holds the" in capsys.readouterr().err


def test_a_bare_build_clears_nothing_of_a_user(tmp_path: Path) -> None:
    target = tmp_path / "site"
    build(target, 1)
    put(target, THEIRS)
    command = [
        sys.executable,
        "-m",
        "mkdocs",
        "build",
        "-f",
        str(shipped_root() / "mkdocs.yml"),
        "-d",
        str(target),
    ]
    ran = subprocess.run(
        command, env=os.environ | {"HANDBOOK_CLUB": str(SMALL_CLUB)}, capture_output=True, text=True
    )
    assert ran.returncode == 1 and "which no build made" in ran.stderr
    recover(target)
    assert kept(target) == THEIRS and generations(target) == {"1"}
