"""The pages and fits of the demo, and of a club of 60 chains and 200 connecting links made of copies of it."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from itertools import cycle, islice
from typing import TypeVar

from generator.compute.fit.fits import fit_table
from generator.compute.grouped import grouped
from generator.model.dataset import Dataset, Part
from generator.model.record import Record
from generator.render.base.page import Page
from generator.render.base.routes import part_route
from generator.render.pages.book import Book
from tests.handbook import demo, demo_book, demo_site

R = TypeVar("R", bound=Record)


@dataclass(frozen=True)
class Indexed:
    """One club."""

    book: Book
    pages: tuple[Page, ...]


def small() -> Indexed:
    return Indexed(demo_book(), demo_site().pages)


def large(chains: int = 60, links: int = 200) -> Indexed:
    many = copies(chains, links)
    fits = fit_table(many)
    of_chain = {chain: tuple(found) for chain, found in grouped(fits, lambda fit: fit.chain).items()}
    book = replace(demo_book(), dataset=many, fits=fits, of_chain=of_chain, by_bike={})
    return Indexed(book, tuple(_pages(many)))


def copies(chains: int, links: int) -> Dataset:
    """They carry a number at the end of id and name, so that no two read alike."""
    return replace(demo(), chains=_copies(demo().chains, chains), links=_copies(demo().links, links))


def _copies(parts: Mapping[str, Part[R]], count: int) -> Mapping[str, Part[R]]:
    made = {}
    for number, part in enumerate(islice(cycle(parts.values()), count)):
        turn = number // len(parts)
        id_ = f"{part.id}-{turn}" if turn else part.id
        record = (
            part.record.model_copy(update={"name": f"{part.record.name}, bag {turn}"})
            if turn
            else part.record
        )
        made[id_] = replace(part, id=id_, record=record)
    return dict(sorted(made.items()))


def _pages(many: Dataset) -> Iterator[Page]:
    """Every page but those of pairs, which the index leaves out."""
    yield from (page for page in demo_site().pages if page.kind != "pair")
    by_path = {page.path: page for page in demo_site().pages}
    for kind, before, now in (("chain", demo().chains, many.chains), ("link", demo().links, many.links)):
        for id_ in now:
            if id_ not in before:
                like = by_path[part_route(kind, id_.rsplit("-", 1)[0])]
                search = tuple(text.replace(like.title, id_) for text in like.search)
                yield replace(like, path=part_route(kind, id_), title=id_, search=search)
