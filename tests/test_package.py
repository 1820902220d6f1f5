"""A wheel made from the sdist does the whole job outside the checkout, with its files read-only."""

import os
import stat
import subprocess
import sys
import sysconfig
import venv
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent


def run(*command: str | Path, cwd: Path) -> subprocess.CompletedProcess[str]:
    clean = {key: value for key, value in os.environ.items() if not key.startswith("PYTHON")}
    return subprocess.run(
        [str(part) for part in command], cwd=cwd, env=clean, capture_output=True, text=True, check=False
    )


@pytest.fixture(scope="module")
def installed(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A virtual environment with the wheel; what it depends on is lent by the one that runs the tests."""
    folder = tmp_path_factory.mktemp("package")
    built = run(sys.executable, "-m", "build", "--no-isolation", "--outdir", folder, ROOT, cwd=folder)
    assert built.returncode == 0, built.stdout[-2000:] + built.stderr[-2000:]
    (wheel,) = folder.glob("*.whl")
    home = folder / "env"
    venv.create(home, with_pip=False)
    (packages,) = home.glob("lib/python*/site-packages")
    install = run(
        *(sys.executable, "-m", "pip", "install", "--quiet", "--no-deps", "--no-index", "--ignore-installed"),
        *("--prefix", home, wheel),
        cwd=folder,
    )
    assert install.returncode == 0, install.stderr
    (packages / "lent.pth").write_text(sysconfig.get_paths()["purelib"] + "\n", encoding="utf-8")
    for path in sorted((packages / "generator").rglob("*")):
        path.chmod(path.stat().st_mode & ~(stat.S_IWUSR | stat.S_IWGRP | stat.S_IWOTH))
    return home


def contents(home: Path) -> dict[str, int]:
    files = (path for path in home.rglob("generator/**/*") if path.is_file() and path.suffix != ".pyc")
    return {str(path): path.stat().st_mtime_ns for path in files}


def test_the_installed_wheel_starts_and_builds_a_club(installed: Path, tmp_path: Path) -> None:
    python = installed / "bin" / "python"
    handbook = (python, "-m", "generator")
    where = run(python, "-c", "import generator; print(generator.__file__)", cwd=tmp_path)
    assert Path(where.stdout.strip()).is_relative_to(installed), where.stderr
    before = contents(installed)
    started = run(*handbook, "start", "club", cwd=tmp_path)
    assert started.returncode == 0, started.stderr
    built = run(*handbook, "build", "--club", "club", "--to", "out", cwd=tmp_path)
    assert built.returncode == 0, built.stderr
    assert (tmp_path / "out" / "index.html").is_file()
    assert (tmp_path / "out" / "data" / "v1" / "fits.json").is_file()
    # root may write anywhere, so look whether anything was
    assert contents(installed) == before


def test_the_wheel_carries_the_demo(installed: Path, tmp_path: Path) -> None:
    python = installed / "bin" / "python"
    checked = run(python, "-m", "generator", "check", cwd=tmp_path)
    assert checked.returncode == 0, checked.stdout
    assert "demo" in checked.stderr
