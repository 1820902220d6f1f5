"""Which folders a build may replace: its own and empty ones, none that holds what it is made from."""

import os
import re
from collections.abc import Mapping
from pathlib import Path

from generator.site.marker import MARKER, is_marked, made_in

_MOUNTS = Path("/proc/self/mountinfo")  # Linux, proc(5)


class TargetRefused(Exception):
    """The target cannot be replaced, or must not be."""


def real_folder(target: Path) -> Path:
    """A link stays a link: the folder it leads to is replaced.  One that leads nowhere is refused, on the target or
    above it, as what it leads to may be a disk that is not mounted."""
    for place in (target, *target.parents):
        if place.is_symlink() and not place.exists():
            raise TargetRefused(f"{place} is a link to {place.readlink()}, and there is nothing there")
    return target.resolve()


def refuse_foreign(real: Path) -> None:
    """A target that was not made by a build, or that no build could replace."""
    if not real.exists():
        return
    if not real.is_dir():
        raise TargetRefused(f"{real} is a file, not a folder")
    names = [entry.name for entry in real.iterdir()]
    if names and not is_marked(real):
        raise TargetRefused(f"{real} is not empty and was not made by `handbook build`: nothing was changed")
    if names not in ([], [MARKER]) and made_in(real) == {MARKER}:
        raise TargetRefused(f"{real / MARKER} does not say which files a build made: move {real} away")
    for mount in _mounted(real):
        raise TargetRefused(f"{mount} is a mount point and cannot be replaced: name a folder below it")
    if not os.access(real.parent, os.W_OK | os.X_OK):
        raise TargetRefused(f"cannot write beside {real}: the folder {real.parent} is read-only")


def _mounted(real: Path) -> list[Path]:
    """The target itself and what is mounted below it."""
    if not _MOUNTS.is_file():
        return [real] if os.path.ismount(real) else []
    text = _MOUNTS.read_text(encoding="utf-8", errors="surrogateescape")
    places = [Path(_unescaped(line.split(" ")[4])) for line in text.splitlines()]
    return sorted(place for place in places if place.is_relative_to(real))


def _unescaped(text: str) -> str:
    """Blanks and the like stand there as octal numbers."""
    return re.sub(r"\\([0-7]{3})", lambda found: chr(int(found[1], 8)), text)


def refuse_around(real: Path, sources: Mapping[str, Path]) -> None:
    """A target that holds what it is made from; `sources` by what they are to the user."""
    for what, place in sources.items():
        if place.resolve().is_relative_to(real):
            raise TargetRefused(f"{real} holds {what}: name a folder of its own for the handbook")


def git_of(folder: Path) -> Path | None:
    """Where the history of a working folder is kept."""
    return next((place / ".git" for place in (folder, *folder.parents) if (place / ".git").exists()), None)
