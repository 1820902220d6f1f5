"""Cards and sheets for the bench: what to read next, then every reading of a joint, with room for a pencil."""

from collections.abc import Iterator

from generator.compute.reading_cost import ReadingCost, reading_costs
from generator.compute.worth_doing import worth_doing
from generator.model.dataset import Dataset
from generator.model.shipped import Recipe
from generator.render.cards.card import Blank, Block, CardSet, Run, Says, Section, Text, bold, plain, tag
from generator.render.cards.code import code
from generator.render.cards.desk import Desk
from generator.render.cards.words import cautions, millimetres
from generator.render.say.acts import act_title
from generator.render.say.names import PART_WORDS, dimension_title
from generator.render.say.worth import pairs_in_words

PAGE = "worth-doing/"
_NEXT = 12
_KINDS = ("chain", "link", "clip", "seal")


def measuring_sets(desk: Desk) -> Iterator[CardSet]:
    yield CardSet(
        "measuring",
        "next",
        (bold("Bench"),),
        "What to do next",
        PAGE,
        (Section("Do next", (*_next(desk), *code(desk.site, PAGE))),),
    )
    sections = tuple(
        Section(f"A joint: the {PART_WORDS[kind]}", tuple(_readings(desk.dataset, kind))) for kind in _KINDS
    )
    yield CardSet("measuring", "joint", (bold("Bench"),), "Readings of a joint", "measuring/", sections)


def _next(desk: Desk) -> Iterator[Block]:
    """In the order that settles most, with what the club owns."""
    yield from cautions(desk.dataset, "engine-off", why=False)
    found = worth_doing(desk.fits.pairs, desk.fits.acts).worth[:_NEXT]
    if not found:
        yield Says(plain("Nothing that the club can do would settle a pair."))
    for worth in found:
        yield Blank((bold(act_title(desk.dataset, worth.act)),), plain(f"For {pairs_in_words(worth.pairs)}."))


def _best(dataset: Dataset, recipe: Recipe) -> ReadingCost | None:
    """Of the club's instruments, or of gauges that every club has."""
    costs = [
        cost for cost in reading_costs(dataset, recipe) if cost.fits and (cost.of_club or not cost.instrument)
    ]
    return min(costs, key=lambda cost: max(cost.minus, cost.plus), default=None)


def instrument(dataset: Dataset, recipe: Recipe) -> Text:
    """The best the club has for it, and how close that comes."""
    best = _best(dataset, recipe)
    if best is None:
        return plain("The club has no instrument for it.")
    name = (tag(best.instrument),) if best.instrument else plain("Gauges or tape")
    return (*name, Run(f" ±{millimetres(max(best.minus, best.plus))}."))


def _readings(dataset: Dataset, kind: str) -> Iterator[Block]:
    """The dimensions of one part in the order of their recipes, with the instrument that reads them best."""
    yield Blank(plain(f"Label of the {PART_WORDS[kind]}, date, instrument"))
    for recipe in dataset.shelf.recipes.values():
        field = next((name.partition(".")[2] for name in recipe.fields if name.startswith(f"{kind}.")), None)
        if field is not None:
            symbol = f" ({recipe.symbol})" if recipe.symbol else ""
            title = dimension_title(dataset, kind, field)
            yield Blank((bold(title), Run(symbol)), instrument(dataset, recipe))
