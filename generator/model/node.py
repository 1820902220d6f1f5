"""What stands in a file, with its place: texts, lists and blocks of named values."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from generator.problems import Place, Problem


@dataclass(frozen=True, slots=True)
class Scalar:
    """One text; `lead` is how far inside its place it starts (1 after a quote), -1 if it is not verbatim."""

    text: str
    place: Place
    lead: int = 0


@dataclass(frozen=True, slots=True)
class Listing:
    """Several values in order."""

    items: "tuple[Node, ...]"
    place: Place


@dataclass(frozen=True, slots=True)
class Entry:
    """A key and its value."""

    key: Scalar
    value: "Node"

    @property
    def place(self) -> Place:
        """Where a fault of this entry is shown: the value if it is one text, else the key it hangs on."""
        return self.value.place if isinstance(self.value, Scalar) else self.key.place


@dataclass(frozen=True, slots=True)
class Block:
    """Values by key; `broken` are keys whose values were refused already, so nobody calls them missing."""

    entries: Mapping[str, Entry]
    place: Place
    broken: frozenset[str] = frozenset()


Node = Scalar | Listing | Block
Path = Sequence[str | int]
EMPTY = Block({}, Place("", 1, 1, 1))


@dataclass(frozen=True, slots=True)
class LoadedFile:
    """One file of a folder: its text for the caret, its values (None where it could not be read)."""

    name: str
    text: str
    node: Block | None


@dataclass(frozen=True, slots=True)
class LogRow:
    """One line of a table: its cells by column name."""

    cells: Mapping[str, Scalar]
    place: Place


@dataclass(frozen=True, slots=True)
class LoadedFolder:
    """What was read of a folder, by file name; `unreadable` when something could not be opened."""

    files: Mapping[str, LoadedFile]
    problems: tuple[Problem, ...] = ()
    log: tuple[LogRow, ...] = ()
    unreadable: bool = False

    @property
    def texts(self) -> Mapping[str, str]:
        """The text of each file, for the line above the caret."""
        return {name: file.text for name, file in self.files.items()}

    def node(self, name: str) -> Block:
        """The values of one file; a file that is not there or not readable has none."""
        file = self.files.get(name)
        return file.node if file is not None and file.node is not None else EMPTY

    def is_broken(self, name: str) -> bool:
        """Is the file there, but its values could not be read?"""
        return name in self.files and self.files[name].node is None


def to_plain(node: Node) -> object:
    """The values without their places: texts, lists and dicts."""
    if isinstance(node, Scalar):
        return node.text
    if isinstance(node, Listing):
        return [to_plain(item) for item in node.items]
    return {key: to_plain(entry.value) for key, entry in node.entries.items()}


def span_of(node: Node, path: Path) -> Place:
    """The place of the deepest step of `path` that exists."""
    place = node.place
    for step in path:
        if isinstance(node, Block) and step in node.entries:
            entry = node.entries[str(step)]
            node, place = entry.value, entry.place
        elif isinstance(node, Listing) and isinstance(step, int) and step < len(node.items):
            node = node.items[step]
            place = node.place
        else:
            break
    return place


def key_span(node: Node, path: Path) -> Place:
    """The place of the last key of `path` itself, or the deepest step that exists."""
    parent = node_at(node, path[:-1])
    if isinstance(parent, Block) and path and path[-1] in parent.entries:
        return parent.entries[str(path[-1])].key.place
    return span_of(node, path)


def node_at(node: Node, path: Path) -> Node | None:
    """What stands at the end of `path`, or None."""
    for step in path:
        if isinstance(node, Block) and step in node.entries:
            node = node.entries[str(step)].value
        elif isinstance(node, Listing) and isinstance(step, int) and step < len(node.items):
            node = node.items[step]
        else:
            return None
    return node


def part_of(scalar: Scalar, offset: int, width: int) -> Place:
    """The place of `width` characters from `offset` of a text; of the whole where that cannot be told."""
    place = scalar.place
    if width <= 0 or scalar.lead < 0:
        return place
    column = place.column + scalar.lead + offset
    return Place(place.file, place.line, column, max(column, min(column + width - 1, place.end_column)))
