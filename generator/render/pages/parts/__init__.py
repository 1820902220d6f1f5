"""Pages of clips, seals, side plates, strips and tools: a list of each kind and a page a part."""

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
    for pages in (clip_pages, seal_pages, plate_pages, strip_pages, tool_pages):
        yield from pages(book)
