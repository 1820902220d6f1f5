"""A page a failure: how it looks, what to look for, which bike, and for each repair the parts in hand and the steps."""

from collections.abc import Iterator
from dataclasses import dataclass

from generator.compute.grouped import grouped
from generator.compute.repair.planner import all_parts
from generator.compute.repair.result import Case, Repair
from generator.model.mending import Failure
from generator.model.shipped import NO_GO
from generator.render.base.components import FitRow
from generator.render.base.page import Page
from generator.render.base.routes import part_route
from generator.render.base.verdicts import shown_verdict
from generator.render.pages.book import Book
from generator.render.pages.mending.shown import ShownRepair, shown_repair
from generator.render.say.cautions import ShownCaution, shown_caution
from generator.render.say.names import listed, named
from generator.render.say.repair import (
    parts_text,
    reason_fix,
    reason_text,
    repair_verdict,
    untested_text,
    why_text,
)
from generator.render.say.rungs import MEANINGS, NO_SOURCE
from generator.render.say.said import capital

# other ways shown below the one to take
MOST_OTHERS = 4


@dataclass(frozen=True, slots=True)
class Answer:
    """One repair for the bikes it is the best of; `on_ride` where a ride carries something else."""

    id: str
    bikes: tuple[tuple[str, str], ...]
    title: str
    repair: ShownRepair
    others: tuple[FitRow, ...]
    lent: str
    on_ride: str = ""


def failure_route(failure: str, bike: str = "") -> str:
    return f"repair/{failure}/#{bike}" if bike else f"repair/{failure}/"


def failure_pages(book: Book) -> Iterator[Page]:
    for id_, failure in book.dataset.shelf.mending.failures.items():
        yield _page(book, id_, failure)


def _page(book: Book, id_: str, failure: Failure) -> Page:
    cases = [case for (_, of), case in book.repairs.items() if of == id_ and case.happens]
    answers = _answers(book, id_, cases)
    where = {bike: answer.id for answer in answers if not answer.on_ride for bike, _ in answer.bikes}
    shelf = book.dataset.shelf
    return Page(
        path=failure_route(id_),
        title=failure.title,
        description=f"{failure.title}: {failure.looks} What mends it on each bike.",
        template="handbook/failure.html",
        context={
            "failure": failure,
            "danger": shown_caution("engine-off", shelf.cautions["engine-off"]),
            "causes": tuple(capital(cause) for cause in failure.causes),
            "bikes": tuple(_bike_row(book, case, where.get(case.bike, "")) for case in cases),
            "answers": answers,
            "cautions": tuple(_all_cautions(book, answers)),
            "last_resort": MEANINGS["last-resort"],
            "get_home": MEANINGS["get-home"],
            "no_source": NO_SOURCE,
        },
        search=(failure.title, id_.replace("-", " "), failure.looks),
        kind="failure",
    )


def _bike_row(book: Book, case: Case, to: str) -> FitRow:
    """The best repair of one bike, leading to its steps; the reason where there is none."""
    bike = book.dataset.bikes[case.bike]
    if not case.repairs:
        return _no_repair(book, case)
    best = case.repairs[0]
    way = book.dataset.shelf.mending.ways[best.way]
    return FitRow(
        repair_verdict(best.range),
        named(bike),
        tag=bike.id,
        goes_in=f"{way.title}: {parts_text(book.dataset, best)}" if all_parts(best) else way.title,
        why=why_text(best),
        to=f"{failure_route(case.failure)}#{to}",
        id=bike.id,
    )


def _no_repair(book: Book, case: Case) -> FitRow:
    """Not tested ways are named as such, with the word not to count on them."""
    bike = book.dataset.bikes[case.bike]
    reason = case.reason
    why = (
        f"{capital(reason_text(book.dataset, reason))}. {capital(reason_fix(book.dataset, reason))}."
        if reason
        else ""
    )
    tested = f" {untested_text(case.untested[0].range)}" if case.untested else ""
    return FitRow(
        shown_verdict("no-go", NO_GO, NO_GO),
        named(bike),
        tag=bike.id,
        why=(f"{why}{tested}",),
        id=bike.id,
        label="none",
    )


def _answers(book: Book, failure: str, cases: list[Case]) -> tuple[Answer, ...]:
    """The best of each bike, and what a ride carries where that is another repair; alike ones together."""
    best = [(case, case.repairs[0], "") for case in cases if case.repairs]
    on_rides = [
        (case, served.repair, capital(book.dataset.rides[ride].name or ride))
        for ride, plan in book.plans.rides.items()
        for served in plan.demands
        if served.failure == failure and served.repair is not None
        for case in cases
        if case.bike == served.bike
        and case.repairs
        and all_parts(served.repair) != all_parts(case.repairs[0])
    ]
    alike = grouped([*best, *on_rides], lambda one: (_same(one[1]), bool(one[2])))
    return tuple(
        _answer(book, failure, number, found, bool(on_ride))
        for number, ((_, on_ride), found) in enumerate(alike.items(), 1)
    )


def _same(repair: Repair) -> tuple[object, ...]:
    return repair.way, repair.bags, repair.parts, repair.change, repair.range


def _answer(
    book: Book, failure: str, number: int, found: list[tuple[Case, Repair, str]], on_ride: bool
) -> Answer:
    first, repair, _ = found[0]
    others = [each for each in first.repairs if each.way != repair.way or each.bags != repair.bags]
    bikes = dict.fromkeys((case.bike, part_route("bike", case.bike)) for case, _, _ in found)
    lenders = [] if on_ride else sorted({each.lender or "" for each in first.lent})
    return Answer(
        f"way-{number}",
        tuple(bikes),
        book.dataset.shelf.mending.ways[repair.way].title,
        shown_repair(book.dataset, failure, repair),
        tuple(_other(book, each) for each in _spread(others)) if not on_ride else (),
        f"Off another bike, get-home at best: {listed(lenders[:6])}. The lender waits." if lenders else "",
        listed(list(dict.fromkeys(ride for *_, ride in found))) if on_ride else "",
    )


def _spread(others: list[Repair]) -> list[Repair]:
    """The first of each way before the second of any."""
    firsts = list({repair.way: repair for repair in reversed(others)}.values())[::-1]
    rest = [repair for repair in others if repair not in firsts]
    return [*firsts, *rest][:MOST_OTHERS]


def _other(book: Book, repair: Repair) -> FitRow:
    way = book.dataset.shelf.mending.ways[repair.way]
    return FitRow(
        repair_verdict(repair.range),
        way.title,
        goes_in=parts_text(book.dataset, repair),
        why=why_text(repair) or (way.says,),
    )


def _all_cautions(book: Book, answers: tuple[Answer, ...]) -> Iterator[ShownCaution]:
    """Those of all steps in full, once."""
    shelf = book.dataset.shelf
    wanted = dict.fromkeys(
        id_
        for way in shelf.mending.ways.values()
        if way.title in {answer.title for answer in answers}
        for step in way.steps
        for id_ in shelf.mending.steps[step].cautions
    )
    yield from (shown_caution(id_, shelf.cautions[id_]) for id_ in (*wanted, "manual-first"))
