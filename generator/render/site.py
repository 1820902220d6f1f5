"""The whole handbook of a club: every page and every file, ready to be placed."""

from collections.abc import Callable, Iterable, Iterator, Sequence

from generator.compute.all_fits import AllFits
from generator.compute.wear.due import due_next
from generator.model.dataset import Dataset
from generator.problems.catalogue import Catalogue
from generator.render.base.page import Asset, Page, Site, SiteFacts
from generator.render.cards.printed import Printed
from generator.render.contract.calendar import PATH, calendar_text
from generator.render.downloads.files import data_files, files_of_tables
from generator.render.drawings.clip_direction import clip_direction_drawing
from generator.render.drawings.counting import counting_drawing
from generator.render.pages.all_pairs import all_pairs_page
from generator.render.pages.bikes import bike_pages
from generator.render.pages.book import Book, book_of
from generator.render.pages.cards import card_files, cards_page
from generator.render.pages.care.guide import guide_pages
from generator.render.pages.care.index import care_page, inspection_page
from generator.render.pages.care.plan import plan_page
from generator.render.pages.chains import chain_pages
from generator.render.pages.clip_lost import clip_lost_page
from generator.render.pages.links import link_pages
from generator.render.pages.mending.broke import broke_page, coverage_page
from generator.render.pages.mending.failure import failure_pages
from generator.render.pages.mending.rides import ride_pages
from generator.render.pages.mending.spares import spares_page
from generator.render.pages.pair import pair_pages
from generator.render.pages.pairs import chain_pairs_pages
from generator.render.pages.parts import part_pages
from generator.render.pages.reference.about import about_page
from generator.render.pages.reference.codes import codes_page
from generator.render.pages.reference.data_format import data_format_page
from generator.render.pages.reference.glossary import glossary_page
from generator.render.pages.reference.how_sure import how_sure_page
from generator.render.pages.reference.lists import all_labels_page, downloads_page
from generator.render.pages.reference.measuring import measuring_pages
from generator.render.pages.reference.safety import safety_page
from generator.render.pages.reference.sources import sources_page
from generator.render.pages.sizes import size_pages
from generator.render.pages.start import start_page
from generator.render.pages.wear import wear_pages
from generator.render.pages.worth import worth_page
from generator.render.search.index import search_index

# a kind of page is a function, a template and its line here
PAGES: tuple[Callable[[Book], Page | Iterable[Page]], ...] = (
    broke_page,
    failure_pages,
    coverage_page,
    ride_pages,
    spares_page,
    clip_lost_page,
    worth_page,
    chain_pages,
    link_pages,
    all_pairs_page,
    chain_pairs_pages,
    pair_pages,
    bike_pages,
    wear_pages,
    care_page,
    guide_pages,
    inspection_page,
    plan_page,
    part_pages,
    size_pages,
    measuring_pages,
    safety_page,
    glossary_page,
    about_page,
    sources_page,
    how_sure_page,
    codes_page,
    data_format_page,
)
# these name the others, and so come after them
LAST: tuple[Callable[[Book, Sequence[Page]], Page], ...] = (start_page, downloads_page, all_labels_page)


def handbook_site(
    dataset: Dataset, fits: AllFits, catalogue: Catalogue, printed: Printed | None = None
) -> Site:
    """Pages by kind, then by id; those that name all others come last.  `printed` cards have a page that leads to them."""
    book = book_of(dataset, fits, catalogue)
    cards = (cards_page(dataset, printed),) if printed else ()
    pages = tuple(every_page(book, cards))
    calendar = Asset(PATH, calendar_text(dataset, due_next(dataset, fits.wear)))
    assets = (*data_files(dataset, fits, catalogue), *files_of_tables(pages), calendar)
    return Site(
        facts=site_facts(dataset),
        pages=pages,
        assets=(
            *assets,
            search_index(book, pages),
            *(card_files(dataset, printed) if printed else ()),
        ),
        values=site_values(dataset),
    )


def every_page(book: Book, cards: Sequence[Page] = ()) -> Iterator[Page]:
    pages = [*cards, *(page for make in PAGES for page in _each(make(book)))]
    yield from pages
    for make in LAST:
        page = make(book, pages)
        pages.append(page)
        yield page


def _each(made: Page | Iterable[Page]) -> Iterable[Page]:
    return (made,) if isinstance(made, Page) else made


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
