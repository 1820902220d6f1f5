"""The same pages and rows printed by our templates and as Markdown tables in the stock theme, in one run."""

import shutil
import tempfile
import time
from dataclasses import replace
from math import log
from pathlib import Path
from typing import Any

from generator.render.base.page import Page, Site
from generator.render.base.table import Cell, Table
from generator.site.build import build_site
from tests.bench.stock_site import run_stock
from tests.fake_site import fake_site, fits_table

ROWS = 60


def page_figures(fewer: int, more: int) -> dict[str, Any]:
    table = fits_table(ROWS)
    ours = {count: _ours(table, count) for count in (fewer, more)}
    stock = {count: _stock(table, count) for count in (fewer, more)}
    return {
        "rows": ROWS,
        "seconds": {str(count): seconds for count, seconds in ours.items()},
        "stock_seconds": {str(count): seconds for count, seconds in stock.items()},
        "of_stock": {str(count): ours[count] / stock[count] for count in ours},
        "growth_exponent": log(ours[more] / ours[fewer]) / log(more / fewer),
        "stock_growth_exponent": log(stock[more] / stock[fewer]) / log(more / fewer),
    }


def _ours(table: Table, count: int) -> float:
    context: dict[str, object] = {"lead": "A page of the benchmark.", "tables": (table,)}
    base = fake_site()
    own = tuple(_page(number, context) for number in range(count))
    site: Site = replace(base, pages=(base.pages[0], *own), assets=())
    folder = Path(tempfile.mkdtemp())
    try:
        start = time.perf_counter()
        build_site(site, folder / "site")
        return time.perf_counter() - start
    finally:
        shutil.rmtree(folder)


def _page(number: int, context: dict[str, object]) -> Page:
    return Page(f"pairs/chain-{number}/", f"Chain {number}", "A page.", "handbook/tables.html", context)


def _stock(table: Table, count: int) -> float:
    folder = Path(tempfile.mkdtemp())
    try:
        docs = folder / "docs"
        docs.mkdir()
        (docs / "index.md").write_text("# Start\n", encoding="utf-8")
        body = markdown(table)
        for number in range(count):
            (docs / f"chain-{number}.md").write_text(f"# Chain {number}\n\n{body}", encoding="utf-8")
        start = time.perf_counter()
        run_stock(folder)
        return time.perf_counter() - start
    finally:
        shutil.rmtree(folder)


def markdown(table: Table) -> str:
    """The same cells as a pipe table."""
    lines = [
        "| " + " | ".join(column.title for column in table.columns) + " |",
        "|" + " --- |" * len(table.columns),
    ]
    lines += ["| " + " | ".join(_text(cell) for cell in row.cells) + " |" for row in table.rows]
    return "\n".join(lines) + "\n"


def _text(cell: Cell) -> str:
    if cell.length is not None:
        return f"{cell.length.mm} ({cell.length.inch})"
    if cell.verdict is not None:
        return f"**{cell.verdict.label}** {cell.verdict.span}"
    note = f" {cell.note}" if cell.note else ""
    return f"[{cell.text}](index.md){note}" if cell.to else cell.text + note
