"""Counts the English sentences of the program outside its `say` package: `python -m tests.sentences [PART]`.

A sentence is a text of three plain words or more that is no docstring; PART (such as `render`) lists those of one part.
"""

import ast
import re
import sys
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

ROOT = Path(__file__).parents[1]
SAY = ROOT / "generator" / "render" / "say"
_MARKUP = re.compile(r'="|</|^M\d|[{;]\s*$')
_WORD = re.compile(r"(?<![\w.{/-])[A-Za-z][a-z']*(?![\w/{=_-])")


def texts(tree: ast.AST) -> Iterator[tuple[int, str]]:
    """Line and text of every literal; what an f-string puts in is a pair of braces."""
    inner: set[int] = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.Expr):
            inner.add(id(node.value))
        elif isinstance(node, ast.JoinedStr):
            inner.update(map(id, node.values))
            yield (
                node.lineno,
                "".join(str(part.value) if isinstance(part, ast.Constant) else "{}" for part in node.values),
            )
        elif isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in inner:
            yield node.lineno, node.value


def sentences() -> Iterator[tuple[str, str, int, str]]:
    """Part of the program, file, line and sentence; `say` has its own."""
    for file in sorted((ROOT / "generator").rglob("*.py")):
        part = "say" if file.is_relative_to(SAY) else file.relative_to(ROOT / "generator").parts[0]
        for line, text in texts(ast.parse(file.read_text(encoding="utf-8"))):
            if len(_WORD.findall(text)) >= 3 and not _MARKUP.search(text):
                yield part, str(file.relative_to(ROOT)), line, text


if __name__ == "__main__":
    found = list(sentences())
    for part, count in sorted(Counter(part for part, *_ in found).items()):
        print(f"{part:10} {count:5} in {len({file for of, file, *_ in found if of == part})} files")
    for part, file, line, text in found:
        if part in sys.argv[1:]:
            print(f"{file}:{line}: {' '.join(text.split())}")
