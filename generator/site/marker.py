"""The file that says a folder is a handbook and which of its files the build made; the others are somebody's own."""

import os
from collections.abc import Iterator
from pathlib import Path

MARKER = ".handbook-site"
_HEAD = "The files named here are made by `handbook build`, which keeps all others in this folder.\n"


def mark(folder: Path) -> None:
    """Every file there is now counts as made by the build.  Written beside and renamed: a marker is never half."""
    made = sorted(path.relative_to(folder).as_posix() for path in _files(folder))
    beside = folder / f"{MARKER}.part"
    beside.write_text(_HEAD + "".join(f"{path}\n" for path in made), encoding="utf-8", newline="\n")
    beside.replace(folder / MARKER)


def _files(folder: Path) -> Iterator[Path]:
    for place, _, names in os.walk(folder, onerror=_fail):
        yield from (Path(place, name) for name in names if name not in (MARKER, f"{MARKER}.part"))


def is_marked(folder: Path) -> bool:
    return folder.joinpath(MARKER).is_file()


def made_in(folder: Path) -> frozenset[str]:
    """The files below a folder that a build made, the marker among them; none in a folder without a marker."""
    if not is_marked(folder):
        return frozenset()
    text = folder.joinpath(MARKER).read_text(encoding="utf-8", errors="surrogateescape")
    paths = text.removeprefix(_HEAD).splitlines() if text.startswith(_HEAD) else ()
    return frozenset((MARKER, *paths))


def theirs_in(folder: Path) -> list[Path]:
    """What else is there, relative, a folder before what is in it: files, links, and folders that hold none of ours."""
    made = made_in(folder)
    ours = made | {parent.as_posix() for path in made for parent in Path(path).parents}
    found: list[Path] = []
    for place, folders, files in os.walk(folder, onerror=_fail):
        here = Path(place).relative_to(folder)
        for path in (here / name for name in (*sorted(folders), *sorted(files))):
            known = made if folder.joinpath(path).is_symlink() else ours
            if path.as_posix() not in known:
                found.append(path)
    return found


def _fail(fault: OSError) -> None:
    """A folder that cannot be read may hold anything."""
    raise fault
