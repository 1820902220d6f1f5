"""What came of a deck once it was typeset: files with their pages, and a picture of each kind."""

from dataclasses import dataclass
from typing import Protocol

from generator.render.cards.deck import Job


@dataclass(frozen=True, slots=True)
class CardFile:
    """One PDF."""

    job: Job
    pages: int
    content: bytes


@dataclass(frozen=True, slots=True)
class Preview:
    """A picture of the first side of a kind."""

    kind: str
    content: bytes


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
