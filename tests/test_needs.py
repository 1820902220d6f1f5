"""Everything the generator imports is named among its needs, with the oldest version it is built with."""

import ast
import sys
from collections.abc import Iterator
from importlib.metadata import packages_distributions
from pathlib import Path

from generator.shipped import shipped_root
from tests.oldest import oldest


def imported(file: Path) -> Iterator[str]:
    for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            yield from (name.name.partition(".")[0] for name in node.names)
        elif isinstance(node, ast.ImportFrom) and not node.level:
            yield str(node.module).partition(".")[0]


def test_every_import_has_a_lower_bound() -> None:
    """What comes along with something else today may not tomorrow."""
    files = (shipped_root() / "generator").rglob("*.py")
    names = {name for file in files for name in imported(file)} - set(sys.stdlib_module_names) - {"generator"}
    homes = packages_distributions()
    unbound = {
        name for name in names if not {home.lower().replace("_", "-") for home in homes[name]} & set(oldest())
    }
    assert unbound == set()
    assert {"numpy", "markupsafe", "pydantic_core"} <= names
