"""The text of a file before it is parsed: size, forbidden characters, tabs, and places in the text as typed."""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from generator.problems import Place, Problem

MOST_BYTES = 1 << 20
MOST_CHARACTER_PROBLEMS = 20

# line breaks only YAML knows, control characters, and those that make text look other than it is
FORBIDDEN = re.compile(
    "[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u2028\u2029\u202a-\u202e\u2066-\u2069\ufeff\ufffe\uffff\ud800-\udfff]"
)
_BREAK = re.compile(r"\r\n|\r|\n")


def lines_of(text: str) -> list[str]:
    """The lines of a text as an editor counts them."""
    return _BREAK.split(text)


@dataclass(frozen=True, slots=True)
class Prepared:
    """The text for the parser; `shifts` is how much a line's indentation grew, by line from 0."""

    file: str
    text: str
    lines: list[str]
    problems: tuple[Problem, ...]
    shifts: Mapping[int, int]
    node_is_hopeless: bool

    def place(self, start: Any, end: Any) -> Place:
        """The stretch from one mark of the parser to another, cut to its first line."""
        line, first, last = start.line, start.column, end.column
        if line >= len(self.lines):
            line = len(self.lines) - 1
        if self.shifts:
            shift = self.shifts.get(line, 0)
            first, last = max(first - shift, 0), last - shift
        if end.line != line:
            last = len(self.lines[line].rstrip())
        return Place(self.file, line + 1, first + 1, last if last > first else first + 1)

    def lead(self, event: Any, place: Place) -> int:
        """How far inside its place the text of a scalar starts; -1 if it does not stand there verbatim."""
        if event.start_mark.line != event.end_mark.line:
            return -1
        shown = self.lines[place.line - 1][place.column - 1 : place.end_column]
        return shown.find(event.value)


def prepare(text: str, file: str) -> Prepared:
    """Refuse what no YAML reader should see; mend tabs so that the rest of the file is still checked."""
    lines = lines_of(text)
    if len(text.encode("utf-8", "surrogatepass")) > MOST_BYTES:
        problem = Problem("Y110", f"the file is larger than {MOST_BYTES} bytes", Place(file))
        return Prepared(file, "", lines, (problem,), {}, True)
    if FORBIDDEN.search(text):
        return Prepared(file, "", lines, forbidden_in(lines, file), {}, True)
    if "\t" not in text:
        return Prepared(file, "\n".join(lines), lines, (), {}, False)
    mended, shifts, problems = _without_tabs(lines, file)
    return Prepared(file, "\n".join(mended), lines, problems, shifts, False)


def forbidden_in(lines: list[str], file: str) -> tuple[Problem, ...]:
    """One problem a character, up to a number nobody needs to see exceeded."""
    found: list[Problem] = []
    for number, line in enumerate(lines, 1):
        for match in FORBIDDEN.finditer(line):
            place = Place(file, number, match.start() + 1, match.start() + 1)
            message = f"the invisible character U+{ord(match.group()):04X} stands here"
            found.append(Problem("Y113", message, place))
            if len(found) >= MOST_CHARACTER_PROBLEMS:
                return tuple(found)
    return tuple(found)


def _without_tabs(lines: list[str], file: str) -> tuple[list[str], dict[int, int], tuple[Problem, ...]]:
    """Each tab-indented line is a problem; it is read on as if indented like its neighbour."""
    mended: list[str] = []
    shifts: dict[int, int] = {}
    problems: list[Problem] = []
    indent = 0
    for number, line in enumerate(lines):
        body = line.lstrip(" \t")
        before = line[: len(line) - len(body)]
        if "\t" in before and body and not body.startswith("#"):
            column = before.index("\t") + 1
            place = Place(file, number + 1, column, len(before))
            problems.append(Problem("Y103", "a tab stands in the indentation", place))
            shifts[number] = indent - len(before)
            line = " " * indent + body
        elif "\t" in before:
            line = body
        if body and not body.startswith("#"):
            indent = len(line) - len(line.lstrip(" ")) + (2 if re.search(r":\s*(#.*)?$", line) else 0)
        mended.append(line)
    return mended, shifts, tuple(problems)
