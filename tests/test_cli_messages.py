"""What the command line says: exit codes in one place, ids that are not there, warnings that are not hidden."""

import ast
from pathlib import Path

import generator.cli

CLI = Path(generator.cli.__file__).parent


def test_exit_codes_are_said_in_one_place() -> None:
    """No command has a number of its own for a code."""
    for path in sorted(CLI.glob("*.py")):
        if path.name == "exit_codes.py":
            continue
        numbers = [
            node.lineno
            for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
            if isinstance(node, (ast.Assign, ast.Return))
            and isinstance(node.value, ast.Constant)
            and type(node.value.value) is int
        ]
        assert not numbers, (path.name, numbers)
