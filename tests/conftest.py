"""Handbooks built once for all tests of a run that look at files: the demo's, and one of a club that types markup."""

import gc
import os
from collections.abc import Collection, Iterator, Mapping
from pathlib import Path
from shutil import rmtree
from tempfile import mkdtemp

import pytest

from generator.cli import main
from generator.load.files import read_shelf
from generator.model.dataset import Shelf
from generator.model.node import LoadedFolder
from generator.problems import Problem
from generator.shipped import shipped_root
from generator.validate.shelf import build_shelf
from tests.clubs import shelf_files
from tests.handbook import bodies
from tests.hostile_club import WAYS, files_of, hostile_club, write_files
from tests.once import ROOM, folder_once

EVERYTHING = 2000  # tests


def pytest_configure(config: pytest.Config) -> None:
    """Workers inherit what is set here."""
    if not hasattr(config, "workerinput"):
        os.environ[ROOM] = room = mkdtemp(prefix="handbook-tests-")
        config.add_cleanup(lambda: rmtree(room, ignore_errors=True))


@pytest.fixture(scope="module", autouse=True)
def _collector() -> Iterator[None]:
    """What a module of tests keeps is kept by all that follow, so that nobody looks through it again."""
    yield
    gc.collect()
    gc.freeze()


@pytest.fixture(scope="session", autouse=True)
def _one_shelf() -> Iterator[None]:
    """What ships is read and validated once a run, however many clubs are; a folder that a test changed is anew."""
    shipped, problems = build_shelf(shelf_files())
    texts = shelf_files().texts

    def read(
        files: Mapping[str, bytes], found: tuple[Problem, ...] = (), parsed: Collection[str] | None = None
    ) -> LoadedFolder:
        same = not found and parsed is None and files.keys() == texts.keys()
        same = same and all(raw == texts[name].encode() for name, raw in files.items())
        return shelf_files() if same else read_shelf(files, found, parsed)

    def shared(folder: LoadedFolder) -> tuple[Shelf, list[Problem]]:
        return (shipped, list(problems)) if folder is shelf_files() else build_shelf(folder)

    with pytest.MonkeyPatch.context() as patched:
        patched.setattr("generator.load.folder.read_shelf", read)
        patched.setattr("generator.validate.dataset.build_shelf", shared)
        yield


@pytest.fixture(scope="session", autouse=True)
def _made_first(request: pytest.FixtureRequest, _one_shelf: None) -> None:
    """A run of everything begins with what many ask for, one half in each worker."""
    if request.session.testscollected > EVERYTHING:
        if os.environ.get("PYTEST_XDIST_WORKER") == "gw0":
            bodies()
        if os.environ.get("PYTEST_XDIST_WORKER") == "gw1":
            request.getfixturevalue("demo_folder")


@pytest.fixture(scope="session")
def demo_folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    def make(folder: Path) -> None:
        demo = shipped_root() / "data" / "demo"
        assert main(["build", "--club", str(demo), "--to", str(folder)]) == 0

    return folder_once("demo", tmp_path_factory.mktemp("demo") / "site", make)


@pytest.fixture(scope="session")
def hostile_folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    def make(folder: Path) -> None:
        club = write_files(files_of(hostile_club(*WAYS)), folder.with_name(f"{folder.name}-club"))
        assert main(["build", "--club", str(club), "--to", str(folder)]) == 0

    return folder_once("hostile", tmp_path_factory.mktemp("hostile") / "site", make)
