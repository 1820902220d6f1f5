"""Every size code against every other, with parts of which nothing is known but code and kind.

Goes in: a dataset.  Comes out: a page with one table a pitch.
"""

from collections.abc import Iterable

from generator.compute.size_by_size import THUMB_RULES, motorcycle_codes, size_by_size
from generator.model.dataset import Dataset
from generator.model.shipped import RUNGS
from generator.render.base.lengths import shown_length
from generator.render.base.page import Page
from generator.render.base.routes import part_route
from generator.render.base.table import Cell, Column, Row, Table
from generator.render.pages.downloads import with_downloads
from generator.render.pages.reference.cells import decimals_of, evidence_cell, source_cell
from generator.render.pages.reference.crossing_words import RELATIONS, Both, both_kinds, range_cell
from generator.render.say.said import Said


def size_by_size_page(dataset: Dataset) -> Page:
    every = both_kinds(size_by_size(dataset))
    groups = _by_pitch(dataset)
    tables = tuple(_matrix(codes, every) for codes in groups if len(codes) > 1)
    return Page(
        path="size-by-size/",
        title="Size against size",
        description="What the size codes alone say about a link of one code on a chain of another.",
        template="handbook/size_by_size.html",
        context={
            "tables": tables,
            "every": _every(every),
            "alone": _alone(dataset, groups),
            "rules": _rules(dataset),
        },
        search=(
            "which size fits which",
            "interchange chart",
            "cross reference of sizes",
            "428 on 420",
            "520 on 525",
            "525 on 520",
            "530 on 520",
            "standard link on heavy chain",
            "compatibility chart",
        ),
        kind="size-by-size",
        in_nav=True,
    )


def _by_pitch(dataset: Dataset) -> tuple[tuple[str, ...], ...]:
    groups: dict[int, list[str]] = {}
    for code in motorcycle_codes(dataset):
        groups.setdefault(dataset.shelf.sizes[code].dims["pitch"].nominal, []).append(code)
    return tuple(tuple(codes) for codes in groups.values())


def _matrix(codes: tuple[str, ...], every: Iterable[Both]) -> Table:
    """Links down, chains across; ceiling in each cell, floor under it."""
    found = {(each.link, each.chain): each for each in every}
    rows = tuple(
        Row((_head(link), *(_cell(found[link, chain]) for chain in codes)), id=link.lower()) for link in codes
    )
    columns = (
        Column("Link, down; chain, across", "head"),
        *(Column(f"on {code}", "short") for code in codes),
    )
    caption = f"Links and chains of {', '.join(codes)}, kinds the same"
    return with_downloads(Table(f"crossings-{codes[0].lower()}", caption, columns, rows))


def _head(code: str) -> Cell:
    return Cell(code, to=part_route("size", code))


def _cell(both: Both) -> Cell:
    to = f"{part_route('size', both.link)}#link-{both.link.lower()}-{both.chain.lower()}"
    return range_cell(both.same, to)


def _every(every: Iterable[Both]) -> Table:
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
    return with_downloads(Table("relations", "What the codes alone allow", columns, rows))


def _alone(dataset: Dataset, groups: Iterable[tuple[str, ...]]) -> tuple[Said, ...]:
    """Codes whose pitch no other has."""
    lines: list[Said] = []
    for codes in groups:
        if len(codes) == 1:
            pitch = dataset.shelf.sizes[codes[0]].dims["pitch"].nominal
            lines.append(
                (f"{codes[0]} has a pitch of its own, ", shown_length(pitch, decimals_of(pitch)), ".")
            )
    return tuple(lines)


def _rules(dataset: Dataset) -> Table:
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
    return with_downloads(
        Table("thumb-rules", "The rules that speak where nothing is measured", columns, rows)
    )
