"""Puts a freshly built folder in the place of an older one; a reader meets the old or the new one whole.

Goes in: the target folder.  Comes out: an empty folder to build in, that takes the target's place at the end.
"""

import fcntl
import os
import shutil
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from uuid import uuid4

from generator.site.exchange import exchanged

MARKER = ".handbook-site"
MARKER_TEXT = "This folder is rewritten as a whole by `handbook build`.\n"


class TargetRefused(Exception):
    """The target cannot be replaced, or must not be."""


@contextmanager
def replacing(target: Path, exchange: Callable[[Path, Path], bool] = exchanged) -> Iterator[Path]:
    """Yields a new folder beside the target; it takes the target's place when the block ends well."""
    real = _real(target)
    try:
        check_target(real)
        fresh, lock = _new_folder(real)
    except OSError as fault:
        raise TargetRefused(f"cannot write beside {real}: {fault.strerror or fault}") from fault
    try:
        yield fresh
        mark(fresh)
        _take_place(fresh, real, exchange)
    finally:
        os.close(lock)
        shutil.rmtree(fresh, ignore_errors=True)


def check_target(target: Path) -> None:
    """Refuses a target before the work that would fill it."""
    real = _real(target)
    recover(real)
    _refuse_foreign(real)


def _real(target: Path) -> Path:
    """A link stays a link: the folder it leads to is replaced.  One that leads nowhere is refused, on the target or
    above it, as what it leads to may be a disk that is not mounted."""
    for place in (target, *target.parents):
        if place.is_symlink() and not place.exists():
            raise TargetRefused(f"{place} is a link to {place.readlink()}, and there is nothing there")
    return target.resolve()


def mark(folder: Path) -> None:
    """Says that the folder is ours to replace."""
    folder.joinpath(MARKER).write_text(MARKER_TEXT, encoding="utf-8")


def recover(real: Path) -> None:
    """What a killed run left: bring back a target that was moved away, clear the rest."""
    if not real.parent.is_dir():
        return
    for moved in sorted(_beside(real, "old")):
        with suppress(OSError), _held(moved):
            if real.exists():
                _discard(moved)
            else:
                moved.rename(real)
    for leftover in sorted([*_beside(real, "new"), *_beside(real, "gone")]):
        with suppress(OSError), _held(leftover):
            shutil.rmtree(leftover, ignore_errors=True)


def _refuse_foreign(real: Path) -> None:
    if not real.exists():
        return
    if not real.is_dir():
        raise TargetRefused(f"{real} is a file, not a folder")
    if any(real.iterdir()) and not real.joinpath(MARKER).is_file():
        raise TargetRefused(f"{real} is not empty and was not made by `handbook build`: nothing was changed")
    if not os.access(real.parent, os.W_OK | os.X_OK):
        raise TargetRefused(f"cannot write beside {real}: the folder {real.parent} is read-only")


def _beside(real: Path, role: str) -> list[Path]:
    """Our own folders beside the target; the name is compared, not globbed, since it may hold `*` or `[`."""
    prefix = f".{real.name}.handbook-{role}-"
    return [entry for entry in real.parent.iterdir() if entry.name.startswith(prefix)]


def _name_beside(real: Path, role: str) -> Path:
    return real.with_name(f".{real.name}.handbook-{role}-{uuid4().hex[:12]}")


def _new_folder(real: Path) -> tuple[Path, int]:
    """A new folder, locked for as long as this process lives, so that no other run clears it."""
    real.parent.mkdir(parents=True, exist_ok=True)
    while True:
        fresh = _name_beside(real, "new")
        fresh.mkdir()
        with suppress(FileNotFoundError):  # cleared by another run before it was locked: try again
            lock = os.open(fresh, os.O_RDONLY)
            fcntl.flock(lock, fcntl.LOCK_EX)
            if fresh.exists():
                return fresh, lock
            os.close(lock)


@contextmanager
def _held(folder: Path) -> Iterator[None]:
    """Holds the lock of a folder, under whatever name it goes; an OSError where a living process holds it."""
    lock = os.open(folder, os.O_RDONLY)
    try:
        fcntl.flock(lock, fcntl.LOCK_EX | fcntl.LOCK_NB)
        yield
    finally:
        os.close(lock)


def _take_place(fresh: Path, real: Path, exchange: Callable[[Path, Path], bool]) -> None:
    try:
        _refuse_foreign(real)  # someone may have put a folder there while we built
        if not real.exists():
            fresh.rename(real)
        elif not exchange(fresh, real):
            _rename_pair(fresh, real)
    except OSError as fault:
        raise TargetRefused(f"cannot replace {real}: {fault.strerror or fault}") from fault


def _rename_pair(fresh: Path, real: Path) -> None:
    """Two renames; killed between them, the next run brings the old folder back."""
    with _held(real):
        old = _name_beside(real, "old")
        real.rename(old)
        try:
            fresh.rename(real)
        except OSError:
            old.rename(real)
            raise
        _discard(old)


def _discard(old: Path) -> None:
    """Renamed before it is cleared: a half-cleared folder must never be taken for a whole old site."""
    gone = old.with_name(old.name.replace(".handbook-old-", ".handbook-gone-"))
    old.rename(gone)
    shutil.rmtree(gone, ignore_errors=True)
