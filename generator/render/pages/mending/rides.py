"""A page a ride, which its leader reads out: who carries what, what each bike gets, what stays open."""

from collections.abc import Iterator
from dataclasses import dataclass

from generator.compute.spares.result import Plan
from generator.model.trials_and_rides import Ride
from generator.render.base.components import GoRow
from generator.render.base.page import Page
from generator.render.base.routes import part_route
from generator.render.base.table import Cell, Column, Row, Table
from generator.render.cards.kinds import card_links
from generator.render.pages.book import Book
from generator.render.pages.mending.loads import (
    COVER,
    before_the_ride,
    cover_rows,
    mended,
    proof_lines,
    shown_loads,
    uncovered,
    worn_out,
)
from generator.render.say.days import day_in_words
from generator.render.say.names import listed, named, parts_of
from generator.render.say.repair import BEARERS, grams
from generator.render.say.rungs import MEANINGS
from generator.render.say.said import capital

RIDES = "rides/"


@dataclass(frozen=True, slots=True)
class Lending:
    """A bike that could get its joint off others."""

    bike: str
    lenders: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Refill:
    """What to put back after a ride if it was used."""

    name: str
    tag: str
    carried: int
    left: int
    place: str


def ride_pages(book: Book) -> Iterator[Page]:
    if book.dataset.rides:
        yield _list(book)
    for id_, plan in book.plans.rides.items():
        yield _ride(book, id_, book.dataset.rides[id_], plan)


def _title(id_: str, ride: Ride) -> str:
    return capital(ride.name or id_)


def _list(book: Book) -> Page:
    rides = sorted(book.dataset.rides.items(), key=lambda one: (one[1].on, one[0]))
    return Page(
        path=RIDES,
        title="Rides",
        description="Every ride with who carries what and what each bike gets.",
        template="handbook/rides.html",
        context={"rides": tuple(_row(book, id_, ride) for id_, ride in rides)},
        search=("rides", "who carries what", "packing list"),
        kind="rides",
        in_nav=True,
    )


def _row(book: Book, id_: str, ride: Ride) -> GoRow:
    plan = book.plans.rides[id_]
    can, all_ = mended(plan)
    return GoRow(
        f"rides/{id_}/",
        _title(id_, ride),
        place=day_in_words(ride.on),
        detail=f"{len(ride.bikes)} bikes · {grams(plan.mass)} on them · {can} of {all_} failures mended",
    )


def _ride(book: Book, id_: str, ride: Ride, plan: Plan) -> Page:
    can, all_ = mended(plan)
    pieces = sum(item.count for load in plan.loads for item in load.items)
    van = "no van" if not ride.van else f"van reaches {listed(list(ride.van_reaches or ride.bikes))}"
    return Page(
        path=f"rides/{id_}/",
        title=_title(id_, ride),
        description=f"{_title(id_, ride)}: who carries what, what each of {len(ride.bikes)} bikes gets, what stays open.",
        template="handbook/ride.html",
        context={
            "cards": card_links("ride", id_),
            "of": f"{day_in_words(ride.on)} · {len(ride.bikes)} bikes · {van}",
            "lead": f"{pieces} parts and tools, {grams(plan.mass)} on the bikes, mend {can} of {all_} failures.",
            "worn": tuple((bike, long, part_route("bike", bike)) for bike, long in worn_out(book, plan)),
            "loads": shown_loads(book.dataset, plan),
            "columns": tuple(title for title, _ in COVER),
            "cover": cover_rows(book, plan),
            "uncovered": uncovered(book.dataset, plan),
            "todo": before_the_ride(book.dataset, plan),
            "lending": tuple(_lending(book, plan)),
            "refill": tuple(_refill(book, plan)),
            "proof": proof_lines(plan),
            "proven": plan.proof.rechecked,
            "depth": plan.depth,
            "get_home": MEANINGS["get-home"],
        },
        search=(_title(id_, ride), id_.replace("-", " "), f"ride {day_in_words(ride.on)}"),
        kind="ride",
        tables=(_table(book, id_, plan),),
    )


def _lending(book: Book, plan: Plan) -> Iterator[Lending]:
    for bike in plan.bikes:
        lenders = {
            repair.lender
            for failure in ("connecting-link-lost", "outer-plate-broken", "rivet-plate-lost")
            for repair in book.repairs[bike, failure].lent
            if repair.lender in plan.bikes
        }
        if lenders:
            yield Lending(bike, tuple(sorted(lender for lender in lenders if lender is not None)))


def _refill(book: Book, plan: Plan) -> Iterator[Refill]:
    """Parts that a repair uses up, with how many stay in the tin."""
    for (kind, id_), count in plan.carried.items():
        if kind != "tool":
            part = parts_of(book.dataset, kind)[id_]
            record = part.record
            left = getattr(record, "count", 1) - count
            yield Refill(named(part), id_, count, max(left, 0), getattr(record, "kept_in", None) or "")


def _table(book: Book, id_: str, plan: Plan) -> Table:
    columns = (
        Column("Bearer", "head"),
        Column("Bike"),
        Column("Label"),
        Column("Part or tool"),
        Column("Count", "number"),
        Column("Mass g", "number"),
    )
    rows = (
        Row(
            (
                Cell(BEARERS[load.bearer.kind]),
                Cell(load.bearer.bike or ""),
                Cell(item.id),
                Cell(named(parts_of(book.dataset, item.kind)[item.id])),
                Cell(str(item.count)),
                Cell(f"{item.mass / 1000:g}"),
            )
        )
        for load in plan.loads
        for item in load.items
    )
    return Table(f"ride-{id_}", "Who carries what", columns, tuple(rows))
