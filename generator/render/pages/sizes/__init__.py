"""What size a chain is, which size goes on which, and a page for each size code."""

from collections.abc import Iterator

from generator.compute.size_by_size import size_by_size
from generator.render.base.page import Page
from generator.render.pages.book import Book
from generator.render.pages.sizes.by_pitch import by_pitch
from generator.render.pages.sizes.size import size_page
from generator.render.pages.sizes.which import which_size_page


def size_pages(book: Book) -> Iterator[Page]:
    crossings = size_by_size(book.dataset)
    yield which_size_page(book.dataset, crossings)
    yield from (size_page(book.dataset, size, crossings) for size in by_pitch(book.dataset))
