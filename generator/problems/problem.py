"""One problem in the data, as a value; every step returns or yields these and never prints."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

Level = Literal["error", "warning"]


@dataclass(frozen=True, slots=True, order=True)
class Place:
    """A stretch of one line of one file; lines and columns count from 1, in characters."""

    file: str
    line: int = 1
    column: int = 1
    end_column: int = 1


@dataclass(frozen=True, slots=True)
class Problem:
    """What is wrong at one place.  `why` and the general advice come from the catalogue by code.

    `path` is the way through the record (id, field, ...); `fix` may be empty, then the
    catalogue's own fix is shown; `related` names other places that belong to the same fault.
    """

    code: str
    message: str
    place: Place
    path: tuple[str, ...] = ()
    fix: str = ""
    did_you_mean: str | None = None
    related: tuple[Place, ...] = ()
    level: Level = "error"


def sorted_problems(problems: Iterable[Problem]) -> tuple[Problem, ...]:
    """In the order people read them: by file, line, column, code; repeats are dropped."""
    unique = dict.fromkeys(problems)
    return tuple(sorted(unique, key=lambda p: (p.place, p.code, p.message)))
