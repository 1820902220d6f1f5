"""Strict YAML: what is read, what is refused, and that places are right to the character."""

import importlib
from collections.abc import Iterator
from contextlib import contextmanager

import pytest
import yaml

from generator.load import strict_yaml
from generator.load.strict_yaml import parse, span_of, to_plain
from generator.load.table import read_table
from generator.model.node import Block, Scalar, key_span, node_at, part_of
from generator.problems import Place
from tests.samples import DATA


def read(text: str) -> Block:
    node, problems = parse(text, "f.yaml")
    assert problems == ()
    assert node is not None
    return node


def codes(text: str) -> list[tuple[str, int, int]]:
    return [(p.code, p.place.line, p.place.column) for p in parse(text, "f.yaml")[1]]


def test_every_value_is_text() -> None:
    text = (
        "a: yes\nb: no\nc: on\nd: ~\ne: null\nf: true\ng: 010\nh: 12:30\ni: 1e3\nj: 0x1f\nk: 2027-02-14\n"
        "l: .inf\nm: 1_000\nn: '5'\no: [1, y, 0o7]\np: {q: off}\n"
    )
    assert to_plain(read(text)) == {
        "a": "yes",
        "b": "no",
        "c": "on",
        "d": "~",
        "e": "null",
        "f": "true",
        "g": "010",
        "h": "12:30",
        "i": "1e3",
        "j": "0x1f",
        "k": "2027-02-14",
        "l": ".inf",
        "m": "1_000",
        "n": "5",
        "o": ["1", "y", "0o7"],
        "p": {"q": "off"},
    }


@pytest.mark.parametrize("text", ["", "# nothing yet\n", "---\n", "{}\n", "\n\n"])
def test_an_empty_file_holds_no_records(text: str) -> None:
    assert to_plain(read(text)) == {}


PLACES = "é-1:\n  note: 'ü, ü'  # ±\n  reach: 14.92 ± 0.03 mm\n  list: [a, {b: ç}]\n  odd:\n    is: 1 mm\n"


@pytest.mark.parametrize("line_end", ["\n", "\r\n", "\r"])
@pytest.mark.parametrize(
    ("path", "place"),
    [
        (("é-1",), (1, 1, 3)),
        (("é-1", "note"), (2, 9, 14)),
        (("é-1", "reach"), (3, 10, 24)),
        (("é-1", "list"), (4, 3, 6)),
        (("é-1", "list", 0), (4, 10, 10)),
        (("é-1", "list", 1, "b"), (4, 17, 17)),
        (("é-1", "odd"), (5, 3, 5)),
        (("é-1", "odd", "is"), (6, 9, 12)),
        (("é-1", "odd", "plus_minus"), (5, 3, 5)),
        (("é-1", "nothing", "at", "all"), (1, 1, 3)),
        (("é-1", "list", 7), (4, 3, 6)),
    ],
)
def test_places_count_characters(
    line_end: str, path: tuple[str | int, ...], place: tuple[int, int, int]
) -> None:
    root = read(PLACES.replace("\n", line_end))
    assert span_of(root, path) == Place("f.yaml", *place)


def test_the_place_of_a_key_and_of_a_part_of_a_value() -> None:
    root = read(PLACES)
    assert key_span(root, ("é-1", "reach")) == Place("f.yaml", 3, 3, 7)
    note, reach = node_at(root, ("é-1", "note")), node_at(root, ("é-1", "reach"))
    assert isinstance(note, Scalar)
    assert isinstance(reach, Scalar)
    assert part_of(note, 3, 1) == Place("f.yaml", 2, 13, 13)
    assert part_of(reach, 8, 4) == Place("f.yaml", 3, 18, 21)
    folded = node_at(read("a: >\n  one\n  two\n"), ("a",))
    assert isinstance(folded, Scalar)
    assert part_of(folded, 4, 3) == folded.place


REFUSED = [
    ("a: 1\nb: 2\na: 3\n", [("Y102", 3, 1)]),
    ("t:\n  a: 1\n  a: 2\n  a: 3\n", [("Y102", 3, 3), ("Y102", 4, 3)]),
    ("t:\n\ta: 1\n", [("Y103", 2, 1)]),
    ("t:\n  a: 1\n \tb: 2\n", [("Y103", 3, 2)]),
    ("a: !!int 3\nb: !mine x\n", [("Y104", 1, 4), ("Y104", 2, 4)]),
    ("a: &x 1\n", [("Y105", 1, 4)]),
    ("a: *x\n", [("Y106", 1, 4)]),
    ("a: {<<: {b: c}}\n", [("Y107", 1, 5)]),
    ("a:\nb: ''\nc: [x, '']\n", [("Y108", 1, 1), ("Y108", 2, 1), ("Y108", 3, 8)]),
    ("a: 1\n---\nb: 2\n", [("Y109", 2, 1)]),
    ("%TAG ! tag:x,2000:\n---\na: 1\n", [("Y116", 1, 1)]),
    ("- a\n- b\n", [("Y114", 1, 1)]),
    ("just text\n", [("Y114", 1, 1)]),
    ("? {a: b}\n: c\n", [("Y115", 1, 3)]),
    ("'': c\n", [("Y115", 1, 1)]),
    ('a: "open\nb: 1\n', [("Y101", 1, 4)]),
    ("a: [1, 2\nb: 1\n", [("Y101", 1, 4)]),
    ("a: {b: 1\n", [("Y101", 1, 4)]),
    ("a: 1\nb: [\n\n", [("Y101", 2, 4)]),
    ("a: {b: 1,\n", [("Y101", 1, 4)]),
    ("a: b: c\n", [("Y101", 1, 5)]),
    ("a: @b\n", [("Y101", 1, 4)]),
    ("a: 1\nb\nc: 1\n", [("Y101", 2, 1)]),
    ("a:\n  b: 1\n c: 2\n", [("Y101", 3, 2)]),
    ("a: [1, , 2]\n", [("Y101", 1, 8)]),
    ("t:\n\ta: [1\n", [("Y103", 2, 1)]),
]


@pytest.mark.parametrize(("text", "expected"), REFUSED)
def test_what_is_refused_and_where(text: str, expected: list[tuple[str, int, int]]) -> None:
    assert codes(text) == expected


def test_a_repeated_key_names_the_first_one_and_keeps_its_value() -> None:
    node, (problem,) = parse("a: 1\na: 2\n", "f.yaml")
    assert problem.related == (Place("f.yaml", 1, 1, 1),)
    assert node is not None
    assert to_plain(node) == {"a": "1"}


def test_a_tab_is_read_on_as_the_indent_of_its_neighbours() -> None:
    node, problems = parse("t:\n\ta: 14,9 mm\n\tb: x\nu:\n  c: y\n", "f.yaml")
    assert [p.code for p in problems] == ["Y103", "Y103"]
    assert node is not None
    assert to_plain(node) == {"t": {"a": "14,9 mm", "b": "x"}, "u": {"c": "y"}}
    assert span_of(node, ("t", "a")) == Place("f.yaml", 2, 5, 11)


def test_refused_values_are_remembered_as_broken() -> None:
    node, _ = parse("t:\n  a:\n  b: *x\n  c: 1\n", "f.yaml")
    assert node is not None
    record = node.entries["t"].value
    assert isinstance(record, Block)
    assert (record.broken, list(record.entries)) == (frozenset({"a", "b"}), ["c"])


@contextmanager
def without_c_library() -> Iterator[None]:
    """PyYAML as it is on machines that have no compiler."""
    with pytest.MonkeyPatch.context() as patch:
        patch.delattr(yaml, "CSafeLoader", raising=False)
        importlib.reload(strict_yaml)
        yield
    importlib.reload(strict_yaml)


def test_reading_does_not_depend_on_the_c_library() -> None:
    texts = [text for text, _ in REFUSED] + [PLACES]
    texts += [path.read_text("utf-8") for path in sorted((DATA / "demo").glob("*.yaml"))]
    fast = [strict_yaml.parse(text, "f.yaml") for text in texts]
    with without_c_library():
        assert not issubclass(strict_yaml.StrictReader, getattr(yaml, "CParser", ()))
        slow = [strict_yaml.parse(text, "f.yaml") for text in texts]
    assert slow == fast


# ---- the wear log

HEADER = "date,chain,hours,pitches,inside,outside,place,new_chain\n"


def test_cells_keep_their_places_and_quotes_hold_commas() -> None:
    rows, problems = read_table(
        HEADER + '2027-01-05, red ,4,20,"307.41, 307.43 mm",327.71 mm,a,no\n', "w.csv"
    )
    assert problems == ()
    assert rows[0].cells["chain"] == Scalar("red", Place("w.csv", 2, 13, 15))
    assert rows[0].cells["inside"] == Scalar("307.41, 307.43 mm", Place("w.csv", 2, 24, 40))
    assert rows[0].cells["place"].place.column == 53


def test_columns_may_stand_in_any_order_and_blank_lines_are_skipped() -> None:
    names = HEADER.strip().split(",")[::-1]
    rows, problems = read_table(",".join(names) + "\r\n\r\n" + "1,2,3,4,5,6,7,8\r\n", "w.csv")
    assert problems == ()
    assert rows[0].cells["date"].text == "8"
    assert rows[0].place.line == 3


def test_a_faulty_row_does_not_hide_the_next() -> None:
    rows, problems = read_table(HEADER + "1,2\n1,2,3,4,5,6,7,8\n1,,3,4,5,6,7,8\n", "w.csv")
    assert [(p.code, p.place.line) for p in problems] == [("W805", 2), ("W806", 4)]
    assert [row.place.line for row in rows] == [3]


@pytest.mark.parametrize(
    ("text", "line", "column"),
    [
        ('a:\n  name: "abc\n  note: "x"\n', 2, 9),
        ("a:\n  name: 'abc\n  note: 'x'\n", 2, 9),
        ('a:\n  name: "abc\n  mass: 3\n  note: ""\n', 2, 9),
        ('a:\n  n: "one\n  m: "two\n  o: "three"\n  p: x\n', 2, 6),
        ('a:\n  n: "fine\n    on"\n  m: "open\n  p: "q"\n', 4, 6),
    ],
)
def test_a_mark_that_a_later_one_seems_to_close_is_told_where_it_opens(
    text: str, line: int, column: int
) -> None:
    _, (problem,) = parse(text, "a.yaml")
    assert (problem.place.line, problem.place.column) == (line, column)
    assert problem.message == "a quotation mark is opened here and never closed"


def test_a_quoted_text_over_two_lines_is_not_blamed_for_a_later_fault() -> None:
    _, (problem,) = parse('a:\n  name: "a\n    b"\n  x y\n', "a.yaml")
    assert (problem.place.line, problem.message) == (4, "this line has no colon after its key")


@pytest.mark.parametrize(
    ("row", "column", "says"), [('x,"y,z', 3, "is opened here"), ('x,y"z",w', 4, "stands in the middle")]
)
def test_a_mark_in_a_table_is_told_where_it_stands(row: str, column: int, says: str) -> None:
    _, problems = read_table(
        f"date,chain,hours,pitches,inside,outside,place,new_chain\n{row}\n", "wear_log.csv"
    )
    assert [(p.code, p.place.line, p.place.column) for p in problems] == [("W801", 2, column)]
    assert says in problems[0].message
