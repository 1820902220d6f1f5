"""How old seals and clips in their bags are, against how long they keep (rubber: groups of ISO 2230)."""

from collections.abc import Iterator
from datetime import date
from typing import Literal

from generator.model.chain_parts import Clip, SealSet
from generator.model.dataset import Dataset, Part

Age = Literal["look", "look-for-rust", "too-old", "not-dated"]


def _after(day: date, years: int) -> date:
    """The same day so many years on; 29 February counts as the day after."""
    try:
        return day.replace(year=day.year + years)
    except ValueError:
        return date(day.year + years, 3, 1)


def age_of(dataset: Dataset, seal: Part[SealSet]) -> Age | None:
    """None where it is young enough; rubber nobody named keeps as nitrile does; a washer keeps for good."""
    record = seal.record
    if record.shape == "washer":
        return None
    if record.made_on is None:
        return "not-dated"
    rubber = record.rubber if record.rubber != "unknown" else "nitrile"
    life = dataset.shelf.mending.shelf_lives[rubber]
    if life.longer is not None and dataset.as_of >= _after(record.made_on, life.years + life.longer):
        return "too-old"
    return "look" if dataset.as_of >= _after(record.made_on, life.years) else None


def too_old(dataset: Dataset, seal: Part[SealSet]) -> bool:
    return age_of(dataset, seal) == "too-old"


def clip_age_of(dataset: Dataset, clip: Part[Clip]) -> Age | None:
    """Steel does not go off by the calendar, it rusts: a clip that nobody dated asks for nothing."""
    years = dataset.shelf.mending.shelf_lives["clip"].years
    bought = clip.record.bought_on
    return "look-for-rust" if bought is not None and dataset.as_of >= _after(bought, years) else None


def aged(dataset: Dataset) -> Iterator[tuple[str, str, Age]]:
    """Seals and clips to look at before they are packed."""
    ages = [("seal", seal.id, seal.record.count, age_of(dataset, seal)) for seal in dataset.seals.values()]
    ages += [
        ("clip", clip.id, clip.record.count, clip_age_of(dataset, clip)) for clip in dataset.clips.values()
    ]
    for kind, id_, count, found in ages:
        if found is not None and count:
            yield kind, id_, found
