"""How each dimension is measured: the list, and a page a recipe with what it costs in plus-minus."""

from collections.abc import Iterator
from dataclasses import dataclass

from generator.compute.reading_cost import ReadingCost, not_named, reading_costs
from generator.model.dataset import Dataset
from generator.model.kinds import KINDS
from generator.model.shipped import Recipe
from generator.render.base.components import GoRow
from generator.render.base.page import Page
from generator.render.base.table import Cell, Column, Row, Table
from generator.render.pages.book import Book
from generator.render.pages.reference.cells import SYMBOL_FREE, length_cell
from generator.render.pages.reference.recipe import CONTACTS, recipe_page

# the part a dimension belongs to, in the order a person measures
PARTS = {
    **{id_: kind.read_on for id_, kind in KINDS.items() if kind.read_on},
    "wear": "For the wear log",
    "": "As a check, with no place in a record",
}
_COLUMNS = (
    Column("Dimension", "head"),
    Column("Symbol", "short"),
    Column("Read with"),
    Column("Best, below", "number"),
    Column("Best, above", "number"),
    Column("Not named, below", "number"),
    Column("Not named, above", "number"),
)


def measuring_pages(book: Book) -> tuple[Page, ...]:
    dataset = book.dataset
    recipes = dataset.shelf.recipes
    pages = (recipe_page(dataset, id_, recipe) for id_, recipe in recipes.items())
    return (_index(dataset), *pages)


def _index(dataset: Dataset) -> Page:
    tables = tuple(_tables(dataset))
    return Page(
        path="measuring/",
        title="Measuring",
        description="How each dimension is read, with which instrument, and how far a reading can be off.",
        template="handbook/measuring.html",
        context={"tables": tables, "words": "glossary/#plus-minus", "recipes": tuple(_recipes(dataset))},
        search=(
            "how to measure",
            "measure a chain",
            "measure a link",
            "caliper",
            "vernier",
            "micrometer",
            "feeler gauge",
            "instruments",
            "plus-minus of a reading",
            "accuracy",
        ),
        kind="measuring",
        in_nav=True,
        tables=tables,
    )


@dataclass(frozen=True, slots=True)
class Recipes:
    """Ways to read one kind of part."""

    id: str
    title: str
    rows: tuple[GoRow, ...]


def _recipes(dataset: Dataset) -> Iterator[Recipes]:
    for part, title in PARTS.items():
        of_part = {id_: each for id_, each in dataset.shelf.recipes.items() if part_of(each) == part}
        rows = tuple(GoRow(f"measuring/{id_}/", each.title) for id_, each in of_part.items())
        if rows:
            yield Recipes(f"read-{part or 'checks'}", title, rows)


def _tables(dataset: Dataset) -> Iterator[Table]:
    for part, title in PARTS.items():
        rows = tuple(
            _row(dataset, id_, recipe)
            for id_, recipe in dataset.shelf.recipes.items()
            if part_of(recipe) == part
        )
        if rows:
            yield Table(f"recipes-{part or 'checks'}", f"{title}: how far off", _COLUMNS, rows)


def part_of(recipe: Recipe) -> str:
    """The part of the first field a recipe is for."""
    return recipe.fields[0].split(".")[0] if recipe.fields else ""


def _row(dataset: Dataset, id_: str, recipe: Recipe) -> Row:
    costs = [cost for cost in reading_costs(dataset, recipe) if not cost.of_club]
    best = min(costs, key=lambda cost: (cost.minus + cost.plus, cost.instrument))
    worst = not_named(dataset, recipe)
    head = Cell(recipe.title, to=f"measuring/{id_}/")
    cells = (
        head,
        Cell(recipe.symbol or SYMBOL_FREE),
        Cell(CONTACTS[recipe.contact]),
        *_ends(best),
        *_ends(worst),
    )
    return Row(cells, id=id_)


def _ends(cost: ReadingCost) -> tuple[Cell, Cell]:
    return length_cell(cost.minus), length_cell(cost.plus)
