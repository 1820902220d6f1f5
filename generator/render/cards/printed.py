"""What came of a deck once it was typeset: files with their pages, and a picture of each kind."""

from dataclasses import dataclass
from typing import Protocol


@dataclass(frozen=True, slots=True)
class CardFile:
    """One PDF; `sheet` is empty where every side is a page of its own size."""

    file: str
    kind: str
    subject: str
    title: str
    format: str
    sheet: str
    pages: int
    content: bytes


@dataclass(frozen=True, slots=True)
class Preview:
    """A picture of the first side of a kind, `width` and `height` in pixels."""

    kind: str
    content: bytes
    width: int
    height: int


class Unprinted(Protocol):
    """Signs that no font has, and where they stand."""

    @property
    def where(self) -> str: ...
    @property
    def signs(self) -> str: ...


@dataclass(frozen=True, slots=True)
class Printed:
    """All of a club's cards."""

    files: tuple[CardFile, ...]
    previews: tuple[Preview, ...]
    unprintable: tuple[Unprinted, ...] = ()
