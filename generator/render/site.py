"""The whole handbook of a club: every page and every file, ready to be placed.

Goes in: a dataset, all its fits and the catalogue of problem codes.  Comes out: a Site.
"""

from collections.abc import Iterator, Sequence
from itertools import chain

from generator.compute.all_fits import AllFits
from generator.model.dataset import Dataset
from generator.problems.catalogue import Catalogue
from generator.render.base.page import Asset, Page, Site, SiteFacts
from generator.render.base.table import Table
from generator.render.downloads.files import data_files, files_of_tables, named_files
from generator.render.drawings.clip_direction import clip_direction_drawing
from generator.render.drawings.counting import counting_drawing
from generator.render.pages.all_pairs import all_pairs_page
from generator.render.pages.bikes import bike_pages
from generator.render.pages.book import Book, book_of
from generator.render.pages.chains import chain_pages
from generator.render.pages.clip_lost import clip_lost_page
from generator.render.pages.fits_tables import all_on_chain
from generator.render.pages.links import link_pages
from generator.render.pages.pair import brief_pair_page, pair_page
from generator.render.pages.pair_tables import AllRows, all_rows, chain_files
from generator.render.pages.pairs import chain_pairs_pages
from generator.render.pages.parts import part_pages
from generator.render.pages.reference import reference_pages
from generator.render.pages.reference.lists import list_pages
from generator.render.pages.start import start_page
from generator.render.pages.wear import wear_pages
from generator.render.pages.worth import worth_page
from generator.render.search.index import search_index


def handbook_site(dataset: Dataset, fits: AllFits, catalogue: Catalogue) -> Site:
    """Pages by kind, then by id; the two lists of pages and of files come last, since they name all others."""
    elsewhere = (
        *part_pages(dataset, fits.others),
        *reference_pages(dataset, catalogue),
        *wear_pages(dataset, fits.wear),
    )
    book = book_of(dataset, fits, (page.path for page in elsewhere))
    rows = {} if book.brief else all_rows(book)
    pages = (*club_pages(book, rows), *elsewhere)
    larger = tuple(_larger_tables(book, rows))
    assets = (*data_files(dataset, fits, catalogue), *_table_assets(dataset, pages, larger))
    listed = [page for page in pages if page.kind != "pair"] if book.brief else pages
    lists = list_pages(listed, assets, larger)
    found = search_index(dataset, fits.pairs, (*pages, *lists))
    return Site(
        facts=site_facts(dataset),
        pages=(*pages, *lists),
        assets=(*assets, *files_of_tables(dataset, lists), found),
        values=site_values(dataset),
    )


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
    return {
        "club": dataset.club,
        "as_of": dataset.as_of.isoformat(),
        "data_version": dataset.data_version,
        "clip_direction": clip_direction_drawing(),
        "counting": counting_drawing(),
    }


def club_pages(book: Book, rows: AllRows) -> Iterator[Page]:
    """The pages of the club's own bikes, chains, links and pairs."""
    yield start_page(book)
    yield clip_lost_page(book)
    yield worth_page(book)
    yield from chain_pages(book)
    yield from link_pages(book)
    yield all_pairs_page(book)
    yield from chain_pairs_pages(book)
    for fit in book.fits:
        if fit.own_page:
            yield (
                brief_pair_page(book, fit) if book.brief else pair_page(book, fit, rows[fit.chain, fit.link])
            )
    yield from bike_pages(book)


def _larger_tables(book: Book, rows: AllRows) -> Iterator[Table]:
    """Where there are many pairs, fits.json alone has the numbers of every check."""
    for id_ in book.dataset.chains:
        yield from (all_on_chain(book, id_),) if book.brief else chain_files(book, rows, id_)


def _table_assets(dataset: Dataset, pages: Sequence[Page], larger: Sequence[Table]) -> Iterator[Asset]:
    yield from files_of_tables(dataset, pages)
    yield from chain.from_iterable(named_files(table, dataset) for table in larger)
