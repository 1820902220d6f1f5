"""The demo's handbook for tests of pages, made once: values, and the HTML of each body."""

from functools import cache
from html.parser import HTMLParser
from urllib.parse import urldefrag, urljoin, urlsplit

from jinja2 import FileSystemLoader

from generator.compute.all_fits import AllFits, all_fits
from generator.compute.fit.result import PairFit
from generator.compute.others.result import OtherFits
from generator.load.folder import load_club
from generator.load.problem_texts import load_catalogue
from generator.model.dataset import Dataset
from generator.render.base.page import Site
from generator.render.cards.write import deck_of
from generator.render.environment import environment, page_body
from generator.render.pages.book import Book, book_of
from generator.render.site import handbook_site
from generator.site.cards import print_cards
from generator.validate.dataset import build_dataset
from tests.clubs import DATA, shelf_files
from tests.once import made_once

TEMPLATES = DATA.parent / "site_overrides"
# what a pair page answers, in the order people ask
PAIR_SECTIONS = (
    "verdict",
    "why",
    "next",
    "instead",
    "need",
    "do",
    "clip-lost",
    "other",
    "numbers",
    "known",
    "cautions",
)


@cache
def demo() -> Dataset:
    dataset, problems = build_dataset(load_club(DATA / "demo"), shelf_files())
    assert dataset is not None, problems
    return dataset


@cache
def demo_all() -> AllFits:
    return made_once("fits", lambda: all_fits(demo()))


@cache
def demo_book() -> Book:
    return book_of(demo(), demo_all(), load_catalogue(DATA))


def demo_fits() -> tuple[PairFit, ...]:
    return demo_all().pairs


def demo_others() -> OtherFits:
    return demo_all().others


@cache
def demo_site() -> Site:
    deck = deck_of(demo(), demo_all())
    cards = made_once("cards", lambda: print_cards(deck, demo().as_of))
    return handbook_site(demo(), demo_all(), load_catalogue(DATA), cards)


@cache
def bodies() -> dict[str, str]:
    return made_once("bodies", lambda: printed(demo_site()))


def printed(site: Site) -> dict[str, str]:
    """Every page printed by its template, without its frame."""
    env = environment(FileSystemLoader(TEMPLATES))
    return {page.path: page_body(env, page) for page in site.pages}


@cache
def seen(path: str) -> "Seen":
    return Seen(bodies()[path])


@cache
def led_to(path: str) -> frozenset[tuple[str, str]]:
    """(path, anchor) of every link on a page."""
    return frozenset(address(path, link) for link in seen(path).links)


class Seen(HTMLParser):
    """The ids of a page and the addresses it leads to."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.ids: list[str] = []
        self.links: list[str] = []
        self.feed(html)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        for name, value in attrs:
            if name == "id" and value:
                self.ids.append(value)
            if name == "href" and value and tag == "a":
                self.links.append(value)


def address(at: str, link: str) -> tuple[str, str]:
    """(path from the root, anchor) of a link on the page `at`."""
    path, anchor = urldefrag(link)
    if not path:
        return at, anchor
    assert path.count("../") <= at.count("/"), f"{at}: {link} leaves the handbook"
    return urlsplit(urljoin(f"https://here/{at}", path)).path.removeprefix("/"), anchor
