"""What a handbook is made from on disk, and whether any of it has changed."""

from collections.abc import Iterator
from pathlib import Path
from stat import S_ISDIR

Stamp = tuple[int, int]
# of the program: what people change while they look at it
_OF_THE_PROGRAM = ("data", "handbook_src", "site_overrides", "mkdocs.yml")


def state_of(club: Path, program: Path) -> dict[Path, Stamp]:
    """Every file with its time and size; a folder that is away has none."""
    files = [*_listed(club), *(file for name in _OF_THE_PROGRAM for file in _below(program / name))]
    return {file: stamp for file in files if (stamp := _stamp(file)) is not None}


def _listed(folder: Path) -> Iterator[Path]:
    """A club's own folder is read, not those in it: a built handbook may lie there."""
    try:
        yield from folder.iterdir()
    except OSError:
        return


def _below(path: Path) -> Iterator[Path]:
    yield from path.rglob("*") if path.is_dir() else (path,)


def _stamp(file: Path) -> Stamp | None:
    try:
        found = file.stat()
    except OSError:
        return None
    return (0, 0) if S_ISDIR(found.st_mode) else (found.st_mtime_ns, found.st_size)
