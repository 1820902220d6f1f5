"""Lays the samples of the problem catalogue over the small base club, on disk, and reads them as any folder."""

from collections.abc import Mapping
from functools import cache
from pathlib import Path
from shutil import copytree

import pytest

from generator.load.files import read_club
from generator.load.folder import load_club, load_shelf
from generator.model.node import LoadedFolder
from generator.problems import Problem
from generator.validate.dataset import build_dataset

DATA = Path(__file__).resolve().parent.parent / "data"


def problems_of(sample: Mapping[str, str], room: Path, patch: pytest.MonkeyPatch) -> tuple[Problem, ...]:
    """Everything `handbook check` would say about the sample."""
    club = room / "club"
    copytree(DATA / "problems_base", club)
    shelf = _shelf(_shelf_with(sample, room))
    for name, text in sample.items():
        if not name.startswith("data/"):
            _lay(club, name, text, patch)
    return build_dataset(load_club(club), shelf)[1]


@cache
def _shelf(data: Path) -> LoadedFolder:
    return load_shelf(data)


def _shelf_with(sample: Mapping[str, str], room: Path) -> Path:
    """The shipped data, copied only where the sample changes them."""
    changes = {name.removeprefix("data/"): text for name, text in sample.items() if name.startswith("data/")}
    if not changes:
        return DATA
    shelf = room / "data"
    copytree(DATA, shelf)
    for name, text in changes.items():
        start, _, rest = text.partition("\n")
        before = (shelf / name).read_text("utf-8") if start == "<as shipped, and>" else ""
        (shelf / name).write_text(before + (rest if before else text), "utf-8")
    return shelf


def _lay(club: Path, name: str, text: str, patch: pytest.MonkeyPatch) -> None:
    path = club / name
    match text.split():
        case ["<not", "there>"] if name == ".":
            club.rename(club.with_name("elsewhere"))
        case ["<not", "there>"]:
            path.unlink(missing_ok=True)
        case ["<a", "folder>"]:
            path.unlink()
            path.mkdir()
        case ["<a", "link", "to", target]:
            path.rename(club.parent / target.rstrip(">"))
            path.symlink_to(club.parent / target.rstrip(">"))
        case ["<not", "allowed", *_]:
            _shut(path, patch)
        case [count, "characters>"]:
            path.write_text("#" * int(count.lstrip("<")), "utf-8")
        case ["<bytes:", *codes]:
            path.write_bytes(bytes.fromhex(" ".join(codes).rstrip(">")))
        case _:
            path.write_text(text, "utf-8")


def _shut(shut: Path, patch: pytest.MonkeyPatch) -> None:
    """Permissions do not stop an administrator, so the refusal of the system is played."""
    really = Path.open

    def refuse(path: Path, *arguments: object, **more: object) -> object:
        if path == shut:
            raise PermissionError(13, "Permission denied", str(path))
        return really(path, *arguments, **more)  # type: ignore[call-overload]

    patch.setattr(Path, "open", refuse)


def check_club(changed: dict[str, bytes]) -> tuple[Problem, ...]:
    """What check would say about the base club with some files changed, without a disk."""
    files = {path.name: path.read_bytes() for path in (DATA / "problems_base").iterdir()}
    return build_dataset(read_club(files | changed), _shelf(DATA))[1]
