"""The whole handbook of a club: every page and every file, ready to be placed.

Goes in: a dataset and all its fits.  Comes out: a Site.
"""

from collections.abc import Iterable, Iterator

from generator.compute.fit.result import PairFit
from generator.model.dataset import Dataset
from generator.render.contract.envelope import json_text
from generator.render.contract.fits_json import fits_document
from generator.render.downloads.table_files import table_files, tables_with_files
from generator.render.page import Asset, Page, Site, SiteFacts
from generator.render.pages.all_pairs import all_pairs_page
from generator.render.pages.bikes import bike_pages
from generator.render.pages.book import Book, book_of
from generator.render.pages.chains import chain_pages
from generator.render.pages.links import link_pages
from generator.render.pages.pair import pair_page
from generator.render.pages.pair_tables import checks_file, ways_file
from generator.render.pages.pairs import chain_pairs_pages
from generator.render.pages.start import start_page


def handbook_site(dataset: Dataset, fits: tuple[PairFit, ...]) -> Site:
    """Pages in the order of their addresses' kinds; the same data give the same site."""
    book = book_of(dataset, fits)
    pages = tuple(_pages(book))
    assets = (*_files(book), *_table_files(dataset, pages))
    return Site(site_facts(dataset), pages, assets, site_values(dataset))


def site_facts(dataset: Dataset) -> SiteFacts:
    club = dataset.club
    return SiteFacts(
        name=club.name,
        club=club.id,
        as_of=dataset.as_of.isoformat(),
        data_version=dataset.data_version,
        invented=club.invented,
        units=club.units,
        report_to=club.report_to or "",
    )


def site_values(dataset: Dataset) -> dict[str, object]:
    """What hand-written pages may print."""
    return {"club": dataset.club, "as_of": dataset.as_of.isoformat(), "data_version": dataset.data_version}


def _pages(book: Book) -> Iterator[Page]:
    yield start_page(book)
    yield from chain_pages(book)
    yield from link_pages(book)
    yield all_pairs_page(book)
    yield from chain_pairs_pages(book)
    yield from (pair_page(book, fit) for fit in book.fits if fit.own_page)
    yield from bike_pages(book)


def _files(book: Book) -> Iterator[Asset]:
    yield Asset("data/v1/fits.json", json_text(fits_document(book.dataset, book.fits)))
    for chain in book.dataset.chains:
        for table in (checks_file(book, chain), ways_file(book, chain)):
            yield from table_files(table, book.dataset)


def _table_files(dataset: Dataset, pages: Iterable[Page]) -> Iterator[Asset]:
    for _, table in tables_with_files(pages):
        yield from table_files(table, dataset)
