"""Handbooks built once for all tests of a run that look at files: the demo's, and one of a club that types markup."""

from pathlib import Path

import pytest

from generator.cli import main
from generator.shipped import shipped_root
from tests.hostile_club import WAYS, files_of, hostile_club, write_files


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
