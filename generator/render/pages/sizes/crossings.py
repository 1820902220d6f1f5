"""Size codes against size codes: grids a pitch, and what stands behind them."""

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from generator.compute.size_by_size import THUMB_RULES, motorcycle_codes
from generator.model.dataset import Dataset
from generator.model.shipped import RUNGS
from generator.render.base.components import GridRow, Mark
from generator.render.base.lengths import shown_length
from generator.render.base.routes import part_route
from generator.render.base.table import Cell, Column, Row, Table
from generator.render.pages.reference.cells import decimals_of, evidence_cell, source_cell
from generator.render.pages.sizes.crossing_words import RELATIONS, Both
from generator.render.say.said import Said

_PITCH = re.compile(r"(\d+/\d+) in pitch")


@dataclass(frozen=True, slots=True)
class SizeGrid:
    """The codes of one pitch against each other."""

    pitch: str
    columns: tuple[tuple[str, str], ...]
    rows: tuple[GridRow, ...]


def _by_pitch(dataset: Dataset) -> tuple[tuple[str, ...], ...]:
    groups: dict[int, list[str]] = {}
    for code in motorcycle_codes(dataset):
        groups.setdefault(dataset.shelf.sizes[code].dims["pitch"].nominal, []).append(code)
    return tuple(tuple(codes) for codes in groups.values())


def grids(dataset: Dataset, every: Iterable[Both]) -> tuple[SizeGrid, ...]:
    """A grid a pitch that has more than one code: links down, chains across, the best each could be."""
    found = {(each.link, each.chain): each for each in every}
    return tuple(_grid(dataset, codes, found) for codes in _by_pitch(dataset) if len(codes) > 1)


def _grid(dataset: Dataset, codes: tuple[str, ...], found: Mapping[tuple[str, str], Both]) -> SizeGrid:
    rows = tuple(
        GridRow(link, to=part_route("size", link), marks=tuple(_mark(found[link, chain]) for chain in codes))
        for link in codes
    )
    return SizeGrid(_pitch_named(dataset, codes[0]), tuple((code, "") for code in codes), rows)


def _pitch_named(dataset: Dataset, code: str) -> str:
    """In mm, and by the fraction of an inch that the size goes by."""
    size = dataset.shelf.sizes[code]
    nm = size.dims["pitch"].nominal
    shown = shown_length(nm, decimals_of(nm))
    found = _PITCH.search(size.record.title)
    return f"{shown.mm}, {found[1]} in" if found else shown.mm


def _mark(both: Both) -> Mark:
    best, worst = both.same
    word = RUNGS[best]
    says = f"{both.link} link on {both.chain} chain: {word if best == worst else f'at best {word}'}"
    return Mark(word, says)


def relations_table(every: Iterable[Both]) -> Table:
    """How often each relation occurs, with its floor and ceiling."""
    grouped: dict[tuple[str, tuple[int, int], tuple[int, int]], int] = {}
    for each in every:
        key = (RELATIONS[each.relation], each.same, each.differs)
        grouped[key] = grouped.get(key, 0) + 1
    columns = (
        Column("How the codes stand to each other", "head"),
        Column("Pairs of codes", "number"),
        Column("Kinds the same, ceiling"),
        Column("floor"),
        Column("Kinds differ, ceiling"),
        Column("floor"),
    )
    rows = tuple(
        Row((Cell(words), Cell(str(count)), *(Cell(RUNGS[rung]) for rung in (*same, *differs))))
        for (words, same, differs), count in grouped.items()
    )
    return Table("relations", "What the codes alone allow", columns, rows)


def alone(dataset: Dataset) -> tuple[Said, ...]:
    """Codes whose pitch no other has."""
    lines: list[Said] = []
    for codes in _by_pitch(dataset):
        if len(codes) == 1:
            pitch = dataset.shelf.sizes[codes[0]].dims["pitch"].nominal
            lines.append(
                (f"{codes[0]} has a pitch of its own, ", shown_length(pitch, decimals_of(pitch)), ".")
            )
    return tuple(lines)


def rules_table(dataset: Dataset) -> Table:
    """The rules of thumb behind it, as graded."""
    columns = (Column("Rule", "head"), Column("What it says"), Column("Grade"), Column("Source"))
    shelf = dataset.shelf
    rows = tuple(
        Row(
            (
                Cell(shelf.joint_rules[id_].title, to=f"limits/#{id_}"),
                Cell(shelf.joint_rules[id_].says),
                evidence_cell(shelf.joint_rules[id_].evidence),
                source_cell(shelf, shelf.joint_rules[id_].source),
            ),
            id=id_,
        )
        for id_ in THUMB_RULES
        if id_ in shelf.joint_rules
    )
    return Table("thumb-rules", "The rules that speak where nothing is measured", columns, rows)
