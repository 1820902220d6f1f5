"""The list of seals and packing washers, and a page a set: in which joints it is squeezed right."""

from collections.abc import Iterator, Sequence

from generator.compute.grouped import grouped
from generator.compute.others.result import PartFit
from generator.model.chain_parts import SealSet
from generator.model.dataset import Dataset, Part
from generator.render.base.lengths import shown_length
from generator.render.base.page import Page
from generator.render.base.table import Cell, Column, Row
from generator.render.pages.book import Book
from generator.render.pages.facts import Fact, fact
from generator.render.pages.parts.frame import (
    STOCK_COLUMNS,
    links_of,
    list_head,
    list_page,
    meets,
    part_page,
    stock_cells,
    stock_facts,
)
from generator.render.pages.parts.met import seal_entries
from generator.render.say.parts import (
    CAME_WITH,
    IN_JOINTS,
    NO_JOINT_FOR_SEALS,
    OWN_SEALS_SAY,
    SEALS_SAY,
    WASHERS_SAY,
)

SHAPES = {
    "O": "O-rings",
    "X": "X-rings",
    "other": "seals of another section",
    "washer": "packing washers",
    "unknown": "not known",
}
COVERS = {"yes": "yes", "no": "no", "unknown": "not known"}
COVERED = {
    "yes": "cover the bush ring",
    "no": "leave the bush ring bare",
    "unknown": "bush ring not looked at",
}
CAUTIONS = ("over-pressing", "solvents")


def seal_pages(book: Book) -> Iterator[Page]:
    of_seal = grouped(book.others.seals, lambda fit: fit.id_of("seal"))
    yield _list(book.dataset)
    for seal in book.dataset.seals.values():
        yield _page(book, seal, of_seal.get(seal.id, []))


def _list(dataset: Dataset) -> Page:
    columns = (
        Column("Seals", "head"),
        Column("Kind"),
        Column("Thickness", "number", "{} thick"),
        Column("Bush ring"),
        *STOCK_COLUMNS,
    )
    description = "Every set of seals and packing washers of the club, how thick it is, where it is kept."
    return list_page(dataset, "seal", description, columns, (_row(seal) for seal in dataset.seals.values()))


def _row(seal: Part[SealSet]) -> Row:
    thickness = seal.dims.get("thickness")
    length = Cell(length=shown_length(thickness.nominal)) if thickness else Cell("not known")
    record = seal.record
    # washers are no seals
    covered = COVERED[record.covers_bush] if record.shape != "washer" else ""
    cells = (list_head(seal), Cell(SHAPES[record.shape]), length, Cell(covered))
    return Row((*cells, *stock_cells(seal)), id=seal.id)


def _page(book: Book, seal: Part[SealSet], fits: Sequence[PartFit]) -> Page:
    says = WASHERS_SAY if seal.record.shape == "washer" else SEALS_SAY
    if book.others.own_seals_only and seal.record.shape != "washer":
        says = f"{says} {OWN_SEALS_SAY}"
    return part_page(
        book.dataset,
        seal,
        f"{SHAPES[seal.record.shape].capitalize()} {seal.id}: in which joints they are squeezed right.",
        _facts(book.dataset, seal),
        CAUTIONS,
        lambda: [meets(IN_JOINTS, says, seal_entries(book, fits), NO_JOINT_FOR_SEALS)],
        own=(CAME_WITH, links_of(book.dataset, "seals", seal.id)),
    )


def _facts(dataset: Dataset, seal: Part[SealSet]) -> Iterator[Fact | None]:
    yield from stock_facts(dataset, seal, "How many sets of four")
    yield fact("Kind", SHAPES[seal.record.shape])
    if seal.record.shape != "washer":
        yield fact("Cover the bush ring", COVERS[seal.record.covers_bush])
