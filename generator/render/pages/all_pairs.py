"""All pairs of the club: counts a chain, and every pair in one table where that is still readable.

Goes in: a book.  Comes out: a page.
"""

from generator.compute.fit.result import PairFit
from generator.render.base.page import Page
from generator.render.base.routes import part_route
from generator.render.base.table import Cell, Column, Row, Table
from generator.render.many import MANY_PAIRS
from generator.render.pages.book import Book
from generator.render.pages.downloads import with_downloads
from generator.render.pages.fit_cells import VERDICT, deciding_title, verdict_cell, way_cells
from generator.render.pages.fits_tables import WORDS, in_count

PAIRS = "pairs/"


def all_pairs_page(book: Book) -> Page:
    shown = len(book.fits) <= MANY_PAIRS
    context = {
        "counts": in_count(book.fits),
        "total": len(book.fits),
        "by_chain": counts_table(book),
        "table": pairs_table(book) if shown and book.fits else None,
        "chains": tuple(chain for chain in book.dataset.chains if book.of_chain[chain]),
        "words": tuple(word for word in WORDS if any(fit.word == word for fit in book.fits)),
        "file": "data/v1/fits.json",
    }
    return Page(
        path=PAIRS,
        title="All pairs",
        description=f"Every chain of the club with every connecting link: {in_count(book.fits)}.",
        template="handbook/all_pairs.html",
        context=context,
        search=("all pairs", "every chain with every link", "matrix"),
        kind="pairs",
        in_nav=True,
    )


def counts_table(book: Book) -> Table:
    columns = (Column("Chain", "head"), *(Column(word, "number") for word in WORDS))
    rows = tuple(_counts_row(book, chain) for chain in book.dataset.chains)
    return with_downloads(Table("pairs-by-chain", "How many links, by chain and verdict", columns, rows))


def _counts_row(book: Book, chain: str) -> Row:
    words: list[str] = [fit.word for fit in book.of_chain[chain]]
    name = book.dataset.chains[chain].record.name or ""
    return Row(
        (Cell(chain, to=f"pairs/{chain}/", note=name), *(Cell(str(words.count(word))) for word in WORDS))
    )


def pairs_table(book: Book) -> Table:
    columns = (
        Column("Connecting link", "head"),
        VERDICT,
        Column("Chain"),
        Column("Clip"),
        Column("Seals"),
        Column("Deciding check"),
    )
    rows = tuple(_pair_row(book, fit) for fit in book.fits)
    return with_downloads(Table("all-pairs", "Every chain with every link", columns, rows))


def _pair_row(book: Book, fit: PairFit) -> Row:
    clip, seals, _ = way_cells(book.dataset, fit)
    return Row(
        (
            Cell(fit.link, to=part_route("link", fit.link), note=f"on {fit.chain}"),
            verdict_cell(fit),
            Cell(fit.chain, to=part_route("chain", fit.chain)),
            clip,
            seals,
            Cell(deciding_title(book.dataset, fit)),
        )
    )
