"""The club's recommended spares: by size and kind of seal, what each is good for, who carries it, what to buy."""

from collections.abc import Iterator
from dataclasses import dataclass

from generator.compute.spares.result import BearerKind, KitView, Plan
from generator.model.shipped import RUNGS
from generator.render.base.components import GoRow
from generator.render.base.page import Download, Page
from generator.render.base.routes import part_route
from generator.render.base.table import Cell, Column, Row, Table
from generator.render.base.verdicts import ShownVerdict, shown_verdict
from generator.render.pages.book import Book
from generator.render.pages.mending.loads import (
    before_the_ride,
    mended,
    proof_lines,
    uncovered,
)
from generator.render.say.names import named, parts_of
from generator.render.say.repair import BEARERS, grams, next_does, next_named
from generator.render.say.said import capital

SEALS = {"O": "O-ring", "X": "X-ring", "other": "other seals", "none": "plain", "unknown": "seals unknown"}
TOOLS = "Tools, for every size"


@dataclass(frozen=True, slots=True)
class Spare:
    """One line of the list: the best it makes of anything, and where it is worst used."""

    name: str
    tag: str
    to: str
    count: int
    bearer: str
    mass: str
    cost: str
    verdict: ShownVerdict | None
    serves: int


@dataclass(frozen=True, slots=True)
class SpareGroup:
    """Spares of one size and kind of seal, or the tools."""

    id: str
    title: str
    bikes: tuple[str, ...]
    spares: tuple[Spare, ...]

    @property
    def table(self) -> Table:
        """As it stands on the page."""
        columns = (
            Column("Part", "head"),
            Column("Best it makes", "verdict"),
            Column("How many", "short"),
            Column("Carried by", "short"),
            Column("Mass", "short"),
            Column("Cost of one", "short"),
        )
        tools = all(each.verdict is None for each in self.spares)
        rows = tuple(Row(_cells(each, tools)) for each in self.spares)
        return Table(self.id + "-list", self.title, (columns[0], *columns[2:]) if tools else columns, rows)


def _cells(spare: Spare, tools: bool) -> tuple[Cell, ...]:
    head = Cell(spare.name, to=spare.to, tag=spare.tag)
    verdict = () if tools else (Cell(verdict=spare.verdict),)
    return (
        head,
        *verdict,
        *(Cell(text) for text in (str(spare.count), spare.bearer, spare.mass, spare.cost)),
    )


def spares_page(book: Book) -> Page:
    plan = book.plans.club
    can, all_ = mended(plan)
    groups = _groups(book, plan)
    return Page(
        path="spares/",
        title="Recommended spares",
        description="What the club should keep ready for its chains: verdict, bag label, who carries it, mass, cost, and what to buy.",
        template="handbook/spares.html",
        context={
            "lead": f"{grams(plan.mass)} in all. Of {all_} failures that can happen to {len(plan.bikes)} bikes, {can} are mended with it.",
            "groups": groups,
            "todo": before_the_ride(book.dataset, plan),
            "uncovered": uncovered(book.dataset, plan),
            "idle": tuple(_idle(plan)),
            "kit": plan.kit,
            "kit_lines": tuple(_kit_lines(book, plan.kit)) if plan.kit else (),
            "kit_mass": grams(plan.kit.mass) if plan.kit else "",
            "proof": proof_lines(plan),
            "proven": plan.proof.rechecked,
            "currency": book.dataset.club.currency or "",
            "rides": tuple(
                GoRow(f"rides/{id_}/", capital(ride.name or id_)) for id_, ride in book.dataset.rides.items()
            ),
        },
        search=("spares", "recommended spares", "what to buy", "spares list", "what to carry"),
        kind="spares",
        in_nav=True,
        tables=(_list_table(groups), _buy_table(book, plan)),
        files=(Download("JSON", "data/v1/plan.json"),),
    )


def _groups(book: Book, plan: Plan) -> tuple[SpareGroup, ...]:
    """Parts by the chains they serve, tools last."""
    found: dict[str, list[Spare]] = {}
    bikes: dict[str, set[str]] = {}
    for load in plan.loads:
        for item in load.items:
            serving = [
                each for each in plan.demands if (item.kind, item.id) in {take[:2] for take in each.takes}
            ]
            title = TOOLS if item.kind == "tool" else _kind_of_chain(book, serving[0].bike if serving else "")
            found.setdefault(title, []).append(
                _spare(
                    book,
                    item.kind,
                    item.id,
                    item.count,
                    item.mass,
                    load.bearer.kind,
                    [s.rung for s in serving],
                )
            )
            bikes.setdefault(title, set()).update(each.bike for each in serving)
    order = sorted(found, key=lambda title: (title == TOOLS, title))
    return tuple(
        SpareGroup(
            f"group-{number}",
            title,
            tuple(sorted(bikes[title])) if title != TOOLS else (),
            tuple(found[title]),
        )
        for number, title in enumerate(order, 1)
    )


def _kind_of_chain(book: Book, bike: str) -> str:
    if not bike:
        return TOOLS
    chain = book.dataset.chains[book.dataset.bikes[bike].record.chain].record
    seal = SEALS[chain.seal] if chain.kind != "plain" else "plain"
    return f"{chain.size_code}, {seal}"


def _spare(
    book: Book, kind: str, id_: str, count: int, mass: int, bearer: BearerKind, rungs: list[int]
) -> Spare:
    part = parts_of(book.dataset, kind)[id_]
    cost = getattr(part.record, "cost", None)
    best = min(rungs, default=None)
    return Spare(
        named(part),
        id_,
        part_route(kind, id_),
        count,
        BEARERS[bearer],
        grams(mass),
        str(cost) if cost not in (None, "unknown") else "",
        shown_verdict(RUNGS[best], best, best) if best is not None and kind != "tool" else None,
        len(rungs),
    )


def _idle(plan: Plan) -> Iterator[tuple[str, str]]:
    """Stock that serves no failure of any bike: scrap, or a sample kept to show."""
    yield from ((id_, part_route(kind, id_)) for kind, id_ in plan.serves_nothing)


def _kit_lines(book: Book, kit: KitView) -> Iterator[str]:
    bikes = {bike for bike, *_ in kit.worse}
    if kit.worse:
        yield f"It leaves {len(kit.worse)} failures on {len(bikes)} bikes worse than the list above."
    titles = book.dataset.shelf.mending.kits
    for id_, what in kit.lacks:
        yield f"{titles[id_].title}: the club has no {what.replace('-', ' ')} for every one of them."
    if kit.for_nothing:
        yield f"It carries for nothing: {', '.join(id_ for _, id_ in kit.for_nothing)}."
    if not kit.worse and not kit.lacks:
        yield "It does as well as the list above."


def _list_table(groups: tuple[SpareGroup, ...]) -> Table:
    titles = (
        "Group",
        "Label",
        "Part or tool",
        "Count",
        "Bearer",
        "Mass",
        "Cost of one",
        "Best it makes",
        "Failures served",
    )
    columns = tuple(Column(title, "head" if number == 0 else "text") for number, title in enumerate(titles))
    rows = (
        Row(
            (
                Cell(group.title),
                Cell(each.tag),
                Cell(each.name),
                Cell(str(each.count)),
                Cell(each.bearer),
                Cell(each.mass),
                Cell(each.cost),
                Cell(each.verdict.word if each.verdict else ""),
                Cell(str(each.serves)),
            )
        )
        for group in groups
        for each in group.spares
    )
    return Table("spares", "Recommended spares of the club", columns, tuple(rows))


def _buy_table(book: Book, plan: Plan) -> Table:
    titles = ("Label", "Part", "Count", "Cost of one", "Why")
    columns = tuple(Column(title, "head" if number == 0 else "text") for number, title in enumerate(titles))
    rows = [
        Row(
            (
                Cell(id_),
                Cell(named(parts_of(book.dataset, kind)[id_])),
                Cell(str(count)),
                Cell(_cost(book, kind, id_)),
                Cell("the list asks for more than there are"),
            )
        )
        for kind, id_, count in plan.buy
    ]
    rows += [
        Row(
            (
                Cell(each.id),
                Cell(next_named(book.dataset, each)),
                Cell("1"),
                Cell("" if each.pitches else _cost(book, each.kind, each.id)),
                Cell(next_does(each)),
            )
        )
        for each in plan.next_items
    ]
    return Table("buy-list", "What to buy", columns, tuple(rows))


def _cost(book: Book, kind: str, id_: str) -> str:
    cost = getattr(parts_of(book.dataset, kind)[id_].record, "cost", None)
    return str(cost) if cost not in (None, "unknown") else ""
