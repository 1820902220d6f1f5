"""The list of loose side plates, and a page a plate: which links it can close."""

from collections.abc import Iterator, Sequence

from generator.compute.grouped import grouped
from generator.compute.others.result import PartFit
from generator.model.chain_parts import SidePlate
from generator.model.dataset import Dataset, Part
from generator.render.base.lengths import shown_length
from generator.render.base.page import Page
from generator.render.base.routes import part_route
from generator.render.base.table import Cell, Column, Row
from generator.render.pages.book import Book
from generator.render.pages.facts import WORDS, Fact, fact
from generator.render.pages.fit_sections import Entry
from generator.render.pages.parts.frame import (
    STOCK_COLUMNS,
    list_head,
    list_page,
    meets,
    part_page,
    size_fact,
    stock_cells,
    stock_facts,
)
from generator.render.pages.parts.met import ANY, Range, best_joint, entry_of
from generator.render.say.parts import CLOSES_LINKS, NO_LINK_FOR_PLATE, PLATE_SAYS

CAUTIONS = ("flying-parts", "over-pressing", "locking-wheel")


def plate_pages(book: Book) -> Iterator[Page]:
    of_plate = grouped(book.others.plates, lambda fit: fit.id_of("plate"))
    yield _list(book.dataset)
    for plate in book.dataset.plates.values():
        yield _page(book, plate, of_plate.get(plate.id, []))


def _list(dataset: Dataset) -> Page:
    columns = (
        Column("Side plate", "head"),
        Column("Size code"),
        Column("Goes on"),
        Column("State"),
        Column("Thickness", "number", "{} thick"),
        *STOCK_COLUMNS,
    )
    description = "Every loose side plate of the club: how it goes on, its state, where it is kept."
    return list_page(
        dataset, "plate", description, columns, (_row(dataset, plate) for plate in dataset.plates.values())
    )


def _row(dataset: Dataset, plate: Part[SidePlate]) -> Row:
    record, thickness = plate.record, plate.dims.get("thickness")
    length = Cell(length=shown_length(thickness.nominal)) if thickness else Cell("not known")
    fit = WORDS.get(record.plate_fit, record.plate_fit)
    cells = (list_head(plate), Cell(record.size_code), Cell(fit), Cell(_condition(dataset, record)), length)
    return Row((*cells, *stock_cells(plate)), id=plate.id)


def _condition(dataset: Dataset, record: SidePlate) -> str:
    """Where the rule for the state alone makes it no-go, that is said at once."""
    words = WORDS.get(record.condition, record.condition.replace("-", " "))
    rungs = dataset.shelf.other_rules["plate"]["plate-condition"].rungs
    return f"{words}: no-go" if rungs.get(record.condition) == ("no-go",) else words


def _page(book: Book, plate: Part[SidePlate], fits: Sequence[PartFit]) -> Page:
    def entry(fit: PartFit) -> Entry:
        return entry_of(book, fit, "link", best_of_link(book, fit.id_of("link")))

    return part_page(
        book.dataset,
        plate,
        f"Side plate {plate.id}, {plate.record.size_code}: which connecting links it can close.",
        _facts(book.dataset, plate),
        CAUTIONS,
        lambda: [meets(CLOSES_LINKS, PLATE_SAYS, [entry(fit) for fit in fits], NO_LINK_FOR_PLATE)],
    )


def best_of_link(book: Book, link: str) -> Range:
    """On whichever chain of the club it goes best."""
    return best_joint((fit.best, fit.worst) for fit in book.of_link[link]) if book.dataset.chains else ANY


def _facts(dataset: Dataset, plate: Part[SidePlate]) -> Iterator[Fact | None]:
    yield from stock_facts(dataset, plate)
    yield size_fact(plate)
    yield fact("Goes on", plate.record.plate_fit)
    yield fact("State of plate and holes", _condition(dataset, plate.record))
    came_from = plate.record.from_link
    if came_from is None:
        yield fact("Came from link", "not written down")
    else:
        yield fact("Came from link", came_from, part_route("link", came_from))
