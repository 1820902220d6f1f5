"""The deck of a club: every set, in the order they are needed."""

from collections.abc import Iterator

from generator.compute.all_fits import AllFits
from generator.model.dataset import Dataset
from generator.render.cards.bike import bike_set
from generator.render.cards.card import CardSet, Foot, Origin, Run, bold
from generator.render.cards.deck import Deck
from generator.render.cards.desk import Desk
from generator.render.cards.words import breakable


def deck_of(dataset: Dataset, fits: AllFits, site: str) -> Deck:
    """`site` is where the handbook is published, with a slash at its end, or nothing."""
    desk = Desk(dataset, fits, site)
    return Deck(dataset.club.name, _foot(dataset), tuple(_sets(desk)))


def _sets(desk: Desk) -> Iterator[CardSet]:
    for bike in desk.dataset.bikes.values():
        yield bike_set(desk, bike)


def _foot(dataset: Dataset) -> Foot:
    """Whose card it is, the day it speaks for, and which data it was made from."""
    name = Run(breakable(dataset.club.name), origin=Origin("club", dataset.club.id, "name"))
    made = Run(f", {dataset.as_of.isoformat()}, data {dataset.data_version}")
    invented = (bold("Invented. "),) if dataset.club.invented else ()
    return Foot((*invented, name, made))
