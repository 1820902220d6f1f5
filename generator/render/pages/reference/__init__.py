"""The pages that do not speak of one club: sizes, measuring, words, sources, codes, limits, lists."""

from generator.model.dataset import Dataset
from generator.problems.catalogue import Catalogue
from generator.render.base.page import Page
from generator.render.pages.reference.about import about_page
from generator.render.pages.reference.codes import codes_page
from generator.render.pages.reference.data_format import data_format_page
from generator.render.pages.reference.glossary import glossary_page
from generator.render.pages.reference.how_sure import how_sure_page
from generator.render.pages.reference.measuring import measuring_pages
from generator.render.pages.reference.safety import safety_page
from generator.render.pages.reference.size_by_size import size_by_size_page
from generator.render.pages.reference.sizes import size_pages
from generator.render.pages.reference.sources import sources_page


def reference_pages(dataset: Dataset, catalogue: Catalogue) -> tuple[Page, ...]:
    """All of them but the two lists of pages and files, which come last: see `lists`."""
    return (
        *size_pages(dataset),
        size_by_size_page(dataset),
        *measuring_pages(dataset),
        glossary_page(dataset),
        safety_page(dataset),
        about_page(),
        sources_page(dataset),
        how_sure_page(dataset),
        codes_page(catalogue),
        data_format_page(),
    )
