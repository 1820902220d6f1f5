"""Size codes against size codes, in tables.

Goes in: crossings.  Comes out: tables with floor and ceiling, and the words for how two codes stand to each other.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from generator.compute.fit.sizes import SizeRelation
from generator.compute.size_by_size import Crossing
from generator.model.shipped import RUNGS
from generator.render.pages.downloads import with_downloads
from generator.render.routes import part_route
from generator.render.table import Cell, Column, Row, Table
from generator.render.verdicts import ShownVerdict, shown_verdict

RELATIONS: dict[SizeRelation, str] = {
    "same": "the same code",
    "heavy-on-standard": "heavy link on standard chain: the groove stands proud, the plate floats",
    "standard-on-heavy": "standard link on heavy chain: the thicker plates hide the groove",
    "wider-on-narrower": "link for a wider chain: pins too long, the plate floats unless packed",
    "narrower-on-wider": "link for a narrower chain: pins too short",
    "other-roller": "another roller and pin",
    "other-pitch": "another pitch: the pins do not line up",
}


@dataclass(frozen=True, slots=True)
class Both:
    """One code on another: the range where the kinds, plain or sealed, are the same, and where they differ."""

    link: str
    chain: str
    relation: SizeRelation
    same: tuple[int, int]
    differs: tuple[int, int]


def both_kinds(crossings: Iterable[Crossing]) -> tuple[Both, ...]:
    """Link code by chain code; over the kinds the best of bests and the worst of worsts."""
    found: dict[tuple[str, str], dict[bool, tuple[int, int]]] = {}
    relations: dict[tuple[str, str], SizeRelation] = {}
    for each in crossings:
        key = (each.link_code, each.chain_code)
        best, worst = found.setdefault(key, {}).get(each.same_kind, (each.best, each.worst))
        found[key][each.same_kind] = (min(best, each.best), max(worst, each.worst))
        relations[key] = each.relation
    return tuple(Both(*key, relations[key], ranges[True], ranges[False]) for key, ranges in found.items())


def verdict_of_range(ends: tuple[int, int]) -> ShownVerdict:
    best, worst = ends
    return shown_verdict(RUNGS[best] if best == worst else "measure-first", best, worst)


def crossing_tables(code: str, crossings: Iterable[Crossing]) -> tuple[Table, ...]:
    """A link of this code on every chain, and every link on a chain of this code; none for industrial chain."""
    every = both_kinds(crossings)
    on = [(each.chain, each) for each in every if each.link == code]
    under = [(each.link, each) for each in every if each.chain == code]
    if not on:
        return ()
    small = code.lower()
    return (
        _table("link", small, f"A {code} link on a chain of", "Chain", on),
        _table("chain", small, f"On a {code} chain, a link of", "Link", under),
    )


def _table(side: str, code: str, caption: str, head: str, rows: list[tuple[str, Both]]) -> Table:
    columns = (
        Column(head, "head"),
        Column("Both plain or both sealed", "verdict"),
        Column("One plain, one sealed"),
        Column("How the codes stand to each other"),
    )
    ordered = sorted(rows, key=lambda row: row[1].same)  # what may go together comes first
    lines = tuple(_row(f"{side}-{code}", other, both) for other, both in ordered)
    return with_downloads(Table(f"crossings-{side}-{code}", caption, columns, lines))


def _row(start: str, other: str, both: Both) -> Row:
    cells = (
        Cell(other, to=part_route("size", other)),
        Cell(verdict=verdict_of_range(both.same)),
        Cell(verdict=verdict_of_range(both.differs)),
        Cell(RELATIONS[both.relation]),
    )
    return Row(cells, id=f"{start}-{other.lower()}")
