"""Keeps what others put into a handbook's folder when a new handbook takes its place."""

import errno
import os
import shutil
from collections.abc import Sequence
from pathlib import Path

from generator.site.marker import is_marked, made_in, theirs_in


def in_the_way(fresh: Path, old: Path, kept: Sequence[Path]) -> list[Path]:
    """Those whose place the new handbook needs."""
    return [path for path in kept if _is_taken(fresh, path, _is_folder(old / path))]


def _is_taken(fresh: Path, path: Path, folder: bool) -> bool:
    if os.path.lexists(fresh / path):
        return not (folder and _is_folder(fresh / path))
    return any(os.path.lexists(fresh / above) and not _is_folder(fresh / above) for above in path.parents)


def carry(old: Path, fresh: Path, kept: Sequence[Path]) -> None:
    """Each is then in both places, a file under two names, so that a kill at any moment leaves it in one of them."""
    for path in kept:
        fresh.joinpath(path).parent.mkdir(parents=True, exist_ok=True)
        if _is_folder(old / path):
            fresh.joinpath(path).mkdir(exist_ok=True)
        else:
            _twin(old / path, fresh / path)
    for path in reversed(kept):
        if _is_folder(old / path):
            shutil.copystat(old / path, fresh / path)


def _twin(source: Path, to: Path) -> None:
    if source.is_symlink():
        to.symlink_to(source.readlink(), target_is_directory=source.is_dir())
        return
    try:
        to.hardlink_to(source)
    except OSError as fault:
        # what lies on another disk would be copied here and then cleared there
        if fault.errno in (errno.EXDEV, errno.EEXIST):
            raise
        shutil.copy2(source, to)


def bring_over(old: Path, real: Path) -> bool:
    """What came into the old folder after it was carried; False where something of theirs has no place."""
    if not is_marked(old):
        return True  # half built: nothing of theirs was carried yet
    theirs = theirs_in(old)
    if not is_marked(real):
        return not theirs
    made = made_in(real)
    brought = [_brought(old / path, real / path, path.as_posix() in made) for path in theirs]
    return all(brought)


def _brought(source: Path, to: Path, is_made: bool) -> bool:
    try:
        if _is_folder(source):
            to.mkdir(parents=True, exist_ok=True)
        elif not os.path.lexists(to):
            to.parent.mkdir(parents=True, exist_ok=True)
            source.rename(to)
        elif source.lstat().st_mtime_ns > to.lstat().st_mtime_ns:
            if is_made:
                return False
            source.replace(to)
    except OSError:
        return False
    return True


def _is_folder(path: Path) -> bool:
    return path.is_dir() and not path.is_symlink()
