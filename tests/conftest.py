"""Handbooks built once for all tests of a run that look at files: the demo's, and one of a club that types markup."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from generator.cli import main
from generator.model.dataset import Shelf
from generator.model.node import LoadedFolder
from generator.problems import Problem
from generator.shipped import shipped_root
from generator.validate.shelf import build_shelf
from tests.clubs import shelf_files
from tests.hostile_club import WAYS, files_of, hostile_club, write_files


@pytest.fixture(scope="session", autouse=True)
def _one_shelf() -> Iterator[None]:
    """What ships is validated once a run, however many clubs are; a folder that a test changed is validated anew."""
    shipped, problems = build_shelf(shelf_files())

    def shared(folder: LoadedFolder) -> tuple[Shelf, list[Problem]]:
        return (shipped, list(problems)) if folder is shelf_files() else build_shelf(folder)

    with pytest.MonkeyPatch.context() as patched:
        patched.setattr("generator.validate.dataset.build_shelf", shared)
        yield


@pytest.fixture(scope="session")
def demo_folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("demo") / "site"
    demo = shipped_root() / "data" / "demo"
    assert main(["build", "--club", str(demo), "--to", str(folder)]) == 0
    return folder


@pytest.fixture(scope="session")
def hostile_folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("hostile")
    club = write_files(files_of(hostile_club(*WAYS)), folder / "club")
    assert main(["build", "--club", str(club), "--to", str(folder / "site")]) == 0
    return folder / "site"
