"""The list of tools with their keys, and a page a tool: what it takes, and whether its key is there."""

from collections.abc import Iterator, Sequence

from generator.compute.grouped import grouped
from generator.compute.others.result import PartFit
from generator.model.dataset import Dataset, Part
from generator.model.tools_and_bikes import Tool
from generator.render.base.page import Page
from generator.render.base.routes import part_route
from generator.render.base.table import Cell, Column, Row
from generator.render.base.verdicts import ShownVerdict, shown_verdict
from generator.render.pages.book import Book
from generator.render.pages.facts import Fact, fact
from generator.render.pages.parts.frame import (
    STOCK_COLUMNS,
    list_head,
    list_page,
    meets,
    part_page,
    stock_cells,
    stock_facts,
    words_of,
)
from generator.render.pages.parts.met import entry_of
from generator.render.say.part_why import part_why
from generator.render.say.parts import EVERY_SIZE_SAYS, NOTHING_NEEDS_IT, TOOL_SAYS, WORKS_ON
from generator.render.say.said import plain

DOES = {
    "press": "presses side plates on",
    "breaker": "drives pins out",
    "riveter": "flares rivet pins",
    "pliers": "holds and pulls clips",
    "key": "turns other tools",
    "file": "files",
    "wire": "wire for grooves",
    "washers": "washers to crimp on",
    "ties": "ties and holds",
    "spanner": "turns axle and adjuster",
    "strap": "tows",
    "tip": "spare tip of a breaker",
    "oil": "oils",
    "other": "for other jobs",
}
# the word of the glossary for each job
TERMS = {
    "press": ("side-plate-press",),
    "breaker": ("breaker",),
    "riveter": ("riveter",),
    "pliers": ("locking-pliers",),
    "key": ("key",),
}
EVERY_SIZE = tuple(job for job in DOES if job not in ("press", "breaker", "riveter"))


def tool_pages(book: Book) -> Iterator[Page]:
    of_tool = grouped(book.others.tools, lambda fit: fit.id_of("tool"))
    of_key = {fit.id_of("tool"): fit for fit in book.others.keys}
    yield _list(book.dataset, of_key)
    for tool in book.dataset.tools.values():
        yield _page(book, tool, of_tool.get(tool.id, []), of_key)


def _list(dataset: Dataset, keys: dict[str, PartFit]) -> Page:
    columns = (
        Column("Tool", "head"),
        Column("With its key", "verdict", ""),
        Column("Job"),
        Column("Size codes", line="takes {}"),
        Column("Key", line="with {}"),
        *STOCK_COLUMNS,
    )
    description = "Every tool of the club, what it takes, and whether the key that turns it is there."
    rows = (_row(tool, keys.get(tool.id)) for tool in dataset.tools.values())
    return list_page(dataset, "tool", description, columns, rows)


def _row(tool: Part[Tool], key: PartFit | None) -> Row:
    verdict = Cell(verdict=shown_verdict(key.word, key.best, key.worst)) if key else Cell("needs none")
    return Row(
        (
            list_head(tool),
            verdict,
            Cell(DOES[tool.record.does]),
            Cell(_takes(tool.record)),
            Cell(tool.record.key or "none written down"),
            *stock_cells(tool),
        ),
        id=tool.id,
    )


def _takes(record: Tool) -> str:
    if record.takes:
        return ", ".join(record.takes)
    return "any" if record.does in EVERY_SIZE else "not written down"


def _page(book: Book, tool: Part[Tool], fits: Sequence[PartFit], keys: dict[str, PartFit]) -> Page:
    dataset = book.dataset
    kind = "link" if any(fit.relation == "tool-link" for fit in fits) else "chain"
    turned = [fit for fit in keys.values() if fit.has("key", tool.id)]
    every_size = not fits and not tool.record.takes
    page = part_page(
        dataset,
        tool,
        f"Tool {tool.id}, {DOES[tool.record.does]}: what it takes and the key it needs.",
        _facts(dataset, tool, keys.get(tool.id), turned),
        _cautions(tool.record),
        lambda: [
            meets(
                WORKS_ON[kind],
                TOOL_SAYS if fits else "",
                [entry_of(book, fit, kind) for fit in fits],
                EVERY_SIZE_SAYS if every_size else NOTHING_NEEDS_IT,
            )
        ],
        answer=_key(dataset, keys.get(tool.id)),
    )
    return words_of(page, dataset, TERMS.get(tool.record.does, ()))


def _key(dataset: Dataset, fit: PartFit | None) -> tuple[ShownVerdict, str] | None:
    """The verdict on its key, and why."""
    if fit is None:
        return None
    return shown_verdict(fit.word, fit.best, fit.worst), plain(part_why(dataset, fit))


def _facts(
    dataset: Dataset, tool: Part[Tool], key: PartFit | None, turned: Sequence[PartFit]
) -> Iterator[Fact | None]:
    yield from stock_facts(dataset, tool)
    yield fact("Job", DOES[tool.record.does])
    yield fact("Size codes", _takes(tool.record))
    if key is not None:
        id_ = tool.record.key
        yield fact("Key", id_ or "not written down", part_route("tool", id_) if id_ else "")
    for fit in turned:
        yield fact("Turns", fit.id_of("tool"), part_route("tool", fit.id_of("tool")))


def _cautions(record: Tool) -> Iterator[str]:
    if record.does in ("press", "breaker", "riveter"):
        yield from ("engine-off", "flying-parts")
    if record.does in ("press", "riveter"):
        yield "over-pressing"
