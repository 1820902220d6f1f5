"""How old seals and clips in their bags are, against how long they keep (groups of ISO 2230)."""

from collections.abc import Iterator
from datetime import date
from typing import Literal

from generator.model.chain_parts import SealSet
from generator.model.dataset import Dataset, Part

Age = Literal["look", "too-old", "not-dated"]


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
    if dataset.as_of >= _after(record.made_on, life.years + life.longer):
        return "too-old"
    return "look" if dataset.as_of >= _after(record.made_on, life.years) else None


def too_old(dataset: Dataset, seal: Part[SealSet]) -> bool:
    return age_of(dataset, seal) == "too-old"


def aged(dataset: Dataset) -> Iterator[tuple[str, str, Age]]:
    """Seals to look at before they are packed."""
    for id_, seal in dataset.seals.items():
        found = age_of(dataset, seal)
        if found is not None and seal.record.count:
            yield "seal", id_, found
