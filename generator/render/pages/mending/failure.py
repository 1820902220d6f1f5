"""A page a failure: how it looks, what to look for, which bike, and for each repair the parts in hand and the steps."""

from collections.abc import Iterator
from dataclasses import dataclass

from generator.compute.grouped import grouped
from generator.compute.repair.result import Case, Lack, Repair
from generator.model.mending import Failure
from generator.model.shipped import NO_GO, RUNGS
from generator.render.base.components import FitRow
from generator.render.base.page import Page
from generator.render.base.verdicts import shown_verdict
from generator.render.cards.kinds import repair_card_links
from generator.render.pages.book import Book
from generator.render.pages.mending.shown import ShownStep, hand_text, steps_of, tools_text
from generator.render.say.cautions import ShownCaution, shown_caution
from generator.render.say.names import listed, named
from generator.render.say.repair import (
    reason_fix,
    reason_text,
    repair_verdict,
    untested_text,
    why_text,
)
from generator.render.say.rungs import MEANINGS, NO_SOURCE
from generator.render.say.said import capital, small

# other ways shown below the one to take
MOST_OTHERS = 2
MOST_LENDERS = 4


@dataclass(frozen=True, slots=True)
class Answer:
    """One way, with a row for each set of parts that some bikes do it with, and its steps."""

    id: str
    title: str
    says: str
    off_road: bool
    rows: tuple[FitRow, ...]
    steps: tuple[ShownStep, ...]
    far: tuple[str, ...]


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
    """The anchor of a bike has a sign that no id may have, and so is that of nothing else there."""
    return f"repair/{failure}/#bike_{bike}" if bike else f"repair/{failure}/"


def failure_pages(book: Book) -> Iterator[Page]:
    for id_, failure in book.dataset.shelf.mending.failures.items():
        yield _page(book, id_, failure)


def _page(book: Book, id_: str, failure: Failure) -> Page:
    cases = [case for (_, of), case in book.repairs.items() if of == id_ and case.happens]
    answers, where = _answers(book, id_, cases)
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
            "no_source": NO_SOURCE,
            "cards": repair_card_links(),
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


# a case, a repair of it, and the rides that carry it where that is not the best there is
Found = tuple[Case, Repair, str]


def _answers(book: Book, failure: str, cases: list[Case]) -> tuple[tuple[Answer, ...], dict[str, str]]:
    """By way; and for each bike the anchor of its row."""
    best: list[Found] = [(case, case.repairs[0], "") for case in cases if case.repairs]
    where: dict[str, str] = {}
    answers = []
    for way, found in grouped([*best, *_on_rides(book, failure, cases)], lambda one: one[1].way).items():
        alike = list(grouped(found, lambda one: (_same(one[1]), bool(one[2]))).values())
        ids = [f"{way}-{number}" for number in range(1, len(alike) + 1)]
        for id_, group in zip(ids, alike, strict=True):
            where |= {case.bike: id_ for case, _, ride in group if not ride}
        rows = tuple(_row(book, id_, group) for id_, group in zip(ids, alike, strict=True))
        answers.append(_answer(book, failure, way, [group[0][1] for group in alike], rows))
    return tuple(answers), where


def _on_rides(book: Book, failure: str, cases: list[Case]) -> Iterator[Found]:
    """What a ride carries, where that is another repair than the best of the club."""
    of_bike = {case.bike: case for case in cases if case.repairs}
    for ride, plan in book.plans.rides.items():
        for served in plan.demands:
            case, repair = of_bike.get(served.bike), served.repair
            if served.failure != failure or repair is None or case is None:
                continue
            if _same(repair) != _same(case.repairs[0]):
                yield case, repair, small(book.dataset.rides[ride].name or ride)


def _same(repair: Repair) -> tuple[object, ...]:
    return repair.way, repair.bags, repair.parts, repair.change, repair.range


def _answer(book: Book, failure: str, id_: str, repairs: list[Repair], rows: tuple[FitRow, ...]) -> Answer:
    way = book.dataset.shelf.mending.ways[id_]
    words = dict.fromkeys(row.verdict.word for row in rows)
    far = tuple(f"{capital(word)}: {MEANINGS[word]}" for word in words)
    steps = tuple(steps_of(book.dataset, failure, repairs))
    return Answer(id_, way.title, way.says, not way.road, rows, steps, far)


def _row(book: Book, id_: str, found: list[Found]) -> FitRow:
    """Parts in hand, tools with their keys, what it does to the length, and what else would do."""
    first, repair, _ = found[0]
    known = book.dataset.bikes
    bikes = list(dict.fromkeys(case.bike for case, *_ in found))
    rides = list(dict.fromkeys(ride for *_, ride in found if ride))
    name = listed(list(dict.fromkeys(named(known[bike]) for bike in bikes)))
    tools = tools_text(book.dataset, repair)
    return FitRow(
        repair_verdict(repair.range),
        f"{name}, on {listed(rides)}" if rides else name,
        tags=tuple(bikes),
        goes_in=hand_text(book.dataset, repair),
        why=(
            f"Tools: {small(tools)}. " if tools else "",
            *why_text(repair),
            "" if rides else _else(book, first, repair),
        ),
        id=id_,
    )


def _else(book: Book, case: Case, repair: Repair) -> str:
    """The next best of other ways, and bikes that could lend, in a sentence."""
    ways = book.dataset.shelf.mending.ways
    others = {each.way: each for each in reversed(case.repairs) if each.way != repair.way}
    said = [
        f"{small(ways[way].title)} ({RUNGS[each.range.counts]})"
        for way, each in list(others.items())[::-1][:MOST_OTHERS]
    ]
    lenders = sorted({each.lender for each in case.lent if each.lender is not None})
    if lenders:
        said.append(
            f"off {listed(lenders[:MOST_LENDERS])}, which then {'waits' if len(lenders) == 1 else 'wait'} (get-home at best)"
        )
    return f" Else {'; '.join(said)}." if said else ""


def _all_cautions(book: Book, answers: tuple[Answer, ...]) -> Iterator[ShownCaution]:
    """Those of all steps in full, once."""
    mending = book.dataset.shelf.mending
    steps = [step for answer in answers for step in mending.ways[answer.id].steps]
    wanted = dict.fromkeys(id_ for step in steps for id_ in mending.steps[step].cautions)
    cautions = book.dataset.shelf.cautions
    yield from (shown_caution(id_, cautions[id_]) for id_ in (*wanted, "manual-first"))
