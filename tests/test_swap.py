"""The folder of a site is replaced whole or not at all: killed runs, full disks, foreign folders, links."""

import os
import random
import resource
import signal
import stat
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path

import pytest

from generator.site.lock import InUse, held
from generator.site.marker import MARKER
from generator.site.swap import TargetRefused, check_target, left_beside, replacing
from generator.site.working import recover
from tests.processes import running
from tests.swap_worker import EXCHANGES, FILES, write_generation

REPOSITORY = Path(__file__).resolve().parent.parent
as_root = os.geteuid() == 0


def generations(folder: Path) -> set[str]:
    """The numbers that the files of a folder hold; more than one, or a file missing, is half a site."""
    files = sorted(folder.glob("part-*/*.txt"))
    assert len(files) == FILES, f"{len(files)} of {FILES} files"
    return {word for file in files for word in file.read_text().split()}


# as the publishing recipes ask for, and as people do
THEIRS = {
    "CNAME": "chains.example.org",
    ".git/HEAD": "ref: refs/heads/pages",
    ".git/objects/ab/cdef": "blob",
    "part-1/photo of b01.jpg": "picture",
    "gallery/2027/one.jpg": "picture",
}


def put(folder: Path, files: dict[str, str]) -> None:
    for name, text in files.items():
        folder.joinpath(name).parent.mkdir(parents=True, exist_ok=True)
        folder.joinpath(name).write_text(text)
    if ".git/HEAD" in files:
        folder.joinpath(".git", "refs").mkdir(exist_ok=True)  # git takes no folder without it for its own


def kept(folder: Path) -> dict[str, str]:
    """What is there of a user's, with its text."""
    assert folder.joinpath(".git", "refs").is_dir()
    files = (path for path in folder.rglob("*") if path.is_file() and path.name != MARKER)
    ours = set(folder.glob("part-*/*.txt"))
    return {path.relative_to(folder).as_posix(): path.read_text() for path in files if path not in ours}


def neighbours(target: Path) -> list[str]:
    return sorted(entry.name for entry in target.parent.iterdir() if entry.name != target.name)


def build(target: Path, generation: int, kind: str = "kernel") -> None:
    with replacing(target, EXCHANGES[kind]) as fresh:
        write_generation(fresh, generation)


@pytest.mark.long
@pytest.mark.parametrize("kind", sorted(EXCHANGES))
def test_fifty_kills_leave_the_old_or_the_new_site_whole(tmp_path: Path, kind: str) -> None:
    """25 kills at seeded moments for each way of exchanging, in all 50; what a user put there is in it each time."""
    target = tmp_path / "site"
    build(target, 0, kind)
    put(target, THEIRS)
    moment = random.Random(kind)
    swaps = 0
    for _kill in range(25):
        before = int(generations(target).pop())
        command = [sys.executable, "-m", "tests.swap_worker", str(target), kind, str(before + 1)]
        with running(command, REPOSITORY, stdout=subprocess.PIPE) as worker:
            assert worker.stdout is not None
            worker.stdout.readline()  # it is past its first swap, so kills fall into building and swapping alike
            time.sleep(moment.uniform(0, 0.03))
            worker.send_signal(signal.SIGKILL)
            told = [before + 1, *(int(line) for line in worker.stdout)]
        recover(target)
        (seen,) = generations(target)
        assert int(seen) in (told[-1], told[-1] + 1)
        assert target.joinpath(MARKER).is_file()
        assert neighbours(target) == []
        assert kept(target) == THEIRS
        swaps += int(seen) - before
    print(f"{kind}: {swaps} swaps, 25 kills, none left half a site")


def moved_away(target: Path, name: str = "old") -> None:
    """As a run leaves it that was killed between two renames."""
    work = target.with_name(f".{target.name}.handbook-work-aaaa")
    work.mkdir()
    target.rename(work / name)


def test_a_kill_between_two_renames_is_mended_by_the_next_run(tmp_path: Path) -> None:
    target = tmp_path / "site"
    build(target, 1)
    moved_away(target)
    build(target, 2, "two-renames")
    assert generations(target) == {"2"}
    assert neighbours(target) == []


@pytest.mark.parametrize("meanwhile", [False, True])
def test_a_target_moved_away_by_a_killed_run_comes_back(tmp_path: Path, meanwhile: bool) -> None:
    """Also where something made an empty folder in its place."""
    target = tmp_path / "site"
    build(target, 1)
    moved_away(target)
    if meanwhile:
        target.mkdir()
    recover(target)
    assert generations(target) == {"1"}


def test_a_half_cleared_folder_never_comes_back(tmp_path: Path) -> None:
    target = tmp_path / "site"
    build(target, 1)
    moved_away(target, "old-gone")
    recover(target)
    assert not target.exists()
    assert neighbours(target) == []


def test_leftovers_of_another_site_in_the_same_folder_stay(tmp_path: Path) -> None:
    other = tmp_path / ".site-two.handbook-work-aaaa"
    other.mkdir()
    build(tmp_path / "site", 1)
    assert other.is_dir()


def test_a_folder_that_another_run_is_building_stays(tmp_path: Path) -> None:
    target = tmp_path / "site"
    with replacing(target) as mine:
        write_generation(mine, 1)
        build(target, 2)
        assert mine.is_dir()
    assert generations(target) == {"1"}
    assert neighbours(target) == []


@pytest.mark.parametrize("kind", sorted(EXCHANGES))
def test_a_system_without_locks_builds_too(
    tmp_path: Path, kind: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Neither fcntl nor msvcrt: what a killed run left cannot be told from a living one's, so it stays and is named."""
    monkeypatch.setattr("generator.site.lock._fcntl", None)
    target = tmp_path / "site"
    for generation in (1, 2):
        build(target, generation, kind)
    assert generations(target) == {"2"} and neighbours(target) == []
    left = tmp_path / ".site.handbook-work-aaaa"
    left.mkdir()
    build(target, 3, kind)
    assert generations(target) == {"3"} and left_beside(target) == [left]


def test_windows_locks_by_its_own_module(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A stand-in for msvcrt, which answers EACCES where another process has locked the byte."""
    locked: list[int] = []

    class Msvcrt:
        LK_NBLCK = 2

        @staticmethod
        def locking(number: int, mode: int, count: int) -> None:
            assert (mode, count) == (2, 1)
            if locked:
                raise PermissionError(13, "Permission denied")
            locked.append(number)

    monkeypatch.setattr("generator.site.lock._fcntl", None)
    monkeypatch.setattr("generator.site.lock._msvcrt", Msvcrt)
    with held(tmp_path / "lock"), pytest.raises(InUse), held(tmp_path / "lock"):
        pytest.fail("two hold it")
    assert len(locked) == 1


def test_a_failed_build_changes_nothing(tmp_path: Path) -> None:
    target = tmp_path / "site"
    build(target, 1)
    with pytest.raises(ZeroDivisionError), replacing(target) as fresh:
        write_generation(fresh, 2)
        _ = 1 // 0
    assert generations(target) == {"1"}
    assert neighbours(target) == []


def test_a_folder_that_is_not_ours_is_refused(tmp_path: Path) -> None:
    target = tmp_path / "site"
    target.mkdir()
    target.joinpath("photo.jpg").write_bytes(b"precious")
    with pytest.raises(TargetRefused, match="was not made by"), replacing(target):
        pytest.fail("the work must not even start")
    assert target.joinpath("photo.jpg").read_bytes() == b"precious"
    assert neighbours(target) == []


def test_a_folder_filled_while_we_build_is_refused(tmp_path: Path) -> None:
    target = tmp_path / "site"
    with pytest.raises(TargetRefused, match="was not made by"), replacing(target):
        target.mkdir()
        target.joinpath("photo.jpg").write_bytes(b"precious")
    assert target.joinpath("photo.jpg").read_bytes() == b"precious"


def test_a_file_in_the_way_is_refused(tmp_path: Path) -> None:
    target = tmp_path / "site"
    target.write_text("a file")
    with pytest.raises(TargetRefused, match="is a file"), replacing(target):
        pytest.fail("the work must not even start")


def test_an_empty_folder_and_a_missing_one_are_fine(tmp_path: Path) -> None:
    empty, missing = tmp_path / "empty", tmp_path / "not" / "there" / "yet"
    empty.mkdir()
    for target in (empty, missing):
        build(target, 7)
        assert generations(target) == {"7"}


@pytest.mark.parametrize("name", ["si*te", "si[te]", "site with space", "-site", "sïte"])
def test_any_folder_name_will_do(tmp_path: Path, name: str) -> None:
    for generation in (1, 2):
        build(tmp_path / name, generation, "two-renames")
    assert generations(tmp_path / name) == {"2"}
    assert neighbours(tmp_path / name) == []


def test_a_link_stays_a_link_and_its_folder_is_replaced(tmp_path: Path) -> None:
    real, link = tmp_path / "disk" / "web", tmp_path / "site"
    real.parent.mkdir()
    build(real, 1)
    link.symlink_to(real)
    build(link, 2)
    assert link.is_symlink()
    assert generations(real) == {"2"}
    assert neighbours(real) == []


@pytest.mark.parametrize("below", ["", "deep/site"])
@pytest.mark.parametrize("to", ["unmounted/web", "site"])
def test_a_link_that_leads_nowhere_is_refused_and_nothing_is_made(
    tmp_path: Path, to: str, below: str
) -> None:
    """To a folder that is not there, as on a disk that is not mounted, or to itself; as the target and above it."""
    link = tmp_path / "site"
    link.symlink_to(tmp_path / to)
    with (
        pytest.raises(TargetRefused, match="there is nothing there"),
        replacing(link / below),
    ):
        pytest.fail("the work must not even start")
    assert link.is_symlink() and neighbours(link) == []
    link.unlink()
    link.symlink_to(tmp_path / "web")
    tmp_path.joinpath("web").mkdir()
    build(link / below, 1)
    assert generations(tmp_path / "web" / below) == {"1"}


def test_a_link_to_a_folder_that_is_not_ours_is_refused_and_loses_nothing(tmp_path: Path) -> None:
    mine, link = tmp_path / "photos", tmp_path / "site"
    mine.mkdir()
    mine.joinpath("photo.jpg").write_bytes(b"precious")
    link.symlink_to(mine)
    with pytest.raises(TargetRefused, match="was not made by"), replacing(link):
        pytest.fail("the work must not even start")
    assert link.is_symlink() and mine.joinpath("photo.jpg").read_bytes() == b"precious"


@pytest.mark.parametrize("mask", [0o022, 0o027, 0o077])
def test_the_modes_follow_the_umask(tmp_path: Path, mask: int) -> None:
    before = os.umask(mask)
    try:
        build(tmp_path / "site", 1)
        build(tmp_path / "site", 2)
    finally:
        os.umask(before)
    entries = [tmp_path / "site", *(tmp_path / "site").rglob("*")]
    for entry in entries:
        full = 0o777 if entry.is_dir() else 0o666
        assert stat.S_IMODE(entry.stat().st_mode) == full & ~mask


@pytest.mark.skipif(as_root, reason="root may write everywhere")
def test_a_read_only_place_is_refused_before_the_work_starts(tmp_path: Path) -> None:
    place = tmp_path / "place"
    place.mkdir()
    place.chmod(0o555)
    with pytest.raises(TargetRefused, match="cannot write beside"), replacing(place / "site"):
        pytest.fail("the work must not even start")


@pytest.mark.skipif(not as_root, reason="only root can give up being root")
def test_a_read_only_place_is_refused_for_a_plain_user() -> None:
    """The same as above for a run as root: the child becomes nobody first."""
    code = (
        "import os, sys; from pathlib import Path; from generator.site.swap import replacing, TargetRefused\n"
        "os.setuid(65534)\n"
        "try:\n    with replacing(Path(sys.argv[1])): print('started')\n"
        "except TargetRefused as why: print('refused:', why)"
    )
    with tempfile.TemporaryDirectory() as place:  # pytest's own folder is closed to others
        Path(place).chmod(0o755)
        target = Path(place) / "site"
        build(target, 1)
        command = [sys.executable, "-c", code, str(target)]
        ran = subprocess.run(command, cwd=REPOSITORY, text=True, capture_output=True)
        assert ran.stdout.startswith("refused: cannot write beside"), ran.stdout + ran.stderr
        assert generations(target) == {"1"}


def test_files_that_cannot_grow_leave_the_old_site(tmp_path: Path) -> None:
    """A limit on the size of files stands for a disk that is full (EFBIG where ENOSPC would come)."""
    target = tmp_path / "site"
    build(target, 1)
    soft, hard = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (5000, hard))
    try:
        with pytest.raises(OSError, match="too large"), replacing(target) as fresh:
            write_generation(fresh, 2, size=20_000)
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, (soft, hard))
    assert generations(target) == {"1"}
    assert neighbours(target) == []


@pytest.fixture
def small_disk(tmp_path: Path) -> Iterator[Path]:
    """A file system of 400 kB."""
    disk = tmp_path / "disk"
    disk.mkdir()
    mounted = subprocess.run(
        ["mount", "-t", "tmpfs", "-o", "size=400k", "tmpfs", str(disk)], capture_output=True, text=True
    )
    if mounted.returncode != 0:
        pytest.skip(f"no small file system can be mounted here: {mounted.stderr.strip()}")
    yield disk
    subprocess.run(["umount", str(disk)], check=True)


def test_a_full_disk_leaves_the_old_site(small_disk: Path) -> None:
    target = small_disk / "site"
    build(target, 1)
    with pytest.raises(OSError, match="No space left"), replacing(target) as fresh:
        write_generation(fresh, 2, size=40_000)
    assert generations(target) == {"1"}
    assert neighbours(target) == []


@pytest.mark.parametrize("below", [".", "part-1/disk"])
def test_a_mount_point_is_found_before_the_build(small_disk: Path, tmp_path: Path, below: str) -> None:
    """The target itself, or a folder in it, bound there from a place on the same disk."""
    target, elsewhere = tmp_path / "site", tmp_path / "elsewhere"
    build(target, 1)
    mount, other = target / below, elsewhere / "site"
    build(other, 1)
    mount.mkdir(exist_ok=True)
    subprocess.run(["mount", "--bind", str(other), str(mount)], check=True)
    try:
        with pytest.raises(TargetRefused, match="is a mount point"), replacing(target):
            pytest.fail("the work must not even start")
    finally:
        subprocess.run(["umount", str(mount)], check=True)
    assert generations(target) == generations(other) == {"1"}
    with pytest.raises(TargetRefused, match="is a mount point"):
        check_target(small_disk)
