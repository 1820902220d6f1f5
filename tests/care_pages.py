"""The pages of wear and care of the demo, printed without judging a single pair: they look at none."""

from functools import cache
from types import SimpleNamespace
from typing import cast

from jinja2 import FileSystemLoader

from generator.compute.wear.wear import Wear, wear_of
from generator.render.environment import environment, page_body
from generator.render.pages.book import Book
from generator.render.pages.care.guide import guide_pages
from generator.render.pages.care.index import care_page, inspection_page
from generator.render.pages.care.plan import plan_page
from generator.render.pages.wear import wear_pages
from generator.shipped import shipped_root
from tests.handbook import demo


@cache
def demo_wear() -> Wear:
    return wear_of(demo())


def care_book() -> Book:
    """As much of a book as these pages read."""
    return cast("Book", SimpleNamespace(dataset=demo(), wear=demo_wear()))


@cache
def care_bodies() -> dict[str, str]:
    """The HTML inside the frame by address."""
    env = environment(FileSystemLoader(str(shipped_root() / "site_overrides")))
    book = care_book()
    lists = (care_page(book), inspection_page(book), plan_page(book))
    return {page.path: page_body(env, page) for page in (*lists, *guide_pages(book), *wear_pages(book))}
