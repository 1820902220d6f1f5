"""The lists that come last: all labels from A to Z with all pages, and all files to take away."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from generator.model.kinds import KINDS, PART_KINDS
from generator.render.base.components import GoRow
from generator.render.base.page import Page, table_file
from generator.render.base.routes import FOLDERS, part_route
from generator.render.base.table import Cell, Column, Row, Table
from generator.render.pages.book import Book
from generator.render.pages.reference.file_words import FILES
from generator.render.say.names import named, parts_of

# pages of which every label has one; the labels above lead to them
_OF_LABELS = {*PART_KINDS, "pair"}
_FEW = ("recipe", "size")


@dataclass(frozen=True, slots=True)
class Labels:
    """All of a kind, by label."""

    id: str
    title: str
    rows: tuple[GoRow, ...]


def all_labels_page(book: Book, pages: Sequence[Page]) -> Page:
    return Page(
        path="pages/",
        title="All labels, A to Z",
        description="Every label of the club by kind, and every page, for when the search field does not work.",
        template="handbook/all_labels.html",
        context={"kinds": tuple(_kinds(book)), "others": tuple(_others(pages))},
        search=("list of pages", "site map", "contents", "index of everything", "labels from A to Z"),
        kind="all-pages",
        in_nav=True,
    )


def _kinds(book: Book) -> Iterator[Labels]:
    """Bikes first, as people know those best."""
    for kind in sorted(PART_KINDS, key=lambda kind: kind != "bike"):
        parts = parts_of(book.dataset, kind)
        if parts:
            rows = (GoRow(part_route(kind, id_), named(parts[id_]), tag=id_) for id_ in sorted(parts))
            yield Labels(FOLDERS[kind], KINDS[kind].labels or KINDS[kind].plural, tuple(rows))


def _others(pages: Sequence[Page]) -> Iterator[Labels]:
    """Every page that no label leads to, those of sizes and of ways to measure apart."""
    rest = [page for page in pages if page.kind not in _OF_LABELS]
    groups = {"pages-of-sizes": "Size codes", "pages-of-measuring": "How to measure"}
    for (id_, title), kind in zip(groups.items(), ("size", "recipe"), strict=True):
        yield Labels(id_, title, tuple(_row(page) for page in rest if page.kind == kind))
    yield Labels(
        "other-pages", "All other pages", tuple(_row(page) for page in rest if page.kind not in _FEW)
    )


def _row(page: Page) -> GoRow:
    return GoRow(page.path, page.title)


def downloads_page(_book: Book, pages: Sequence[Page]) -> Page:
    return Page(
        path="downloads/",
        title="Files to take away",
        description="The handbook as data: JSON with the schema of each file, and tables as CSV.",
        template="handbook/downloads.html",
        context={"records": _records(), "tables": _tables(pages)},
        search=("downloads", "csv", "json", "spreadsheet", "data files", "export", "open data", "api"),
        kind="downloads",
        in_nav=True,
    )


def _records() -> Table:
    """Each data file with its schema beside it."""
    columns = (Column("File", "head"), Column("What it holds", "long"), Column("Schema"))
    rows = tuple(
        Row(
            (
                Cell(name, to=f"data/v1/{name}"),
                Cell(what),
                Cell(f"schema/{name}", to=f"data/v1/schema/{name}"),
            ),
            id=name.removesuffix(".json"),
        )
        for name, what in FILES.items()
    )
    return Table("files", "Every data file", columns, rows)


def _tables(pages: Sequence[Page]) -> Table:
    columns = (Column("Table", "head"), Column("On page"), Column("Rows", "number"))
    rows = {
        table.id: Row(
            (
                Cell(f"{table.id}.csv", to=table_file(table), note=table.caption),
                Cell(page.title, to=page.path),
                Cell(str(len(table.rows))),
            )
        )
        for page in pages
        for table in page.tables
    }
    return Table("tables", "Every table as CSV", columns, tuple(rows[id_] for id_ in sorted(rows)))
