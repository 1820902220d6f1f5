"""The folder beside a target in which a build works, and what a killed build left in one."""

import os
import shutil
import stat
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager, suppress
from pathlib import Path
from uuid import uuid4

from generator.site.carry import bring_over
from generator.site.lock import InUse, held

NEW, OLD, _LOCK = "new", "old", "lock"
_WRITE = stat.S_IRWXU


@contextmanager
def working_folder(real: Path) -> Iterator[Path]:
    """Beside the target, with an empty folder NEW in it; held, and cleared at the end."""
    real.parent.mkdir(parents=True, exist_ok=True)
    with ExitStack() as stack:
        work = _held_folder(real, stack)
        try:
            work.joinpath(NEW).mkdir()
            yield work
        finally:
            _clear(work, real)


def _held_folder(real: Path, stack: ExitStack) -> Path:
    while True:
        work = real.with_name(f"{_prefix(real)}{uuid4().hex[:12]}")
        work.mkdir()
        stack.callback(_last_of, work)  # after it is let go
        with suppress(InUse, FileNotFoundError):  # cleared by another run before it was held: try again
            stack.enter_context(held(work / _LOCK, without=True))
            return work


def recover(real: Path) -> None:
    """What a killed run left: bring back a target that was moved away, clear the rest."""
    for work in _beside(real):
        with suppress(OSError, InUse):
            with held(work / _LOCK):
                _clear(work, real)
            _last_of(work)


def leftovers(real: Path) -> list[Path]:
    """Working folders that no living run holds and that could not be cleared."""
    recover(real)
    return [work for work in _beside(real) if not _in_use(work)]


def _in_use(work: Path) -> bool:
    try:
        with suppress(OSError), held(work / _LOCK):
            pass
    except InUse:
        return True
    return False


def _prefix(real: Path) -> str:
    return f".{real.name}.handbook-work-"


def _beside(real: Path) -> list[Path]:
    """Names are compared, not globbed, since a name may hold `*` or `[`."""
    if not real.parent.is_dir():
        return []
    return sorted(entry for entry in real.parent.iterdir() if entry.name.startswith(_prefix(real)))


def _clear(work: Path, real: Path) -> None:
    """Nothing of others is cleared that the target does not have."""
    old = work / OLD
    if old.is_dir() and _is_free(real):
        old.rename(real)
    for folder in (old, work / NEW):
        if folder.is_dir():
            if not bring_over(folder, real):
                return
            # a half-cleared folder must never be taken for a whole old site
            folder.rename(folder.with_name(f"{folder.name}-gone"))
    _wipe(work)


def _is_free(real: Path) -> bool:
    with suppress(OSError):
        real.rmdir()  # an empty folder that took the place meanwhile; any other stays
    return not os.path.lexists(real)


def _wipe(work: Path) -> None:
    """Files need no right to be written to go, folders do."""
    for place, folders, _ in os.walk(work):
        for path in (Path(place, name) for name in folders):
            with suppress(OSError):
                if not path.is_symlink() and path.stat().st_mode & _WRITE != _WRITE:
                    path.chmod(_WRITE)
    shutil.rmtree(work, ignore_errors=True)


def _last_of(work: Path) -> None:
    """Some systems do not take away a file that is open."""
    with suppress(OSError):
        if [entry.name for entry in work.iterdir()] == [_LOCK]:
            work.joinpath(_LOCK).unlink()
            work.rmdir()
