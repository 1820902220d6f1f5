"""Pages of clips, seals, side plates, strips and tools: a list of each kind and a page a part.

Goes in: a dataset and the fits of its other parts.  Comes out: pages.
"""

from collections.abc import Iterator

from generator.render.base.page import Page
from generator.render.pages.book import Book
from generator.render.pages.parts.clips import clip_pages
from generator.render.pages.parts.plates import plate_pages
from generator.render.pages.parts.seals import seal_pages
from generator.render.pages.parts.strips import strip_pages
from generator.render.pages.parts.tools import tool_pages


def part_pages(book: Book) -> Iterator[Page]:
    """In the order of kinds and ids."""
    dataset, others = book.dataset, book.others
    yield from clip_pages(dataset, others.clip_links)
    yield from seal_pages(dataset, others.seals)
    yield from plate_pages(dataset, others.plates)
    yield from strip_pages(dataset, others.strips, others.neighbours)
    yield from tool_pages(dataset, others.tools, others.keys)
