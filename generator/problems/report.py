"""Problems as people and programs read them: text with a caret, or JSON."""

import json
from collections.abc import Iterable, Iterator, Mapping, Sequence
from unicodedata import combining, east_asian_width

from generator.problems.catalogue import Catalogue
from generator.problems.problem import Place, Problem, sorted_problems

# how much of a long line is shown before and after the fault, and of the fault itself
BEFORE, AFTER, OF_IT = 60, 40, 100
_INDENT = "    "


def text_report(
    problems: Iterable[Problem],
    texts: Mapping[str, str],
    catalogue: Catalogue | None = None,
    files: int | None = None,
) -> str:
    """Every problem with its line, a caret, why and how to mend it, and a last line that counts them."""
    shown = sorted_problems(problems)
    lines = {name: _lines(texts.get(name, "")) for name in {problem.place.file for problem in shown}}
    blocks = [
        "\n".join(_one(problem, lines[problem.place.file], catalogue or {})) + "\n" for problem in shown
    ]
    return "\n".join([*blocks, summary(shown, len(texts) if files is None else files) + "\n"])


def summary(problems: Sequence[Problem], files: int) -> str:
    """`2 errors, 0 warnings in 9 files`."""
    errors, warnings = _counted(problems)
    return f"{_many(errors, 'error')}, {_many(warnings, 'warning')} in {_many(files, 'file')}"


def json_report(problems: Iterable[Problem], files: int, catalogue: Catalogue) -> str:
    """The same as one JSON document."""
    shown = sorted_problems(problems)
    errors, warnings = _counted(shown)
    document = {
        "schema": "check/1",
        "ok": errors == 0,
        "files": files,
        "errors": errors,
        "warnings": warnings,
        "problems": [_plain(problem, catalogue) for problem in shown],
    }
    return json.dumps(document, ensure_ascii=False, sort_keys=True, indent=1) + "\n"


def _lines(text: str) -> list[str]:
    return text.replace("\r\n", "\n").replace("\r", "\n").split("\n")


def _one(problem: Problem, lines: Sequence[str], catalogue: Catalogue) -> Iterator[str]:
    place = problem.place
    word = "warning: " if problem.level == "warning" else ""
    yield f"{place.file}:{place.line}:{place.column}  {problem.code}  {word}{_printable(problem.message)}"
    yield from _line_and_caret(place, lines)
    entry = catalogue.get(problem.code)
    if entry is not None:
        yield f"{_INDENT}why: {entry.why}"
    if problem.did_you_mean:
        yield f"{_INDENT}did you mean: {_printable(problem.did_you_mean)}"
    fix = _fix(problem, catalogue)
    if fix and not (problem.did_you_mean and fix == f"write {problem.did_you_mean}"):
        yield f"{_INDENT}fix: {_printable(fix)}"
    for other in problem.related:
        yield f"{_INDENT}see also: {other.file}:{other.line}:{other.column}"


def _fix(problem: Problem, catalogue: Catalogue) -> str:
    entry = catalogue.get(problem.code)
    return problem.fix or (entry.fix if entry is not None else "")


def _line_and_caret(place: Place, lines: Sequence[str]) -> Iterator[str]:
    """The line as typed, and a mark under the fault that stands right in a terminal; both cut where they are long."""
    line = lines[place.line - 1] if place.line <= len(lines) else ""
    start, last = max(place.column - 1 - BEFORE, 0), min(place.end_column, place.column + OF_IT)
    end = min(max(last, place.column) + AFTER, len(line))
    shown = line[start:end]
    if not shown.strip():
        return
    lead, tail = "… " if start else "", " …" if end < len(line) else ""
    before = lead + _printable(line[start : place.column - 1])
    under = _printable(line[place.column - 1 : min(last, end)])
    yield f"{_INDENT}{lead}{_printable(shown)}{tail}"
    yield f"{_INDENT}{' ' * _width(before)}{'^' * max(_width(under), 1)}"


def _printable(text: str) -> str:
    """Text that cannot upset a terminal; tabs become one space so that columns stay."""
    return "".join(c if c.isprintable() else " " if c == "\t" else "\ufffd" for c in text)


def _width(text: str) -> int:
    """Cells a terminal gives to a text."""
    return sum(0 if combining(c) else 2 if east_asian_width(c) in "WF" else 1 for c in text)


def _plain(problem: Problem, catalogue: Catalogue) -> dict[str, object]:
    entry = catalogue.get(problem.code)
    return {
        "code": problem.code,
        "level": problem.level,
        "file": problem.place.file,
        "line": problem.place.line,
        "column": problem.place.column,
        "end_column": problem.place.end_column,
        "path": list(problem.path),
        "message": problem.message,
        "why": entry.why if entry is not None else "",
        "fix": _fix(problem, catalogue),
        "did_you_mean": problem.did_you_mean,
        "related": [{"file": p.file, "line": p.line, "column": p.column} for p in problem.related],
    }


def _counted(problems: Iterable[Problem]) -> tuple[int, int]:
    levels = [problem.level for problem in problems]
    return levels.count("error"), levels.count("warning")


def _many(count: int, word: str) -> str:
    return f"{count} {word}{'' if count == 1 else 's'}"
