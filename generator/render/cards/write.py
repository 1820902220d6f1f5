"""The deck of a club: every set, in the order they are needed."""

from collections.abc import Iterator

from generator.compute.all_fits import AllFits
from generator.model.dataset import Dataset
from generator.render.cards.bike import bike_set
from generator.render.cards.card import CardSet, Foot, Origin, Run, bold
from generator.render.cards.deck import Deck
from generator.render.cards.desk import Desk
from generator.render.cards.trail import trail_sets
from generator.render.cards.words import breakable


def deck_of(dataset: Dataset, fits: AllFits) -> Deck:
    desk = Desk(dataset, fits, dataset.club.web_address or "")
    places = {key: f"{file}:{line} " for key, (file, line) in dataset.places.items()}
    return Deck(dataset.club.name, _foot(dataset), tuple(_sets(desk)), places)


def _sets(desk: Desk) -> Iterator[CardSet]:
    for bike in desk.dataset.bikes.values():
        yield bike_set(desk, bike)
    yield from trail_sets(desk)


def _foot(dataset: Dataset) -> Foot:
    """Whose card it is, the day it speaks for, and which data it was made from."""
    name = Run(breakable(dataset.club.name), origin=Origin("club", dataset.club.id, "name"))
    made = Run(f", {dataset.as_of.isoformat()}, data {dataset.data_version}")
    invented = (bold("Invented. "),) if dataset.club.invented else ()
    return Foot((*invented, name, made))
