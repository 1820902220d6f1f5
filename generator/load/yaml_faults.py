"""What the YAML parser complains about, in plain words and at the place that helps."""

from collections.abc import Sequence
from typing import Any, NamedTuple

import yaml

from generator.load.yaml_text import Prepared
from generator.problems import Place, Problem


class _Words(NamedTuple):
    """`part` of the complaint and our words; `at_start` where the opening place helps more than the end."""

    part: str
    message: str
    fix: str
    at_start: bool = False
    code: str = "Y101"


_QUOTE = "put the value in quotes"
_WORDS = (
    _Words("nesting depth", "far too many brackets inside brackets", "write one value a line", code="Y111"),
    _Words(
        "quoted scalar",
        "a quotation mark is opened here and never closed",
        "close it with the same mark",
        True,
    ),
    _Words("flow sequence", "a [ is opened here and never closed", "close it with ] on the same line", True),
    _Words("flow mapping", "a { is opened here and never closed", "close it with } on the same line", True),
    _Words(
        "flow node",
        "a value is missing between the commas here",
        "take out the second comma, or write the value",
    ),
    _Words("simple key", "this line has no colon after its key", "write key: value", True),
    _Words("scanning an alias", "a * cannot start a value", _QUOTE, True),
    _Words("scanning an anchor", "an & cannot start a value", _QUOTE, True),
    _Words(
        "mapping values are not allowed",
        "a colon too many, a line before without its colon, or indented too far",
        "write one key: value a line, indented like its neighbours; put text with a colon in quotes",
    ),
    _Words("cannot start any token", "a value cannot start with this character", _QUOTE),
    _Words(
        "while parsing a block",
        "this line does not belong to what stands above it",
        "indent it like its neighbours; put text with quotation marks, brackets or # in quotes",
    ),
)
_OTHER = _Words(
    "", "the file cannot be read from here on", "look for a missing colon, quotation mark or bracket"
)


def plain_words(error: yaml.MarkedYAMLError, prepared: Prepared, over_lines: Sequence[Any] = ()) -> Problem:
    """One problem for a file that cannot be parsed; `over_lines` are the quoted texts before it that end on a later
    line than they began."""
    complaint = f"{error.context or ''} {error.problem or ''}"
    if opening := _never_closed(error, over_lines):
        words = next(words for words in _WORDS if words.part == "quoted scalar")
        return Problem(words.code, words.message, prepared.place(opening, opening), fix=words.fix)
    words = next((words for words in _WORDS if words.part in complaint), _OTHER)
    mark: Any = (error.context_mark if words.at_start else None) or error.problem_mark or error.context_mark
    place = prepared.place(mark, mark)
    if "flow node" in complaint:
        return _in_brackets(words, place, prepared)
    return Problem(words.code, words.message, place, fix=words.fix)


def _never_closed(error: yaml.MarkedYAMLError, over_lines: Sequence[Any]) -> Any:
    """Where a mark opens that the next one, meant to open another text, closed: the parser stumbles on that line."""
    marks: list[Any] = [mark for mark in (error.context_mark, error.problem_mark) if mark]
    opening = None
    for event in reversed(over_lines):
        if not any(mark.line == event.end_mark.line for mark in marks):
            break
        opening, marks = event.start_mark, [event.start_mark]
    return opening


def _in_brackets(words: _Words, place: Place, prepared: Prepared) -> Problem:
    """A comma too many, or a bracket that is still open where something else begins."""
    line = prepared.lines[place.line - 1]
    if line[place.column - 1 : place.column] in (",", "]", "}"):
        return Problem(words.code, words.message, place, fix=words.fix)
    for number in range(place.line, 0, -1):
        before = prepared.lines[number - 1][: place.column - 1 if number == place.line else None]
        column = max(before.rfind("["), before.rfind("{")) + 1
        if column:
            opened = before[column - 1]
            fix = f"close it with {']' if opened == '[' else '}'} on the same line"
            spot = Place(prepared.file, number, column, column)
            return Problem(words.code, f"a {opened} is opened here and never closed", spot, fix=fix)
    return Problem(words.code, words.message, place, fix=words.fix)
