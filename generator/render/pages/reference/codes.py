"""What each problem code means, with a sample that is right and one that is wrong."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from generator.problems.catalogue import Catalogue, CatalogueEntry
from generator.render.base.page import Download, Page
from generator.render.base.table import Cell, Column, Row, Table
from generator.render.pages.book import Book

FAMILIES = {
    "Y": "Form of the text",
    "F": "Files and folders",
    "L": "Lengths and other values",
    "R": "Shape of a record",
    "X": "References",
    "C": "Rules across fields and records",
    "T": "Dry fits",
    "U": "Rule tables",
    "S": "Sources",
    "W": "Wear log and rides",
}


@dataclass(frozen=True, slots=True)
class Sample:
    """One file of a sample."""

    file: str
    text: str


@dataclass(frozen=True, slots=True)
class ShownCode:
    """A code as the page prints it; `at` says where in the wrong sample the problem is found."""

    code: str
    title: str
    level: str
    why: str
    fix: str
    bad: tuple[Sample, ...]
    good: tuple[Sample, ...]
    at: str


@dataclass(frozen=True, slots=True)
class Family:
    """Codes of one letter."""

    letter: str
    title: str
    codes: tuple[ShownCode, ...]


def codes_page(book: Book) -> Page:
    catalogue = book.catalogue
    return Page(
        path="problems/",
        title="What the codes mean",
        description="Every problem code of `handbook check`: why it matters, how to mend it, a right and a wrong sample.",
        template="handbook/codes.html",
        context={"families": tuple(_families(catalogue))},
        search=("problem codes", "error codes", "errors", "warnings", "handbook check", *catalogue),
        kind="codes",
        in_nav=True,
        tables=(_table(catalogue),),
        files=(Download("JSON", "data/v1/problems.json"),),
    )


def _table(catalogue: Catalogue) -> Table:
    columns = (Column("Code", "head"), Column("What it says", "long"), Column("Level"))
    rows = tuple(
        Row((Cell(code, to=f"problems/#{code}"), Cell(catalogue[code].title), Cell(catalogue[code].level)))
        for code in _in_order(catalogue)
    )
    return Table("codes", "All codes", columns, rows)


def _families(catalogue: Catalogue) -> Iterator[Family]:
    for letter in dict.fromkeys(code[0] for code in _in_order(catalogue)):
        codes = tuple(_shown(entry) for code, entry in catalogue.items() if code[0] == letter)
        yield Family(letter, FAMILIES.get(letter, letter), codes)


def _in_order(catalogue: Catalogue) -> list[str]:
    """As a file is checked: its text first, then its values, then how they go together."""
    return sorted(catalogue, key=lambda code: ([*FAMILIES, code[0]].index(code[0]), code))


def _shown(entry: CatalogueEntry) -> ShownCode:
    return ShownCode(
        code=entry.code,
        title=entry.title,
        level=entry.level,
        why=entry.why,
        fix=entry.fix,
        bad=_samples(entry.bad),
        good=_samples(entry.good),
        at=entry.at,
    )


def _samples(files: Mapping[str, str]) -> tuple[Sample, ...]:
    return tuple(Sample(file, text) for file, text in sorted(files.items()))
