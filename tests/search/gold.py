"""The gold list as values, and how a search does on it."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import yaml

FILE = Path(__file__).with_name("gold.yaml")


@dataclass(frozen=True, slots=True)
class Wanted:
    """What somebody types, and where it must lead."""

    kind: str
    ask: str
    find: str
    typo: str


@dataclass(frozen=True, slots=True)
class Marks:
    """How many led there first, how many among the first three, and what did not come first."""

    asked: int
    first: int
    third: int
    misses: tuple[str, ...]

    def __str__(self) -> str:
        return (
            f"first {self.first}, in three {self.third} of {self.asked}; not first: {'; '.join(self.misses)}"
        )


@cache
def gold() -> tuple[Wanted, ...]:
    kinds = yaml.safe_load(FILE.read_text(encoding="utf-8"))
    return tuple(
        Wanted(kind, row["ask"], row["find"], row.get("typo", ""))
        for kind, rows in kinds.items()
        for row in rows
    )


def marks(find: Callable[[str], Sequence[str]], wanted: Iterable[Wanted] | None = None) -> Marks:
    rows = tuple(wanted or gold())
    found = [(row, tuple(find(row.ask)[:3])) for row in rows]
    misses = tuple(
        f"{row.kind}: {row.ask!r} wants {row.find}, got {', '.join(paths)}"
        for row, paths in found
        if paths[:1] != (row.find,)
    )
    third = sum(row.find in paths for row, paths in found)
    return Marks(len(rows), len(rows) - len(misses), third, misses)
