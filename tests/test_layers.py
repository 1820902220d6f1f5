"""Imports go down the flow only, pure packages touch nothing outside, and the oracle shares nothing with the engine."""

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
# lower first; a package may import itself and what stands before it
FLOW = ("problems", "model", "load", "rules", "validate", "compute", "render", "site", "cli")
# validated data do not know where they were read from, so that neither of these two imports the other
BESIDE = {"validate": {"load"}}
PURE = ("problems", "model", "rules", "validate", "compute", "render")
# modules at the top of the package: which packages they stand beside
TOP = {"shipped.py": "problems", "__init__.py": "problems", "__main__.py": "cli"}
NOT_IN_PURE = {
    "pathlib", "os", "sys", "shutil", "tempfile", "glob", "subprocess", "socket", "urllib", "http",
    "time", "random", "secrets", "uuid", "locale", "mkdocs", "mkdocs_material", "material",
}  # fmt: skip
ONLY_IN_SITE = {"mkdocs", "material"}
NOT_CALLED_IN_PURE = {"open", "print", "input", "eval", "exec", "__import__"}
# the clock, and set order, which differs from run to run
NOT_ASKED_IN_PURE = {
    "now",
    "today",
    "utcnow",
    "fromtimestamp",
    "getenv",
    "environ",
    "read_text",
    "write_text",
}

MODULES = sorted((ROOT / "generator").rglob("*.py"))
PURE_MODULES = [path for path in MODULES if path.relative_to(ROOT).parts[1] in PURE]


def name_of(path: Path) -> str:
    return str(path.relative_to(ROOT))


def tree_of(path: Path) -> ast.Module:
    return ast.parse(path.read_text(encoding="utf-8"))


def imported(tree: ast.Module) -> Iterator[str]:
    """Every module named in an import, wherever it stands in the file."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, "write imports in full"
            assert node.module is not None
            yield node.module
            if node.module == "generator":
                yield from (f"generator.{alias.name}" for alias in node.names)


def package_of(path: Path) -> str:
    first = path.relative_to(ROOT / "generator").parts[0]
    return TOP.get(first, first)


def test_every_package_has_its_place_in_the_flow() -> None:
    assert {package_of(path) for path in MODULES} == set(FLOW)


def upward(tree: ast.Module, package: str) -> list[str]:
    """Imports that do not go down the flow."""
    allowed = {*FLOW[: FLOW.index(package) + 1], "shipped"} - BESIDE.get(package, set())
    names = [module.split(".") for module in imported(tree)]
    return [".".join(parts) for parts in names if _leaves(parts, allowed)]


def _leaves(parts: list[str], allowed: set[str]) -> bool:
    """`from generator import x` names no package by itself; the shipped files are for the edges."""
    return parts[0] == "tests" or (
        parts[0] == "generator" and len(parts) > 1 and parts[1] in FLOW and parts[1] not in allowed
    )


def outside_of(tree: ast.Module) -> list[str]:
    """What a pure module may not import, call or ask."""
    found = [module for module in imported(tree) if module.split(".")[0] in NOT_IN_PURE]
    found += [module for module in imported(tree) if module == "generator.shipped"]
    for node in ast.walk(tree):
        if (
            isinstance(node, ast.Call)
            and isinstance(node.func, ast.Name)
            and node.func.id in NOT_CALLED_IN_PURE
        ):
            found.append(f"{node.func.id}() in line {node.lineno}")
        if isinstance(node, ast.Attribute) and node.attr in NOT_ASKED_IN_PURE:
            found.append(f".{node.attr} in line {node.lineno}")
    return found


@pytest.mark.parametrize("path", MODULES, ids=name_of)
def test_imports_go_down_the_flow(path: Path) -> None:
    assert upward(tree_of(path), package_of(path)) == []


@pytest.mark.parametrize("path", PURE_MODULES, ids=name_of)
def test_pure_packages_touch_nothing_outside(path: Path) -> None:
    assert outside_of(tree_of(path)) == []


@pytest.mark.parametrize("path", [path for path in MODULES if package_of(path) != "site"], ids=name_of)
def test_only_the_site_knows_the_site_builder(path: Path) -> None:
    assert not {module.split(".")[0] for module in imported(tree_of(path))} & ONLY_IN_SITE


def test_the_oracle_shares_nothing_with_the_engine() -> None:
    own = {module.split(".")[0] for module in imported(tree_of(ROOT / "tests" / "oracle.py"))}
    assert not own & {"generator", "tests", "numpy", "yaml"}


@pytest.mark.parametrize(
    "source",
    [
        "import os", "from pathlib import Path", "import mkdocs.plugins", "from generator.shipped import shipped_root",
        "open('x')", "def f() -> None:\n    import time", "date.today()", "datetime.now()", "Path('x').read_text()",
    ],
)  # fmt: skip
def test_the_check_sees_what_a_pure_module_may_not_do(source: str) -> None:
    assert outside_of(ast.parse(source))


@pytest.mark.parametrize(
    ("package", "source"),
    [
        ("model", "from generator.validate.measure import measure_record"),
        ("compute", "from generator.render import page"),
        ("compute", "import generator.site.build"),
        ("validate", "from generator.load.strict_yaml import parse"),
        ("render", "def f() -> None:\n    from generator.cli import main"),
        ("cli", "from tests import oracle"),
    ],
)
def test_the_check_sees_an_import_up_the_flow(package: str, source: str) -> None:
    assert upward(ast.parse(source), package)
