"""All chains with all links: a grid of verdicts where there is room, a choice of chain on a phone."""

from collections import Counter
from collections.abc import Iterable, Iterator

from generator.compute.fit.result import PairFit
from generator.compute.grouped import grouped
from generator.model.dataset import Part
from generator.model.record import Record
from generator.render.base.components import GoRow, GridRow, Mark
from generator.render.base.page import Download, Page
from generator.render.base.routes import pair_route, part_route
from generator.render.base.table import Cell, Column, Row, Table
from generator.render.base.verdicts import ShownVerdict
from generator.render.pages.book import Book
from generator.render.pages.fit_cells import (
    NUMBER_COLUMNS,
    VERDICT,
    WAY_COLUMNS,
    number_cells,
    verdict_of,
    way_cells,
)
from generator.render.say.names import named
from generator.render.say.rungs import verdict_key

PAIRS = "pairs/"
# in the order of the chips, and of the ink of a strip
WORDS = ("proper", "get-home", "last-resort", "no-go", "measure-first", "cannot-judge")
FAR = "far"
MOST_CELLS = 2500  # a grid of more takes a phone seconds to lay out, even where it does not show it


def all_pairs_page(book: Book) -> Page:
    chains, links = by_size(book, book.dataset.chains.values()), by_size(book, book.dataset.links.values())
    total = len(book.fits)
    context = {
        "lead": f"{len(chains)} chains, {len(links)} links, {total} verdicts. The stronger the plate, the worse.",
        "chains": tuple(chain_row(book, chain.id) for chain in chains),
        "columns": tuple((chain.id, f"pairs/{chain.id}/") for chain in chains),
        "rows": tuple(grid_rows(book, chains, links)) if 0 < total <= MOST_CELLS else (),
        "key": tuple(key_of(book.fits)),
        "far": sum(is_far(fit) for fit in book.fits),
    }
    return Page(
        path=PAIRS,
        title="All chains, all links",
        description=f"Every chain of the club with every connecting link: {in_counts(counted(book.fits))}.",
        template="handbook/all_pairs.html",
        context=context,
        search=("all pairs", "every chain with every link", "matrix", "grid"),
        kind="pairs",
        in_nav=True,
        wide=True,
        tables=(pairs_table(book),),
        files=(Download("JSON", "data/v1/fits.json"),),
    )


def by_size(book: Book, parts: Iterable[Part[Record]]) -> list[Part[Record]]:
    """By pitch, then size code, then label; what has no known size comes last."""
    sizes = book.dataset.shelf.sizes

    def place(part: Part[Record]) -> tuple[bool, int, str, str]:
        code = str(getattr(part.record, "size_code", ""))
        known = sizes.get(code)
        return (known is None, known.dims["pitch"].nominal if known else 0, code, part.id)

    return sorted(parts, key=place)


def chain_row(book: Book, chain: str) -> GoRow:
    fits = book.of_chain[chain]
    counts = counted(fits)
    return GoRow(
        f"pairs/{chain}/",
        named(book.dataset.chains[chain]),
        tag=chain,
        detail=in_counts(counts),
        counts=tuple((word, counts[word]) for word in (*WORDS, FAR)),
    )


def is_far(fit: PairFit) -> bool:
    """Another pitch or size family: no-go at a glance, without a page of its own."""
    return not fit.own_page


def counted(fits: Iterable[PairFit]) -> Counter[str]:
    return Counter(FAR if is_far(fit) else fit.word for fit in fits)


def what_goes(counts: Counter[str]) -> str:
    return ", ".join(f"{counts[word]} {word}" for word in WORDS[:3] if counts[word]) or "nothing known to go"


def in_counts(counts: Counter[str]) -> str:
    """What goes, the no-gos of both kinds, then what is open."""
    open_ = counts["measure-first"] + counts["cannot-judge"]
    rest = [f"{open_} not settled"] if open_ else []
    return " · ".join([what_goes(counts), f"{counts['no-go'] + counts[FAR]} no-go", *rest])


def grid_rows(book: Book, chains: list[Part[Record]], links: list[Part[Record]]) -> Iterator[GridRow]:
    """Links down under the name of their size, chains across."""
    found = {(fit.chain, fit.link): fit for fit in book.fits}
    for code, group in grouped(links, lambda link: str(getattr(link.record, "size_code", ""))).items():
        known = code in book.dataset.shelf.sizes
        yield GridRow(f"Links of size {code}" if known else "Links of unknown size", band=True)
        for link in group:
            marks = tuple(mark_of(found[chain.id, link.id]) for chain in chains)
            yield GridRow(named(link), link.id, part_route("link", link.id), marks)


def mark_of(fit: PairFit) -> Mark:
    if is_far(fit):
        return Mark(FAR, "no-go, other pitch or size")
    label = verdict_of(fit).label
    return Mark(fit.word, f"{fit.link} on {fit.chain}: {label}", pair_route(fit))


def key_of(fits: Iterable[PairFit]) -> Iterator[tuple[ShownVerdict, int]]:
    """Every word with how often it stands in the grid."""
    counts = counted(fits)
    yield from ((line.verdict, counts[line.verdict.word]) for line in verdict_key())


def pairs_table(book: Book) -> Table:
    """A row a pair with the numbers of its deciding check, for a spreadsheet."""
    columns = (Column("Connecting link", "head"), VERDICT, Column("Chain"), *WAY_COLUMNS, *NUMBER_COLUMNS)
    return Table("pairs", "Every chain with every link", columns, tuple(_row(book, fit) for fit in book.fits))


def _row(book: Book, fit: PairFit) -> Row:
    verdict = Cell(verdict=verdict_of(fit))
    cells = (*way_cells(book.dataset, fit), *number_cells(book.dataset, fit))
    return Row((Cell(fit.link), verdict, Cell(fit.chain), *cells))
