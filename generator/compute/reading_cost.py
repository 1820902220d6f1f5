"""What instrument and way of reading cost: how far a reading of one dimension can be off, instrument by instrument."""

from collections.abc import Iterator
from dataclasses import dataclass
from math import ceil

from generator.model.club import Instrument
from generator.model.dataset import Dataset
from generator.model.reading import Reading
from generator.model.shipped import InstrumentKind, Recipe
from generator.model.written import Written
from generator.validate.measure import instrument_error


@dataclass(frozen=True, slots=True)
class ReadingCost:
    """In nm: the instrument's own plus-minus, and how far below and above the reading the truth may lie.

    `fits` is False where the instrument has no faces for this way of reading, and counts as the worst that has.
    """

    instrument: str
    title: str
    of_club: bool
    fits: bool
    own: int
    minus: int
    plus: int


def reading_costs(dataset: Dataset, recipe: Recipe) -> tuple[ReadingCost, ...]:
    """A recipe for gauges carries its whole plus-minus itself: one line, whatever instrument is named."""
    if recipe.contact == "gauge":
        return (_cost(dataset, recipe, "", "feelers, drill shanks, glass, rule or tape", None, False, True),)
    return (*_shipped(dataset, recipe), *_of_club(dataset, recipe))


def closest_possible(reading: Reading, dataset: Dataset) -> int | None:
    """The plus-minus in nm that the best instrument at hand reaches, the way of reading included; None for what is
    not read with an instrument, and where the club has none that can."""
    best = best_at_hand(dataset, reading.kind, reading.field)
    return None if best is None else max(best.minus, best.plus)


def best_owned(dataset: Dataset, kind: str, field: str) -> str | None:
    """The id of the closest instrument at hand for a field, or what stands for gauges; None where there is none."""
    best = best_at_hand(dataset, kind, field)
    return None if best is None else best.instrument or best.title


def best_at_hand(dataset: Dataset, kind: str, field: str) -> ReadingCost | None:
    """Of what the club lists; a club that lists nothing yet is taken to have any kind that ships."""
    recipe = dataset.shelf.recipe_by_field.get(f"{kind}.{field}")
    if recipe is None or not _gauges_there(dataset, recipe):
        return None
    own = bool(dataset.club.instruments) and recipe.contact != "gauge"
    costs = [cost for cost in reading_costs(dataset, recipe) if cost.fits and cost.of_club >= own]
    return min(costs, key=lambda cost: max(cost.minus, cost.plus), default=None)


def instrument_lacking(dataset: Dataset, reading: Reading) -> str | None:
    """The kind of instrument without which nobody reads this, where the club lists none of it."""
    recipe = dataset.shelf.recipe_by_field.get(f"{reading.kind}.{reading.field}")
    return None if recipe is None or _gauges_there(dataset, recipe) else recipe.needs


def _gauges_there(dataset: Dataset, recipe: Recipe) -> bool:
    """Some things are read with feelers only; drill shanks, glass, rule and tape are in any shed."""
    kinds = {instrument.kind for instrument in dataset.club.instruments.values()}
    return recipe.needs is None or not kinds or recipe.needs in kinds


class ClosestPossible:
    """The same for many readings of one club, each dimension worked out once."""

    def __init__(self, dataset: Dataset) -> None:
        self._dataset = dataset
        self._known: dict[tuple[str, str], int | None] = {}

    def __call__(self, reading: Reading) -> int | None:
        dimension = (reading.kind, reading.field)
        if dimension not in self._known:
            self._known[dimension] = closest_possible(reading, self._dataset)
        return self._known[dimension]


def not_named(dataset: Dataset, recipe: Recipe) -> ReadingCost:
    """A reading that does not say what it was read with gets the worst."""
    return _cost(dataset, recipe, "", "instrument not named", None, False, True)


def _shipped(dataset: Dataset, recipe: Recipe) -> Iterator[ReadingCost]:
    for id_, kind in dataset.shelf.instruments.items():
        if _has_faces(kind, recipe.contact):
            yield _cost(dataset, recipe, id_, kind.title, Instrument(kind=id_), False, True)


def _of_club(dataset: Dataset, recipe: Recipe) -> Iterator[ReadingCost]:
    for id_, own in sorted(dataset.club.instruments.items()):
        kind = dataset.shelf.instruments.get(own.kind)
        fits = _has_faces(own, recipe.contact) or (kind is not None and _has_faces(kind, recipe.contact))
        yield _cost(dataset, recipe, id_, own.name or id_, own, True, fits)


def _cost(
    dataset: Dataset,
    recipe: Recipe,
    id_: str,
    title: str,
    instrument: Instrument | None,
    of_club: bool,
    fits: bool,
) -> ReadingCost:
    own = instrument_error(recipe.contact, instrument, dataset.shelf)
    minus, plus = (own + extra.readings[0] for extra in (recipe.minus, recipe.plus))
    return ReadingCost(id_, title, of_club, fits, ceil(own), ceil(minus), ceil(plus))


def _has_faces(instrument: Instrument | InstrumentKind, contact: str) -> bool:
    written: Written | None = getattr(instrument, contact)
    return written is not None and not written.is_unknown
