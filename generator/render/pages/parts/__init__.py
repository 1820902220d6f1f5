"""Pages of clips, seals, side plates, strips and tools: a list of each kind and a page a part.

Goes in: a dataset and the fits of its other parts.  Comes out: pages, and their addresses beforehand.
"""

from collections.abc import Iterator

from generator.compute.others.result import OtherFits
from generator.model.dataset import Dataset
from generator.render.page import Page
from generator.render.pages.parts.clips import clip_pages
from generator.render.pages.parts.plates import plate_pages
from generator.render.pages.parts.seals import seal_pages
from generator.render.pages.parts.strips import strip_pages
from generator.render.pages.parts.tools import tool_pages
from generator.render.routes import FOLDERS, part_route
from generator.render.words.names import parts_of

KINDS = ("clip", "seal", "plate", "strip", "tool")


def part_pages(dataset: Dataset, others: OtherFits) -> tuple[Page, ...]:
    """In the order of kinds and ids."""
    return tuple(_pages(dataset, others))


def part_addresses(dataset: Dataset) -> frozenset[str]:
    """The addresses of all these pages, for pages that lead to them."""
    lists = {f"{FOLDERS[kind]}/" for kind in KINDS}
    return frozenset(lists | {part_route(kind, id_) for kind in KINDS for id_ in parts_of(dataset, kind)})


def _pages(dataset: Dataset, others: OtherFits) -> Iterator[Page]:
    yield from clip_pages(dataset, others.clip_links)
    yield from seal_pages(dataset, others.seals)
    yield from plate_pages(dataset, others.plates)
    yield from strip_pages(dataset, others.strips, others.neighbours)
    yield from tool_pages(dataset, others.tools, others.keys)
