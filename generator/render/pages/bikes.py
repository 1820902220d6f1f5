"""The list of bikes, and a page a bike: what it runs, every link by its verdict, tools, the trail, the facts."""

from collections.abc import Iterator

from generator.compute.fit.result import PairFit
from generator.model.dataset import Part
from generator.model.tools_and_bikes import Bike
from generator.render.base.components import GoRow, Need
from generator.render.base.page import Page
from generator.render.base.routes import part_route
from generator.render.cards.kinds import card_links
from generator.render.pages.book import Book
from generator.render.pages.chains import kind_in_words
from generator.render.pages.clip_trail import clip_trail, in_short, own_fit
from generator.render.pages.facts import (
    Fact,
    fact,
    fact_of,
    instrument_names,
    measured_facts,
    present,
)
from generator.render.pages.fit_rows import link_row
from generator.render.pages.fit_sections import chips_from, link_entries, sections_from
from generator.render.pages.index_tables import bikes_table
from generator.render.pages.mending.on_board import on_board
from generator.render.pages.needs import breaker_for, tools_of
from generator.render.pages.readings_table import not_measured, readings_table
from generator.render.pages.search_terms import part_terms
from generator.render.say.bike import (
    BROKE,
    IT_RUNS_WITH,
    LINK_NOT_WRITTEN,
    LOST,
    chain_in_words,
    turns_in_words,
)
from generator.render.say.fitting import turns_of_the_wheel
from generator.render.say.names import named
from generator.render.say.said import small
from generator.render.say.wear import shown_wear

BIKES = "bikes/"


def bike_pages(book: Book) -> Iterator[Page]:
    yield bikes_index(book)
    for id_ in book.dataset.bikes:
        yield bike_page(book, id_)


def bikes_index(book: Book) -> Page:
    return Page(
        path=BIKES,
        title="Bikes",
        description="Every bike of the club, the chain it runs and the links in the bags that go on it.",
        template="handbook/bikes.html",
        context={"rows": tuple(_go_row(book, part) for part in book.dataset.bikes.values())},
        search=("bikes", "motorcycles"),
        kind="bikes",
        in_nav=True,
        tables=(bikes_table(book),),
    )


def _go_row(book: Book, part: Part[Bike]) -> GoRow:
    chain = book.dataset.chains[part.record.chain]
    counts = tuple((chip.word, chip.count) for chip in chips_from(book.by_bike[part.id]))
    said = ", ".join(f"{chip.count} {chip.label}" for chip in chips_from(book.by_bike[part.id]))
    return GoRow(
        part_route("bike", part.id),
        named(part),
        tag=part.id,
        detail=f"{chain.record.size_code}, {chain.id}: {said}"
        if said
        else f"{chain.record.size_code}, {chain.id}",
        counts=counts,
    )


def bike_page(book: Book, id_: str) -> Page:
    part = book.dataset.bikes[id_]
    chain = book.dataset.chains[part.record.chain]
    fits = book.by_bike[id_]
    own = next((fit for fit in fits if fit.link == chain.record.own_link), None)
    entries = link_entries(book, fits, id_, own)
    context = {
        "bike": part.id,
        "chain": chain.id,
        "chain_to": part_route("chain", chain.id),
        "name": named(part),
        "sub": chain_in_words(chain, kind_in_words(chain.record), part.record.pitches),
        "wear": shown_wear(book.dataset, book.wear.bikes[id_]),
        "runs_title": IT_RUNS_WITH,
        "own": link_row(book, own, id_, numbers=True) if own else None,
        "own_unknown": LINK_NOT_WRITTEN,
        "chips": chips_from(entries),
        "sections": sections_from(entries),
        "needs": bike_needs(book, chain.id, own),
        "trail": trail_of(book, chain.id),
        "lost": clip_trail(book, own) if own else None,
        "on_board": on_board(book, id_),
        "all_pairs": f"pairs/{chain.id}/",
        "facts": bike_facts(book, part),
        "readings": readings_table(book.dataset, part),
        "not_measured": not_measured(book.dataset, part),
        "cards": card_links("bike", id_),
    }
    return Page(
        path=part_route("bike", id_),
        title=named(part),
        description=f"Bike {id_}, chain {chain.id}: the links in the club's bags that go on it.",
        template="handbook/bike.html",
        context=context,
        search=(*part_terms(part, "bike"), chain.id),
        kind="bike",
    )


def bike_needs(book: Book, chain: str, own: PairFit | None) -> tuple[Need, ...]:
    """To close the joint it runs with, and to open its chain."""
    return (*(tools_of(book, own) if own else ()), breaker_for(book, chain))


def trail_of(book: Book, chain: str) -> tuple[GoRow, ...]:
    """Where to go when it happens."""
    own = own_fit(book, chain)
    clip, makeshift = in_short(book, own) if own else (None, None)
    said = "; else ".join(
        part
        for part in (
            f"{clip.name}, {clip.goes_in}" if clip else "",
            f"{small(makeshift.name)}, {makeshift.verdict.label}" if makeshift else "",
        )
        if part
    )
    rows = [GoRow("clip-lost/", LOST, detail=said)]
    broke = sorted(path for path in book.elsewhere if path in ("repair/", "broke/"))
    return (*rows, *(GoRow(path, BROKE) for path in broke[:1]))


def bike_facts(book: Book, part: Part[Bike]) -> tuple[Fact, ...]:
    record = part.record
    turns = turns_in_words(turns_of_the_wheel(part))
    return present(
        (
            fact("Sprockets", f"{record.front_teeth} teeth in front, {record.rear_teeth} behind"),
            fact("Loop", f"{record.pitches} pitches; {turns}"),
            fact("Joint its manual asks for", record.joint_in_manual),
            fact("Why the club runs a clip on it", record.clip_because) if record.clip_because else None,
            fact_of(record, "Hours of a usual ride", "hours_per_ride"),
            fact("Its rider rides as", record.role),
            *measured_facts(record, instrument_names(book.dataset.club.instruments)),
        )
    )
