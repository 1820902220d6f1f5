"""How worn each chain is: the list of all, and a page a chain with its plot."""

from collections.abc import Iterator

from generator.compute.grouped import grouped
from generator.compute.wear.limits import club_rule
from generator.compute.wear.series import Point
from generator.compute.wear.wear import ChainWear, Wear
from generator.model.dataset import Dataset
from generator.model.wear_row import WearRow
from generator.render.base.components import GoRow
from generator.render.base.page import Page
from generator.render.base.routes import part_route
from generator.render.base.table import Cell, Column, Row, Table
from generator.render.drawings.wear_plot import wear_plot
from generator.render.pages.book import Book
from generator.render.pages.wear_tables import length_tables, limits_table
from generator.render.say.names import named, small_named
from generator.render.say.said import small
from generator.render.say.wear import STATES, WEAR, per_cent, shown_wear, wear_sentence
from generator.render.schema.folder_guide import EXAMPLE

_ORDER = ("worn", "contradictory", "too-few", "ok", "new")
_EVENTS = {
    "reading": "",
    "new-chain": "new chain",
    "cut": "chain cut",
    "new-sprockets": "new sprockets",
    "counter-reset": "hours counted anew",
}


def wear_pages(book: Book) -> Iterator[Page]:
    dataset, wear = book.dataset, book.wear
    yield _index(dataset, wear)
    for id_ in dataset.chains:
        yield _of_chain(dataset, wear, id_)


def _index(dataset: Dataset, wear: Wear) -> Page:
    id_, rule = club_rule(dataset)
    limits, lengths = limits_table(dataset, id_), tuple(length_tables(dataset))
    return Page(
        path=WEAR,
        title="How worn are the chains?",
        description="How much longer than new each chain is, against which limit, and how long it will last.",
        template="handbook/wear.html",
        context={
            "groups": _groups(dataset, wear),
            "worn": [
                shown_wear(dataset, each) for each in wear.chains.values() if each.outlook.state == "worn"
            ],
            "rule": small(rule.title),
            "limits": limits,
            "lengths": lengths,
            "columns": ", ".join(WearRow.model_fields),
            "example": EXAMPLE,
        },
        search=(
            "wear",
            "wear limit",
            "chain stretch",
            "elongation",
            "worn out",
            "hours left",
            "replace chain",
        ),
        kind="wear",
        in_nav=True,
        tables=(limits, *lengths),
    )


def _groups(dataset: Dataset, wear: Wear) -> list[tuple[str, str, list[GoRow]]]:
    """By state, the gravest first."""
    found = grouped(wear.chains.values(), lambda each: each.outlook.state)
    return [
        (state, STATES[state], [_row(dataset, each) for each in found[state]])
        for state in _ORDER
        if state in found
    ]


def _row(dataset: Dataset, wear: ChainWear) -> GoRow:
    name = named(dataset.chains[wear.chain])
    return GoRow(f"{WEAR}{wear.chain}/", name, tag=wear.chain, detail=wear_sentence(wear))


def _of_chain(dataset: Dataset, wear: Wear, id_: str) -> Page:
    found, part = wear.chains[id_], dataset.chains[id_]
    says = wear_sentence(found)
    plotted = any(point.hours is not None for point in found.points)
    bikes = [each for each in wear.bikes.values() if each.chain == id_]
    return Page(
        path=f"{WEAR}{id_}/",
        title=f"Wear of {small_named(part)}",
        description=f"How much longer than new chain {id_} is, and how long it will last.",
        template="handbook/wear_chain.html",
        context={
            "id": id_,
            "chain": part_route("chain", id_),
            "shown": shown_wear(dataset, found),
            "line": found.outlook.line is not None,
            "plot": wear_plot(found, says) if plotted else None,
            "readings": _readings(found) if found.points else None,
            "bikes": [
                GoRow(
                    part_route("bike", each.bike),
                    named(dataset.bikes[each.bike]),
                    each.bike,
                    "",
                    wear_sentence(each),
                )
                for each in bikes
            ],
        },
        search=(f"wear of {id_}", f"wear {part.label}"),
        kind="wear",
    )


def _readings(wear: ChainWear) -> Table:
    columns = (
        Column("Day", "head"),
        Column("Hours", "number"),
        Column("Longer than new", "number"),
        Column("Plus-minus", "number"),
        Column("Place", "short"),
        Column("What was done"),
    )
    rows = tuple(_reading_row(point) for point in wear.points)
    return Table(f"wear-of-{wear.chain}", f"Readings of {wear.chain} since it was new", columns, rows)


def _reading_row(point: Point) -> Row:
    places = f"the worst of {point.places} places" if point.places > 1 else "the only place read"
    return Row(
        (
            Cell(point.on.isoformat()),
            Cell("not known" if point.hours is None else f"{float(point.hours):g}"),
            Cell(per_cent(point.elongation.nominal, 3)),
            Cell(f"± {per_cent(point.elongation.plus_minus)}"),
            Cell(point.place, note=places),
            Cell(_EVENTS[point.event] or "reading"),
        )
    )
