"""A strict reading of YAML: every value is text with its place, and nothing in the file can surprise."""

from dataclasses import dataclass, field
from typing import Any

import yaml

from generator.load.yaml_faults import plain_words
from generator.load.yaml_text import FORBIDDEN, Prepared, prepare
from generator.model.node import Block, Entry, Listing, Node, Scalar, span_of, to_plain
from generator.problems import Place, Problem

__all__ = ["MOST_DEPTH", "StrictReader", "parse", "span_of", "to_plain"]

MOST_DEPTH = 8

_BASE: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


class StrictReader(_BASE):  # type: ignore[misc]
    """PyYAML's parser (the C one where present) without its resolver: only the events are used.

    Composing from events refuses aliases before anything could be expanded, and keeps repeated keys apart.
    """


class _TooDeep(Exception):
    """Nesting beyond the limit; the rest of the file is not looked at."""


@dataclass
class _Composer:
    """Builds nodes from the events of one file and gathers what is refused."""

    reader: StrictReader
    prepared: Prepared
    problems: list[Problem] = field(default_factory=list)
    over_lines: list[Any] = field(default_factory=list)  # quoted texts that end on a later line

    def __post_init__(self) -> None:
        # asked some ten thousand times a start
        self.next_event: Any = self.reader.get_event

    def refuse(self, code: str, message: str, place: Place, related: tuple[Place, ...] = ()) -> None:
        self.problems.append(Problem(code, message, place, related=related))

    def place(self, event: Any) -> Place:
        return self.prepared.place(event.start_mark, event.end_mark)

    def document(self) -> Block:
        """The single document of the file; an empty file holds no records."""
        self.next_event()
        start = self.next_event()
        if type(start) is yaml.StreamEndEvent:
            return self.empty()
        if start.version or start.tags:
            self.refuse("Y116", "a % directive at the top of the file", self.place(start))
        root = self.node(self.next_event(), 0) or self.empty()
        self.next_event()
        after = self.next_event()
        if type(after) is not yaml.StreamEndEvent:
            self.refuse("Y109", "a second document starts here", self.place(after))
        return self.root(root)

    def root(self, node: Node) -> Block:
        if isinstance(node, Block):
            return node
        if to_plain(node) != "":
            self.refuse("Y114", "the file is not made of ids with records below them", node.place)
        return self.empty()

    def empty(self) -> Block:
        """No values, at the top of this file: what is missing is missed there."""
        return Block({}, Place(self.prepared.file))

    def node(self, event: Any, depth: int, is_key: bool = False) -> Node | None:
        """The value that starts here, or None where it was refused; what a key may be made of is asked elsewhere."""
        kind = type(event)
        if kind is yaml.AliasEvent:
            self.refuse("Y106", f"'*{event.anchor}' repeats a value from elsewhere", self.place(event))
            return None
        if event.anchor is not None or event.tag is not None:
            self.marks(event)
        if kind is yaml.ScalarEvent:
            start, end = event.start_mark, event.end_mark
            if event.style in ("'", '"') and start and end and start.line < end.line:
                self.over_lines.append(event)
            place = self.place(event)
            text = event.value if is_key else self.visible(event, place)
            return Scalar(text, place, self.prepared.lead(event, place))
        if depth >= MOST_DEPTH:
            self.refuse("Y111", f"more than {MOST_DEPTH} levels of values inside values", self.place(event))
            raise _TooDeep
        if kind is yaml.SequenceStartEvent:
            return self.listing(event, depth)
        return self.block(event, depth)

    def visible(self, event: Any, place: Place) -> str:
        """The text of a scalar; an escape must not bring in what the file itself may not hold."""
        text = str(event.value)
        found = FORBIDDEN.search(text)
        if found is None:
            return text
        message = f"an escape stands here for the invisible character U+{ord(found.group()):04X}"
        self.refuse("Y113", message, place)
        return FORBIDDEN.sub("\ufffd", text)

    def marks(self, event: Any) -> None:
        """A tag or an anchor on a value is refused; the value itself is still read."""
        if event.anchor is not None:
            self.refuse("Y105", f"'&{event.anchor}' marks a value for use elsewhere", self.place(event))
        if event.tag is not None:
            shown = event.tag.replace("tag:yaml.org,2002:", "!!")
            self.refuse(
                "Y104",
                f"the tag '{shown[:60]}' tells the reader what kind of value this is",
                self.place(event),
            )

    def listing(self, start: Any, depth: int) -> Listing:
        items = []
        while type(event := self.next_event()) is not yaml.SequenceEndEvent:
            item = self.node(event, depth + 1)
            if isinstance(item, Scalar) and item.text == "":
                self.refuse("Y108", "an empty value in a list", item.place)
            elif item is not None:
                items.append(item)
        return Listing(tuple(items), self.place(start))

    def block(self, start: Any, depth: int) -> Block:
        entries: dict[str, Entry] = {}
        broken: set[str] = set()
        while type(event := self.next_event()) is not yaml.MappingEndEvent:
            key = self.node(event, depth + 1, is_key=True)
            value = self.node(self.next_event(), depth + 1)
            if self.key_is_fine(key, start) and isinstance(key, Scalar):
                self.add(key, value, entries, broken)
        return Block(entries, self.place(start), frozenset(broken))

    def key_is_fine(self, key: Node | None, start: Any) -> bool:
        if not isinstance(key, Scalar) or key.text == "" or "\n" in key.text:
            place = key.place if key else self.place(start)
            self.refuse("Y115", "a key must be one plain word", place)
            return False
        if key.text == "<<":
            self.refuse("Y107", "'<<' merges values from elsewhere", key.place)
            return False
        return True

    def add(self, key: Scalar, value: Node | None, entries: dict[str, Entry], broken: set[str]) -> None:
        if key.text in entries:
            first = entries[key.text].key.place
            self.refuse("Y102", f"'{key.text[:60]}' stands here a second time", key.place, (first,))
        elif value is None:
            broken.add(key.text)
        elif isinstance(value, Scalar) and value.text == "":
            self.refuse("Y108", f"'{key.text[:60]}' has no value", key.place)
            broken.add(key.text)
        else:
            entries[key.text] = Entry(key, value)


def parse(text: str, file: str) -> tuple[Block | None, tuple[Problem, ...]]:
    """The values of one file; None when it cannot be read as YAML at all."""
    prepared = prepare(text, file)
    if prepared.node_is_hopeless:
        return None, prepared.problems
    composer = _Composer(StrictReader(prepared.text), prepared)
    try:
        node = composer.document()
    except _TooDeep:
        return None, (*prepared.problems, *composer.problems)
    except yaml.MarkedYAMLError as error:
        # a tab in the indentation is the cause whenever there is one
        return None, prepared.problems or (plain_words(error, prepared, composer.over_lines),)
    return node, (*prepared.problems, *composer.problems)
