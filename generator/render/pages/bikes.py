"""The list of bikes, and a page a bike: its chain, its sprockets, its room, and the links that go on it.

Goes in: a book.  Comes out: pages.
"""

from collections.abc import Iterator, Sequence

from generator.compute.fit.result import PairFit
from generator.model.dataset import Part
from generator.model.shipped import GET_HOME
from generator.model.tools_and_bikes import Bike
from generator.render.base.page import Page
from generator.render.base.routes import part_route
from generator.render.base.table import Cell, Column, Row, Table
from generator.render.pages.book import Book, fits_best_first
from generator.render.pages.chains import kind_in_words
from generator.render.pages.downloads import with_downloads
from generator.render.pages.facts import (
    Anchor,
    Fact,
    fact,
    fact_of,
    instrument_names,
    measured_facts,
    present,
    sentence,
)
from generator.render.pages.fits_tables import in_count, links_on_chain
from generator.render.pages.makeshifts import PAGE as CLIP_LOST
from generator.render.pages.makeshifts import lost_clip
from generator.render.pages.readings_table import not_measured, readings_table
from generator.render.pages.search_terms import part_terms
from generator.render.say.names import listed
from generator.render.say.rungs import NO_SOURCE
from generator.rules.rooms import rooms_differ

BIKES = "bikes/"


def bike_pages(book: Book) -> Iterator[Page]:
    yield bikes_index(book)
    for id_ in book.dataset.bikes:
        yield bike_page(book, id_)


def bikes_index(book: Book) -> Page:
    columns = (
        Column("Bike", "head"),
        Column("Chain"),
        Column("Size code"),
        Column("Sprockets"),
        Column("Pitches", "number"),
        Column("Links in the bags that bring it home"),
    )
    rows = tuple(_index_row(book, part) for part in book.dataset.bikes.values())
    table = with_downloads(Table("bikes", "Bikes of the club", columns, rows))
    return Page(
        path=BIKES,
        title="Bikes",
        description="Every bike of the club, the chain it runs and the links in the bags that go on it.",
        template="handbook/bikes.html",
        context={"table": table},
        search=("bikes", "motorcycles"),
        kind="bikes",
        in_nav=True,
        tables=(table,),
    )


def _index_row(book: Book, part: Part[Bike]) -> Row:
    record = part.record
    chain = book.dataset.chains[record.chain]
    return Row(
        (
            Cell(part.id, to=part_route("bike", part.id), note=record.name or ""),
            Cell(chain.id, to=part_route("chain", chain.id)),
            Cell(chain.record.size_code),
            Cell(f"{record.front_teeth} and {record.rear_teeth} teeth"),
            Cell(str(record.pitches)),
            Cell(str(len(bringing_home(carried(book, part.id))))),
        ),
        id=part.id,
    )


def carried(book: Book, bike: str) -> tuple[PairFit, ...]:
    """The fits of links there is at least one of, best first."""
    links = book.dataset.links
    return tuple(fit for fit in fits_best_first(book.by_bike[bike]) if links[fit.link].record.count > 0)


def bringing_home(fits: Sequence[PairFit]) -> tuple[PairFit, ...]:
    """Proper or get-home at the worst end of what is known."""
    return tuple(fit for fit in fits if fit.worst is not None and fit.worst <= GET_HOME)


def still_open(fits: Sequence[PairFit]) -> tuple[PairFit, ...]:
    """Might be better than no-go once measured."""
    return tuple(
        fit
        for fit in fits
        if fit.best is not None and fit.worst is not None and fit.best < fit.worst > GET_HOME
    )


def bike_page(book: Book, id_: str) -> Page:
    part = book.dataset.bikes[id_]
    chain = part.record.chain
    fits = carried(book, id_)
    good, open_ = bringing_home(fits), still_open(fits)
    rest = [fit for fit in fits if fit not in good and fit not in open_]
    good_caption = "Links in the bags that are proper or get-home, best first"
    open_caption = "Links to measure first: they might do"
    context = {
        "lead": sentence(part.record.name),
        "facts": bike_facts(book, part),
        "good": links_on_chain(book, f"bike-{id_}-links", good_caption, good) if good else None,
        "open": links_on_chain(book, f"bike-{id_}-open", open_caption, open_)
        if open_ and not book.brief
        else None,
        "open_count": len(open_),
        "rest": in_count(rest),
        "own_room": own_room(book, part),
        "chain": Anchor(chain, part_route("chain", chain)),
        "chain_kind": _kind_of(book, chain),
        "all_pairs": f"pairs/{chain}/",
        "lost": lost_clip(book, chain),
        "no_source": NO_SOURCE,
        "clip_lost": CLIP_LOST,
        "readings": readings_table(book.dataset, part),
        "not_measured": not_measured(book.dataset, part),
    }
    return Page(
        path=part_route("bike", id_),
        title=id_,
        description=f"Bike {id_}, chain {chain}: the links in the club's bags that go on it.",
        template="handbook/bike.html",
        context=context,
        search=(*part_terms(part, "bike"), chain),
        kind="bike",
    )


def own_room(book: Book, part: Part[Bike]) -> str:
    """Where several bikes run a chain, the pages of its pairs count the least room of them all."""
    chain = part.record.chain
    if not rooms_differ(book.dataset, chain):
        return ""
    others = [bike for bike in book.bikes_of[chain] if bike != part.id]
    return (
        f"Judged by the room beside the chain of this bike alone. The pages of the pairs count the least room of all "
        f"that run {chain}: {listed([part.id, *others])}."
    )


def bike_facts(book: Book, part: Part[Bike]) -> tuple[Fact, ...]:
    record = part.record
    return present(
        (
            fact("Sprockets", f"{record.front_teeth} teeth in front, {record.rear_teeth} behind"),
            fact("Pitches of the loop", record.pitches),
            fact("Joint its manual asks for", record.joint_in_manual),
            fact_of(record, "Hours of a usual ride", "hours_per_ride"),
            fact("Its rider rides as", record.role),
            *measured_facts(record, instrument_names(book.dataset.club.instruments)),
        )
    )


def _kind_of(book: Book, chain: str) -> str:
    record = book.dataset.chains[chain].record
    return f"{record.size_code}, {kind_in_words(record)}"
