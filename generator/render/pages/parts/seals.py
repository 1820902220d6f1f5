"""The list of seals and packing washers, and a page a set: in which joints it is squeezed right.

Goes in: a dataset and the fits of its seals.  Comes out: pages.
"""

from collections.abc import Callable, Iterable, Iterator, Sequence

from generator.compute.grouped import grouped
from generator.compute.others.result import PartFit
from generator.model.chain_parts import SealSet
from generator.model.dataset import Dataset, Part
from generator.render.base.lengths import shown_length
from generator.render.base.page import Page
from generator.render.base.table import Cell, Column, Row, Table
from generator.render.base.verdicts import best_first
from generator.render.many import many_pairs
from generator.render.pages.facts import Fact, fact
from generator.render.pages.fit_cells import VERDICT
from generator.render.pages.parts.frame import (
    STOCK_COLUMNS,
    links_of,
    list_head,
    list_page,
    part_page,
    stock_cells,
    stock_facts,
)
from generator.render.pages.parts.goes_with import (
    BY_CHECK,
    deciding_columns,
    fit_cells,
    led_to,
    part_cell,
    reason_cell,
    verdict_cell,
    with_files,
    worth_rows,
)

SHAPES = {
    "O": "O-seals",
    "X": "X-seals",
    "other": "seals of another section",
    "washer": "packing washers",
    "unknown": "not known",
}
COVERS = {"yes": "yes", "no": "no", "unknown": "not known"}
LINKS, CHAINS = Column("Connecting links", "long"), Column("Chains", "long")
CAUTIONS = ("over-pressing", "solvents")


def seal_pages(dataset: Dataset, fits: Sequence[PartFit]) -> Iterator[Page]:
    of_seal = grouped(fits, lambda fit: fit.id_of("seal"))
    yield _list(dataset)
    for seal in dataset.seals.values():
        yield _page(dataset, seal, of_seal.get(seal.id, []))


def _list(dataset: Dataset) -> Page:
    columns = (
        Column("Seals", "head"),
        Column("Kind"),
        Column("Thickness", "number"),
        Column("Cover the bush"),
        *STOCK_COLUMNS,
    )
    description = "Every set of seals and packing washers of the club, how thick it is, where it is kept."
    return list_page(dataset, "seal", description, columns, (_row(seal) for seal in dataset.seals.values()))


def _row(seal: Part[SealSet]) -> Row:
    thickness = seal.dims.get("thickness")
    length = Cell(length=shown_length(thickness.nominal)) if thickness else Cell("not known")
    record = seal.record
    cells = (list_head(seal), Cell(SHAPES[record.shape]), length, Cell(COVERS[record.covers_bush]))
    return Row((*cells, *stock_cells(seal)), id=seal.id)


def _page(dataset: Dataset, seal: Part[SealSet], fits: Sequence[PartFit]) -> Page:
    return part_page(
        dataset,
        seal,
        f"{SHAPES[seal.record.shape].capitalize()} {seal.id}: in which joints they are squeezed right.",
        _facts(dataset, seal),
        CAUTIONS,
        {
            "joints": _joints(dataset, seal, fits),
            "washers": seal.record.shape == "washer",
            "belongs_to": links_of(dataset, "seals", seal.id),
        },
    )


def _joints(dataset: Dataset, seal: Part[SealSet], fits: Sequence[PartFit]) -> Table | None:
    """Links that come out alike on a chain share a row: where the plate is pressed the chain alone decides."""
    listed, caption = worth_rows(dataset, fits, f"Joints with {seal.id} between the plates, best first")
    alike = grouped(listed, _all_but_the_link(brief=many_pairs(dataset))).values()
    groups = sorted(
        alike, key=lambda group: (best_first(group[0].best, group[0].worst), group[0].id_of("chain"))
    )
    if many_pairs(dataset):
        columns: tuple[Column, ...] = (BY_CHECK, VERDICT, CHAINS, LINKS)
        rows = _rows_by_check(dataset, groups)
    else:
        columns = (Column("Chain", "head"), VERDICT, LINKS, *deciding_columns(dataset))
        rows = tuple(_joint_row(dataset, group) for group in groups)
    return (
        with_files(
            dataset, Table(f"seal-{seal.id}-joints", caption, columns, rows, as_list=many_pairs(dataset))
        )
        if rows
        else None
    )


def _all_but_the_link(brief: bool) -> Callable[[PartFit], tuple[object, ...]]:
    """All else that a row would show."""

    def shown(fit: PartFit) -> tuple[object, ...]:
        check = fit.deciding_check
        found = () if brief else (fit.measure_next, check and (check.clearance, check.missing))
        return (fit.id_of("chain"), fit.best, fit.worst, fit.refused, check and check.rule_id, found)

    return shown


def _joint_row(dataset: Dataset, group: Sequence[PartFit]) -> Row:
    first = group[0]
    verdict, *rest = fit_cells(dataset, first)
    return Row((part_cell(dataset, "chain", first.id_of("chain")), verdict, Cell(_links(group)), *rest))


def _rows_by_check(dataset: Dataset, groups: Iterable[Sequence[PartFit]]) -> tuple[Row, ...]:
    """In a club with many pairs, chains on which the same links come out alike share a row too."""
    alike = grouped(
        groups,
        lambda group: (
            group[0].best,
            group[0].worst,
            reason_cell(dataset, group[0]),
            _links(group),
        ),
    )
    return tuple(
        Row((title, _verdict(every[0][0]), led_to("chain", (group[0] for group in every)), Cell(links)))
        for (*_, title, links), every in alike.items()
    )


def _verdict(fit: PartFit) -> Cell:
    return verdict_cell(fit.word, fit.best, fit.worst)


def _links(group: Iterable[PartFit]) -> str:
    return ", ".join(sorted(fit.id_of("link") for fit in group))


def _facts(dataset: Dataset, seal: Part[SealSet]) -> Iterator[Fact | None]:
    yield from stock_facts(dataset, seal, "How many sets of four")
    yield fact("Kind", SHAPES[seal.record.shape])
    if seal.record.shape != "washer":
        yield fact("Cover the bush ring", COVERS[seal.record.covers_bush])
