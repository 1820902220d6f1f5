"""The page of one recipe: how, the drawing, what each instrument costs, what it decides, where it is written down."""

from collections.abc import Iterable, Iterator

from markupsafe import Markup

from generator.compute.reading_cost import ReadingCost, not_named, reading_costs
from generator.model.dataset import Dataset
from generator.model.shipped import Recipe, Rule
from generator.render.base.page import Page
from generator.render.base.table import Cell, Column, Row, Table
from generator.render.drawings.dimensions import DRAWN, dimension_drawing, dimension_words
from generator.render.pages.reference.cells import field_title, length_cell, source_cell
from generator.render.say.cautions import ShownCaution, shown_caution

CONTACTS = {
    "outside": "outside jaws",
    "inside": "inside jaws",
    "depth": "depth rod",
    "gauge": "feelers, drill shanks, glass or rule",
}
_COLUMNS = (
    Column("Instrument", "head"),
    Column("Its own ±", "number"),
    Column("Below by up to", "number"),
    Column("Above by up to", "number"),
    Column("Whose"),
)
# the files whose name is not the kind of part and an s
_FILES = {"wear": ("wear-log", "wear_log.csv")}
# turning the wheel and working on the bike; at the bench these do not apply
_AT_THE_BIKE = ("bike", "trial", "wear", "chain")


def recipe_page(dataset: Dataset, id_: str, recipe: Recipe) -> Page:
    return Page(
        path=f"measuring/{id_}/",
        title=recipe.title,
        description=f"{recipe.title}: how it is read, and how far the reading can be off.",
        template="handbook/recipe.html",
        context={
            "how": recipe.how,
            "contact": CONTACTS[recipe.contact],
            "drawing": dimension_drawing(id_) if id_ in DRAWN else Markup(""),
            "drawn": " ".join(_drawn(id_, recipe)),
            "costs": _costs_table(dataset, id_, recipe),
            "adds": _adds(recipe),
            "decides": tuple(_decides(dataset, recipe)),
            "fields": tuple(_fields(recipe)),
            "source": source_cell(dataset.shelf, recipe.source),
            "cautions": tuple(_cautions(dataset, recipe)),
        },
        search=tuple(dict.fromkeys(_terms(recipe))),
        kind="recipe",
    )


def _drawn(id_: str, recipe: Recipe) -> Iterator[str]:
    """What stands under the drawing."""
    if id_ in DRAWN:
        yield dimension_words(id_)
    if recipe.symbol:
        yield f"In drawings and limits it is called {recipe.symbol}."


def _costs_table(dataset: Dataset, id_: str, recipe: Recipe) -> Table:
    costs = list(reading_costs(dataset, recipe))
    if recipe.contact != "gauge":
        costs.append(not_named(dataset, recipe))
    caption = f"{recipe.title}: what the instrument costs"
    return Table(f"cost-{id_}", caption, _COLUMNS, tuple(_cost_row(cost) for cost in costs))


def _cost_row(cost: ReadingCost) -> Row:
    note = "" if cost.fits else "has no such faces: counts as the worst that has"
    whose = "the club's" if cost.of_club else "any of its kind"
    head = Cell(cost.title, note=note)
    own = length_cell(cost.own) if cost.own else Cell("in the way of reading")
    return Row((head, own, length_cell(cost.minus), length_cell(cost.plus), Cell(whose)))


def _adds(recipe: Recipe) -> tuple[Cell, Cell]:
    """What the way of reading alone adds, below and above."""
    minus, plus = (extra.readings[0] for extra in (recipe.minus, recipe.plus))
    return length_cell(int(minus)), length_cell(int(plus))


def _decides(dataset: Dataset, recipe: Recipe) -> Iterator[Cell]:
    """The checks it bears on, each leading to its limits."""
    tables: Iterable[tuple[str, Rule]] = [
        *dataset.shelf.joint_rules.items(),
        *(pair for rules in dataset.shelf.other_rules.values() for pair in rules.items()),
    ]
    for check in recipe.decides:
        found = next(((id_, rule) for id_, rule in tables if check in (id_, rule.check)), None)
        if found is not None:
            yield Cell(found[1].title, to=f"limits/#{found[0]}", note=found[1].says)


def _fields(recipe: Recipe) -> Iterator[Cell]:
    """Where the reading is written down."""
    for field in recipe.fields:
        kind, name = field.split(".")
        stem, file = _FILES.get(kind, (f"{kind}s", f"{kind}s.yaml"))
        yield Cell(f"{name} in {file}", to=f"data-format/#{stem}-{name}")


def _cautions(dataset: Dataset, recipe: Recipe) -> Iterator[ShownCaution]:
    """Only what can kill or maim stands before the recipe; the safety page has the rest."""
    if not any(field.split(".")[0] in _AT_THE_BIKE for field in recipe.fields):
        return
    for id_, caution in dataset.shelf.cautions.items():
        if (
            "measure" in caution.before
            and caution.harm == "death-or-serious"
            and caution.likelihood != "rare"
        ):
            yield shown_caution(id_, caution)


def _terms(recipe: Recipe) -> Iterator[str]:
    yield from (f"how to measure {recipe.title.lower()}", f"measure {recipe.title.lower()}")
    if recipe.symbol:
        yield recipe.symbol
    for field in recipe.fields:
        kind, name = field.split(".")
        yield from (field_title(name).lower(), f"{kind} {field_title(name).lower()}")
    yield recipe.how
