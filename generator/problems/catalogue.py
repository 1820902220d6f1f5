"""What each code means: the catalogue is the text beside a problem, the tests and a page in one."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from generator.problems.problem import Level


@dataclass(frozen=True, slots=True)
class CatalogueEntry:
    """One code: why it matters, how to mend it, and two samples laid over a small base club.

    `good` and `bad` are file name -> text; `at` is `file:line:column` of the problem in `bad`.
    """

    code: str
    title: str
    level: Level
    why: str
    fix: str
    good: Mapping[str, str]
    bad: Mapping[str, str]
    at: str


Catalogue = Mapping[str, CatalogueEntry]


def catalogue_of(plain: Mapping[str, Any]) -> dict[str, CatalogueEntry]:
    """The catalogue in the order of its codes; a missing or spare key is refused."""
    return {code: CatalogueEntry(code=code, **plain[code]) for code in sorted(plain)}
