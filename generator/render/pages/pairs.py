"""A page a chain with every link as a row or a label, so that each pair can be led to."""

from collections.abc import Iterator

from generator.render.base.page import Page
from generator.render.base.routes import part_route
from generator.render.pages.book import Book
from generator.render.pages.fit_sections import chips_from, link_entries, sections_from
from generator.render.pages.index_tables import counts_of
from generator.render.say.names import named, small_named


def chain_pairs_pages(book: Book) -> Iterator[Page]:
    for chain in book.dataset.chains:
        yield chain_pairs_page(book, chain)


def chain_pairs_page(book: Book, chain: str) -> Page:
    fits = book.of_chain[chain]
    title = f"All links on {small_named(book.dataset.chains[chain])}"
    entries = link_entries(book, fits)
    context = {
        "chain": chain,
        "chain_to": part_route("chain", chain),
        "title": title,
        "chips": chips_from(entries),
        "sections": sections_from(entries),
    }
    return Page(
        path=f"pairs/{chain}/",
        title=title,
        description=f"Every connecting link of the club on chain {chain}, {named(book.dataset.chains[chain])}: {counts_of(fits)}.",
        template="handbook/chain_pairs.html",
        context=context,
        search=(f"all links on {chain}", f"pairs {chain}"),
        kind="chain-pairs",
    )
