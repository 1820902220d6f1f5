"""Size codes against size codes, in tables.

Goes in: crossings.  Comes out: tables with floor and ceiling, and the words for how two codes stand to each other.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from generator.compute.fit.result import word_of
from generator.compute.fit.sizes import SizeRelation
from generator.compute.size_by_size import Crossing
from generator.model.shipped import RUNGS
from generator.render.base.routes import part_route
from generator.render.base.table import Cell, Column, Row, Table
from generator.render.base.verdicts import ShownVerdict, shown_verdict
from generator.render.pages.downloads import with_downloads

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
    return shown_verdict(word_of(best, worst), best, worst)


def range_cell(ends: tuple[int, int], to: str = "") -> Cell:
    """Ceiling, with the floor in small print."""
    best, worst = ends
    if best == worst:
        return Cell(RUNGS[best], to=to)
    return Cell(f"at best {RUNGS[best]}", to=to, note=f"down to {RUNGS[worst]}")


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
        Column("Verdict", "verdict"),
        Column("Plain or sealed"),
        Column("How the codes stand to each other", "long"),
    )
    ordered = sorted(rows, key=lambda row: row[1].same)  # what may go together comes first
    lines = tuple(
        line for other, both in ordered for line in _rows(f"{side}-{code}-{other.lower()}", other, both)
    )
    return with_downloads(Table(f"crossings-{side}-{code}", caption, columns, lines))


def _rows(id_: str, other: str, both: Both) -> Iterator[Row]:
    """One verdict a row, so that none is out of view on a phone; two rows only where the kinds matter."""
    if both.same == both.differs:
        yield _row(id_, other, both.same, "whether plain or sealed", both.relation)
        return
    yield _row(id_, other, both.same, "both plain or both sealed", both.relation)
    yield _row(f"{id_}-kinds-differ", other, both.differs, "one plain, one sealed", both.relation)


def _row(id_: str, other: str, ends: tuple[int, int], kinds: str, relation: SizeRelation) -> Row:
    cells = (
        Cell(other, to=part_route("size", other)),
        Cell(verdict=verdict_of_range(ends)),
        Cell(kinds),
        Cell(RELATIONS[relation]),
    )
    return Row(cells, id=id_)
