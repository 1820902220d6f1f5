"""A plan as pages show it: who carries what, what each bike gets, what to do before and after."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from generator.compute.grouped import grouped
from generator.compute.spares.result import GOALS, Load, Plan, Served
from generator.model.dataset import Dataset
from generator.model.shipped import NO_GO, RUNGS
from generator.render.base.routes import part_route, row_anchor
from generator.render.base.verdicts import ShownVerdict, shown_verdict
from generator.render.contract.plan_json import UNITS
from generator.render.pages.book import Book
from generator.render.pages.mending.failure import failure_route
from generator.render.say.names import listed, named, parts_of, small_named
from generator.render.say.repair import (
    AGES,
    BEARERS,
    MOST_NEXT,
    NO_DATE,
    grams,
    next_does,
    next_named,
    reason_for_all,
)
from generator.render.say.repair import GOALS as GOAL_WORDS
from generator.render.say.said import capital

# column, and the failures it stands for: the first that can happen to the bike
COVER = (
    ("Joint lost", ("connecting-link-lost", "rivet-plate-lost")),
    ("Clip lost", ("clip-lost",)),
    ("Plate broken", ("outer-plate-broken",)),
    ("Chain torn", ("inner-link-broken",)),
)


@dataclass(frozen=True, slots=True)
class LoadLine:
    """One thing to pack; `keys` lie beside it."""

    name: str
    tag: str
    count: int
    to: str


@dataclass(frozen=True, slots=True)
class ShownLoad:
    """One bearer's list."""

    who: str
    bike: str
    weight: str
    lines: tuple[LoadLine, ...]


@dataclass(frozen=True, slots=True)
class CoverRow:
    """One bike: a verdict a column, None where it cannot happen, and where the steps are."""

    name: str
    tag: str
    to: str
    cells: tuple[tuple[ShownVerdict | None, str], ...]


@dataclass(frozen=True, slots=True)
class Uncovered:
    """A failure that stays uncovered on some bikes, and why."""

    title: str
    to: str
    bikes: tuple[str, ...]
    why: str


@dataclass(frozen=True, slots=True)
class Todo:
    """Something to do before the ride."""

    what: str
    why: str
    tag: str
    to: str


def shown_loads(dataset: Dataset, plan: Plan) -> tuple[ShownLoad, ...]:
    return tuple(_load(dataset, load) for load in plan.loads if load.items)


def _load(dataset: Dataset, load: Load) -> ShownLoad:
    bike = load.bearer.bike or ""
    return ShownLoad(
        BEARERS[load.bearer.kind] if load.bearer.kind != "rider" else named(dataset.bikes[bike]),
        bike,
        grams(load.mass),
        tuple(_lines(dataset, load)),
    )


def _lines(dataset: Dataset, load: Load) -> Iterator[LoadLine]:
    """A tool and its key on one line, as they lie together in the roll."""
    keys = {dataset.tools[item.id].record.key for item in load.items if item.kind == "tool"}
    for item in load.items:
        part = parts_of(dataset, item.kind)[item.id]
        if item.kind == "tool" and item.id in keys:
            continue
        key = dataset.tools.get(dataset.tools[item.id].record.key or "") if item.kind == "tool" else None
        name = f"{named(part)}, {key.label}" if key is not None else named(part)
        yield LoadLine(name, item.id, item.count, part_route(item.kind, item.id))


def cover_rows(book: Book, plan: Plan) -> tuple[CoverRow, ...]:
    by_bike = grouped(plan.demands, lambda each: each.bike)
    return tuple(_cover(book, bike, by_bike.get(bike, [])) for bike in plan.bikes)


def _cover(book: Book, bike: str, demands: Iterable[Served]) -> CoverRow:
    served = {each.failure: each for each in demands}
    cells = []
    for _, failures in COVER:
        found = next((served[failure] for failure in failures if failure in served), None)
        verdict = _cell(found.rung) if found is not None else None
        cells.append((verdict, failure_route(found.failure, bike) if found is not None else ""))
    return CoverRow(named(book.dataset.bikes[bike]), bike, part_route("bike", bike), tuple(cells))


def _cell(rung: int) -> ShownVerdict:
    """Where nothing mends it, that is what is said: no part is no-go there."""
    verdict = shown_verdict(RUNGS[rung], rung, rung)
    return replace(verdict, label="none") if rung == NO_GO else verdict


def uncovered(dataset: Dataset, plan: Plan) -> tuple[Uncovered, ...]:
    """Failures alike together, the heaviest first."""
    open_ = [each for each in plan.demands if not each.served]
    groups = grouped(open_, lambda each: (each.failure, reason_for_all(dataset, each.reason)))
    rows = [
        (sum(each.weight for each in found), _uncovered(dataset, failure, why, found))
        for (failure, why), found in groups.items()
    ]
    return tuple(row for _, row in sorted(rows, key=lambda one: -one[0]))


def _uncovered(dataset: Dataset, failure: str, why: str, found: list[Served]) -> Uncovered:
    title = dataset.shelf.mending.failures[failure].title
    return Uncovered(title, failure_route(failure), tuple(each.bike for each in found), f"{capital(why)}.")


def before_the_ride(dataset: Dataset, plan: Plan) -> tuple[Todo, ...]:
    return (
        *_dry_fits(dataset, plan),
        *_purchases(dataset, plan),
        *_useful(dataset, plan),
        *_old(dataset, plan),
    )


def _dry_fits(dataset: Dataset, plan: Plan) -> Iterator[Todo]:
    for chain, link in plan.dry_fit:
        what = f"Dry-fit {small_named(dataset.links[link])}"
        yield Todo(
            what,
            f"on {small_named(dataset.chains[chain])}; get-home until tried",
            link,
            f"pairs/{chain}/#{row_anchor(link)}",
        )


def _purchases(dataset: Dataset, plan: Plan) -> Iterator[Todo]:
    for kind, id_, count in plan.buy:
        part = parts_of(dataset, kind)[id_]
        yield Todo(f"Buy {count} × {named(part)}", "there are not enough", id_, part_route(kind, id_))


def _useful(dataset: Dataset, plan: Plan) -> Iterator[Todo]:
    for each in plan.next_items[:MOST_NEXT]:
        to = part_route("chain" if each.pitches else each.kind, each.id)
        yield Todo(capital(next_named(dataset, each)), f"next most useful: {next_does(each)}", each.id, to)


def _old(dataset: Dataset, plan: Plan) -> Iterator[Todo]:
    """What is too old, or must be looked at; packets without a date together."""
    carried = plan.carried
    found = [(kind, id_, age) for kind, id_, age in plan.aged if (kind, id_) in carried]
    for kind, id_, age in found:
        if age != "not-dated":
            part = parts_of(dataset, kind)[id_]
            yield Todo(named(part), AGES[age], id_, part_route(kind, id_))
    undated = [id_ for _, id_, age in found if age == "not-dated"]
    if undated:
        yield Todo(NO_DATE, listed(undated), "", "")


def worn_out(book: Book, plan: Plan) -> tuple[tuple[str, str], ...]:
    """Bikes whose chain should start no ride, with how long it is."""
    found = []
    for bike in plan.bikes:
        seen = book.wear.bikes[bike]
        if seen.elongation is not None and seen.elongation.low > seen.limit.percent:
            long = f"{float(seen.elongation.nominal):.2g} % long, limit {float(seen.limit.percent):.2g} %"
            found.append((bike, long))
    return tuple(found)


def proof_lines(plan: Plan) -> tuple[str, ...]:
    """What was made least, in order, with its value."""
    values = {goal: value for goal, value, _ in plan.proof.goals}
    return tuple(f"{capital(GOAL_WORDS[goal])}: {values[goal] / UNITS[goal][1]:g}" for goal in GOALS[:6])


def mended(plan: Plan) -> tuple[int, int]:
    """How many failures are mended, of how many that can happen."""
    return sum(each.rung < NO_GO for each in plan.demands), len(plan.demands)
