"""A page a failure: how it looks, what to look for, which bike, and for each repair the parts in hand and the steps."""

from collections.abc import Iterator
from dataclasses import dataclass

from generator.compute.grouped import grouped
from generator.compute.repair.planner import all_parts
from generator.compute.repair.result import Case, Lack, Repair
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
    """One repair for the bikes (label, name, address) it is the best of; `on_ride` where a ride carries another."""

    id: str
    bikes: tuple[tuple[str, str, str], ...]
    title: str
    repair: ShownRepair
    others: tuple[FitRow, ...]
    lent: str
    on_ride: str = ""


@dataclass(frozen=True, slots=True)
class BikeChip:
    """One bike to tap; `to` is the anchor of its steps or its reason."""

    bike: str
    word: str
    label: str
    to: str


@dataclass(frozen=True, slots=True)
class Without:
    """Bikes (label and name) that nothing mends, and why."""

    bikes: tuple[tuple[str, str], ...]
    why: str


NO_REPAIR = "no-repair"


def failure_route(failure: str, bike: str = "") -> str:
    return f"repair/{failure}/#{bike}" if bike else f"repair/{failure}/"


def failure_pages(book: Book) -> Iterator[Page]:
    for id_, failure in book.dataset.shelf.mending.failures.items():
        yield _page(book, id_, failure)


def _page(book: Book, id_: str, failure: Failure) -> Page:
    cases = [case for (_, of), case in book.repairs.items() if of == id_ and case.happens]
    answers = _answers(book, id_, cases)
    where = {bike: answer.id for answer in answers if not answer.on_ride for bike, *_ in answer.bikes}
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
            "chips": tuple(_chip(case, where.get(case.bike, "")) for case in cases),
            "without": _without(book, cases),
            "answers": answers,
            "cautions": tuple(_all_cautions(book, answers)),
            "last_resort": MEANINGS["last-resort"],
            "get_home": MEANINGS["get-home"],
            "no_source": NO_SOURCE,
        },
        search=(failure.title, id_.replace("-", " "), failure.looks),
        kind="failure",
    )


def _chip(case: Case, to: str) -> BikeChip:
    """A bike by its label, with the best that can be done, leading to the steps or to the reason."""
    verdict = repair_verdict(case.repairs[0].range) if case.repairs else shown_verdict("no-go", NO_GO, NO_GO)
    return BikeChip(case.bike, verdict.word, verdict.label if case.repairs else "no repair", to or NO_REPAIR)


def _without(book: Book, cases: list[Case]) -> tuple[Without, ...]:
    """Bikes that nothing mends, by reason; not tested ways are named as such."""
    open_ = [case for case in cases if not case.repairs]
    return tuple(
        Without(tuple((case.bike, named(book.dataset.bikes[case.bike])) for case in found), why)
        for why, found in grouped(open_, lambda case: _why(book, case)).items()
    )


def _why(book: Book, case: Case) -> str:
    reason = case.reason
    if reason is None:
        return ""
    about = Lack(reason.code, "word", "the bike") if reason.kind == "bike" else reason
    tested = f" {untested_text(case.untested[0].range)}" if case.untested else ""
    return (
        f"{capital(reason_text(book.dataset, about))}. {capital(reason_fix(book.dataset, reason))}.{tested}"
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
    known = book.dataset.bikes
    bikes = dict.fromkeys(
        (case.bike, named(known[case.bike]), part_route("bike", case.bike)) for case, _, _ in found
    )
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
