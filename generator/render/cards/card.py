"""What a card is made of before it is typeset: runs of text, blocks that are never split, sections, sets."""

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass, fields, is_dataclass, replace
from typing import Literal, TypeVar

V = TypeVar("V")
_UNBROKEN = re.compile(r"[^\s-]{16}(?=[^\s-])")

# strong: bold and larger, for limits and warnings (ISO/IEC Guide 37); tag: a bag label
Style = Literal["plain", "bold", "strong", "tag"]


@dataclass(frozen=True, slots=True)
class Origin:
    """The record and field of the club in which somebody typed a text."""

    kind: str
    id: str
    field: str

    @property
    def key(self) -> tuple[str, str]:
        return self.kind, self.id

    @property
    def words(self) -> str:
        return f"{self.field} of {self.kind} {self.id}"


@dataclass(frozen=True, slots=True)
class Run:
    """A few words in one style; `origin` where the club typed them."""

    text: str
    style: Style = "plain"
    origin: Origin | None = None


Text = tuple[Run, ...]


@dataclass(frozen=True, slots=True)
class Plate:
    """A verdict: the outline that is drawn, the edge around it, the words in it."""

    outline: str
    edge: str
    word: str


@dataclass(frozen=True, slots=True)
class Says:
    """A paragraph."""

    text: Text


@dataclass(frozen=True, slots=True)
class Fit:
    """A verdict and what it is about, one text a line."""

    plate: Plate
    lines: tuple[Text, ...]


@dataclass(frozen=True, slots=True)
class Group:
    """A verdict over a list of what it is about."""

    plate: Plate
    text: Text


@dataclass(frozen=True, slots=True)
class Labels:
    """Bag labels in a row."""

    ids: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Caution:
    """What to do in large type, then why."""

    signal: str
    text: Text


@dataclass(frozen=True, slots=True)
class Fact:
    """A name and its value."""

    name: str
    value: Text


@dataclass(frozen=True, slots=True)
class Step:
    """One numbered act."""

    number: str
    text: Text


@dataclass(frozen=True, slots=True)
class Picture:
    """A drawing without words in it, `height` in mm, and the words beside it."""

    svg: str
    alt: str
    height: float
    text: Text = ()


@dataclass(frozen=True, slots=True)
class Code:
    """The code of an address, quiet zone and all, and the address in letters."""

    svg: str
    url: str
    text: Text


@dataclass(frozen=True, slots=True)
class Blank:
    """A reading to be written down with a pencil."""

    name: Text
    hint: Text = ()


@dataclass(frozen=True, slots=True)
class Grid:
    """Verdicts of several parts on several bikes: heads of columns, then rows of a label and outlines."""

    heads: tuple[str, ...]
    rows: tuple[tuple[str, tuple[Plate, ...]], ...]


@dataclass(frozen=True, slots=True)
class Head:
    """The line over a side; `number` is such as 2 of 7."""

    subject: Text
    title: str
    number: str


@dataclass(frozen=True, slots=True)
class Foot:
    """The line under a side: whose card it is, and from which data."""

    text: Text


Block = Says | Fit | Group | Labels | Caution | Fact | Step | Picture | Code | Blank | Grid | Head | Foot


@dataclass(frozen=True, slots=True)
class Listing:
    """A list that may go over to the next side, where its head is said again; one that is read in one go (`whole`)
    does so only where it is longer than a side."""

    head: Block
    items: tuple[Block, ...]
    whole: bool = False


@dataclass(frozen=True, slots=True)
class Section:
    """Blocks in the order of need under one title; it begins a side of its own."""

    title: str
    blocks: tuple[Block | Listing, ...]


@dataclass(frozen=True, slots=True)
class CardSet:
    """All sides about one subject.  `page` is the address of the handbook that says the same."""

    kind: str
    subject: str
    head: Text
    title: str
    page: str
    sections: tuple[Section, ...]


def plain(text: str) -> Text:
    return (Run(text),) if text else ()


def bold(text: str) -> Run:
    return Run(text, "bold")


def strong(text: str) -> Run:
    return Run(text, "strong")


def tag(id_: str) -> Run:
    return Run(id_, "tag")


def as_data(value: object) -> object:
    """The same as lists, texts and mappings, for JSON; a block says its shape, and long words get places to break."""
    if is_dataclass(value) and not isinstance(value, type):
        words = isinstance(value, Run | Labels | Grid)
        inner = {f.name: _plain(getattr(value, f.name), words) for f in fields(value) if f.name != "origin"}
        return {"shape": type(value).__name__.lower(), **inner}
    return _plain(value, False)


def _plain(value: object, words: bool) -> object:
    if isinstance(value, tuple):
        return [_plain(each, words) for each in value]
    if isinstance(value, str):
        return breakable(value) if words else value
    return as_data(value) if is_dataclass(value) else value


def breakable(text: str) -> str:
    """A line may end within a word that has no end of its own."""
    return _UNBROKEN.sub("\\g<0>\u200b", text)


def runs_of(value: object) -> Iterator[Run]:
    """Every run in a block, in reading order."""
    if isinstance(value, Run):
        yield value
    elif isinstance(value, tuple):
        for each in value:
            yield from runs_of(each)
    elif is_dataclass(value) and not isinstance(value, type):
        for field in fields(value):
            yield from runs_of(getattr(value, field.name))


def rewritten(value: V, change: Callable[[Run], Run]) -> V:
    """The same with every run changed."""
    if isinstance(value, Run):
        return change(value)  # type: ignore[return-value] # a run is made of a run
    if isinstance(value, tuple):
        return tuple(rewritten(each, change) for each in value)  # type: ignore[return-value] # likewise
    if is_dataclass(value) and not isinstance(value, type):
        return replace(value, **{f.name: rewritten(getattr(value, f.name), change) for f in fields(value)})
    return value
