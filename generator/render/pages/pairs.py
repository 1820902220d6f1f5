"""A page a chain with every link as a row, so that each pair can be led to.

Goes in: a book.  Comes out: pages.
"""

from collections.abc import Iterator

from generator.render.base.page import Page
from generator.render.base.routes import part_route
from generator.render.pages.book import Book, fits_best_first
from generator.render.pages.fits_tables import in_count, links_on_chain


def chain_pairs_pages(book: Book) -> Iterator[Page]:
    for chain in book.dataset.chains:
        yield chain_pairs_page(book, chain)


def chain_pairs_page(book: Book, chain: str) -> Page:
    fits = fits_best_first(book.of_chain[chain])
    id_ = f"on-{chain}" if book.brief else f"pairs-{chain}"
    context = {
        "chain": chain,
        "chain_page": part_route("chain", chain),
        "counts": in_count(fits),
        "table": links_on_chain(book, id_, f"Every link on {chain}, best first", fits, anchors=True)
        if fits
        else None,
    }
    return Page(
        path=f"pairs/{chain}/",
        title=f"All links on {chain}",
        description=f"Every connecting link of the club on chain {chain}: {in_count(fits)}.",
        template="handbook/chain_pairs.html",
        context=context,
        search=(f"all links on {chain}", f"pairs {chain}"),
        kind="chain-pairs",
    )
