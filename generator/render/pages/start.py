"""The first page: what has happened, does this one fit, the next ride, the bikes, the desk."""

from collections.abc import Iterator, Mapping, Sequence
from datetime import date

from generator.model.tools_and_bikes import Bike
from generator.render.base.components import GoRow, TrailWay
from generator.render.base.page import Page
from generator.render.base.routes import part_route
from generator.render.pages.all_pairs import counted, what_goes
from generator.render.pages.book import Book
from generator.render.pages.finder import finder_of
from generator.render.say.days import day_in_words
from generator.render.say.names import named
from generator.render.say.rungs import NO_SOURCE, verdict_key
from generator.render.say.said import capital

# where each large way leads: the first address there is
WAYS = (
    (("repair/",), "Chain broke", "or came off, or wrapped", "chain-broke"),
    (("clip-lost/",), "Clip lost", "plate there or gone", "clip-lost"),
    (("rides/", "spares/", "bikes/"), "Pack for a ride", "who carries what", "fits-bike"),
)
DESK = (
    ("pairs/", "All chains, all links", "every verdict in one grid"),
    ("sizes/", "Which size is it?", "from roller, inner width and pitch"),
    ("worth-doing/", "Measure next", "the readings that settle most"),
    ("spares/", "Spares", "what the club carries, and what it lacks"),
    ("care/", "Wear and care", "how to clean, oil, measure and join"),
    ("cards/", "Cards to print", "for the tin, the tool roll and the wall"),
    ("safety/", "Safety", "before you open a chain"),
)


def start_page(book: Book, pages: Sequence[Page]) -> Page:
    there = {page.path: page for page in pages}
    context = {
        "ways": tuple(_ways(there)),
        "finder": finder_of(book) if book.fits else None,
        "rides": tuple(_next_ride(book, pages)),
        "bikes": tuple(bike_row(book, id_) for id_ in book.dataset.bikes),
        "desk": tuple(GoRow(path, name, detail=detail) for path, name, detail in DESK if path in there),
        "about": book.dataset.club.about or "",
        "key": verdict_key(),
        "no_source": NO_SOURCE,
    }
    return Page(
        path="",
        title="Start",
        description="What has happened, what is on the bike, what is in the bag: whether they go together, and how well.",
        template="handbook/start.html",
        context=context,
        search=("start", "what goes together", "what has happened"),
        kind="start",
        in_nav=True,
    )


def _ways(there: Mapping[str, Page]) -> Iterator[TrailWay]:
    for addresses, name, detail, picture in WAYS:
        to = next((address for address in addresses if address in there), None)
        if to is not None:
            yield TrailWay(to, name, detail, picture)


def _next_ride(book: Book, pages: Sequence[Page]) -> Iterator[GoRow]:
    """The first that is not over, if it has a page."""
    of_ride = {page.path.rstrip("/").rsplit("/", 1)[-1]: page for page in pages if page.kind == "ride"}
    as_of = book.dataset.as_of.isoformat()
    coming = sorted((str(ride.on), id_) for id_, ride in book.dataset.rides.items() if str(ride.on) >= as_of)
    for day, id_ in coming[:1]:
        if id_ in of_ride:
            ride = book.dataset.rides[id_]
            yield GoRow(
                of_ride[id_].path,
                capital(ride.name or id_),
                place=day_in_words(date.fromisoformat(day)),
                detail=f"{len(ride.bikes)} bikes",
            )


def bike_row(book: Book, id_: str) -> GoRow:
    """A bike with its chain in a word and what goes on it."""
    part = book.dataset.bikes[id_]
    return GoRow(
        part_route("bike", id_),
        named(part),
        tag=id_,
        detail=f"{_chain_in_a_word(book, part.record)} · {what_goes(counted(book.by_bike[id_]))}",
    )


def _chain_in_a_word(book: Book, bike: Bike) -> str:
    record = book.dataset.chains[bike.chain].record
    return f"{record.size_code} {record.kind}"
