"""The deck of a club: every set, in the order they are needed."""

from collections.abc import Iterator

from generator.compute.all_fits import AllFits
from generator.model.dataset import Dataset
from generator.render.cards.bike import bike_set
from generator.render.cards.card import CardSet, Foot, Origin, Run, bold
from generator.render.cards.deck import Deck
from generator.render.cards.desk import Desk
from generator.render.cards.meaning import meaning_set
from generator.render.cards.measuring import measuring_sets
from generator.render.cards.ride import ride_sets
from generator.render.cards.size import size_sets
from generator.render.cards.stock import label_sets, tin_sets
from generator.render.cards.strips import strip_sheets
from generator.render.cards.trail import trail_sets


def deck_of(dataset: Dataset, fits: AllFits) -> Deck:
    """Under each side stands whose card it is, the day it speaks for, and which data it was made from."""
    desk = Desk(dataset, fits, dataset.club.web_address or "")
    places = {key: f"{file}:{line} " for key, (file, line) in dataset.places.items()}
    places["club", dataset.club.id] = "club.yaml "
    invented = (bold("Invented. "),) if dataset.club.invented else ()
    made = f"{dataset.as_of.isoformat()}, data {dataset.data_version}"
    name = Run(dataset.club.name, origin=Origin("club", dataset.club.id, "name"))
    foot, short = Foot((*invented, name, Run(f", {made}"))), Foot((*invented, Run(made)))
    strips = strip_sheets(desk, "".join(run.text for run in foot.text))
    return Deck(dataset.club.name, foot, short, tuple(_sets(desk)), tuple(strips), places)


def _sets(desk: Desk) -> Iterator[CardSet]:
    for bike in desk.dataset.bikes.values():
        yield bike_set(desk, bike)
    yield from trail_sets(desk)
    yield from ride_sets(desk)
    yield meaning_set(desk)
    yield from size_sets(desk)
    yield from measuring_sets(desk)
    yield from tin_sets(desk)
    yield from label_sets(desk)
