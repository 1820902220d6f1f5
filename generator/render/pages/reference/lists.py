"""The two lists that come last: all files to take away, and all pages.

Goes in: every other page and file of the handbook.  Comes out: their pages, and the files of their own tables.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from generator.render.base.page import Asset, Page
from generator.render.base.table import Cell, Column, Row, Table
from generator.render.downloads.table_files import tables_with_files
from generator.render.pages.downloads import with_downloads
from generator.render.pages.reference.file_words import what_it_is

KINDS = {
    "start": "Start",
    "chains": "Chains",
    "chain": "Chains",
    "links": "Connecting links",
    "link": "Connecting links",
    "clips": "Clips",
    "clip": "Clips",
    "seals": "Seals",
    "seal": "Seals",
    "plates": "Side plates",
    "plate": "Side plates",
    "strips": "Spare strips",
    "strip": "Spare strips",
    "tools": "Tools and keys",
    "tool": "Tools and keys",
    "bikes": "Bikes",
    "bike": "Bikes",
    "pairs": "Pairs",
    "pair": "Pairs",
    "sizes": "Size codes",
    "size": "Size codes",
    "size-by-size": "Size codes",
    "measuring": "Measuring",
    "worth-measuring": "Measuring",
    "recipe": "Measuring",
    "wear": "Wear and care",
    "care": "Wear and care",
}
REST = "Everything else"
ALL_PAGES = ("pages/", "All pages")
DOWNLOADS = ("downloads/", "Files to take away")


@dataclass(frozen=True, slots=True)
class Group:
    """Pages of one kind."""

    title: str
    pages: tuple[Cell, ...]


def list_pages(
    pages: Sequence[Page], assets: Iterable[Asset], larger: Iterable[Table] = ()
) -> tuple[Page, ...]:
    """`pages` are all others, `assets` all files but those of the tables of these two; `larger` are tables that
    have files and of which pages show a part.
    """
    downloads = _downloads_page(pages, assets, larger)
    return (downloads, _all_pages_page([*pages, downloads]))


def _downloads_page(pages: Iterable[Page], assets: Iterable[Asset], larger: Iterable[Table]) -> Page:
    return Page(
        path=DOWNLOADS[0],
        title=DOWNLOADS[1],
        description="Every table and every record as a file, with the schema of each.",
        template="handbook/downloads.html",
        context={"records": _records_table(assets), "tables": _tables_table(pages, larger)},
        search=("downloads", "csv", "json", "spreadsheet", "data files", "export", "open data", "api"),
        kind="downloads",
        in_nav=True,
    )


def _records_table(assets: Iterable[Asset]) -> Table:
    """Each data file with its schema beside it; schemas without a file are of what commands print."""
    paths = sorted({asset.path for asset in assets if _is_data(asset.path)})
    columns = (Column("File", "head"), Column("What it holds", "long"), Column("Schema"))
    rows = tuple(_record_row(path, paths) for path in paths if "/schema/" not in path)
    return with_downloads(Table("files", "Every data file", columns, rows))


def _is_data(path: str) -> bool:
    return path.startswith("data/v1/") and path.endswith(".json") and "/tables/" not in path


def _record_row(path: str, paths: Iterable[str]) -> Row:
    name = path.removeprefix("data/v1/")
    schema = f"data/v1/schema/{name}"
    beside = Cell(schema.removeprefix("data/v1/"), to=schema) if schema in paths else Cell("none")
    return Row(
        (Cell(name, to=path), Cell(what_it_is(name)), beside), id=name.replace("/", "-").removesuffix(".json")
    )


def _tables_table(pages: Iterable[Page], larger: Iterable[Table]) -> Table:
    columns = (
        Column("Table", "head"),
        Column("On page"),
        Column("Rows", "number"),
        Column("CSV", "short"),
        Column("JSON", "short"),
        Column("Schema", "short"),
    )
    rows = {
        table.id: _table_row(table, Cell(page.title, to=page.path))
        for page, table in tables_with_files(pages)
    }
    rows |= {table.id: _table_row(table, Cell("in parts, on several")) for table in larger}
    return with_downloads(
        Table("tables", "Every table, sorted by its name", columns, tuple(rows[id_] for id_ in sorted(rows)))
    )


def _table_row(table: Table, where: Cell) -> Row:
    csv, json = (file.to for file in table.downloads)
    files = (csv, json, json.replace("data/v1/", "data/v1/schema/"))
    links = (Cell(word, to=path) for word, path in zip(("CSV", "JSON", "schema"), files, strict=True))
    return Row((Cell(table.caption, note=table.id), where, Cell(str(len(table.rows))), *links))


def _all_pages_page(pages: Sequence[Page]) -> Page:
    path, title = ALL_PAGES
    return Page(
        path=path,
        title=title,
        description="A plain list of every page, for when the search field does not work.",
        template="handbook/all_pages.html",
        context={"groups": tuple(_groups([*pages]))},
        search=("list of pages", "site map", "contents", "index of everything"),
        kind="all-pages",
        in_nav=True,
    )


def _groups(pages: Sequence[Page]) -> Iterator[Group]:
    for title in [*dict.fromkeys(KINDS.values()), REST]:
        found = [page for page in pages if KINDS.get(page.kind, REST) == title]
        if found:
            yield Group(title, tuple(Cell(page.title, to=page.path, note=page.description) for page in found))
