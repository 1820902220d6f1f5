"""What is worked out once for many joints, and what is worked out some parts at a time, comes out as if it were not.

Outside source: none; each answer is held against the same one made the long way.
"""

from collections.abc import Callable
from dataclasses import replace
from random import Random
from typing import Any

import pytest

from generator.compute.all_fits import all_fits
from generator.compute.fit import alike, fits
from generator.compute.fit.alike import Alike
from generator.compute.fit.fits import fit_table
from generator.compute.others import clip_links, seals
from generator.model.dataset import Dataset
from tests.club_maker import club, small_club
from tests.clubs import checked
from tests.handbook import demo

CLUBS: dict[str, Callable[[], Dataset]] = {
    "demo": demo,
    "sealed and plain": lambda: checked(club(11, bikes=9, chains=6, links=24, carried=9)),
    "one in ten unread": lambda: checked(small_club(Random(3))),
}


def unplanned(_dataset: Dataset, _repairs: Any) -> Any:
    """Who carries what is not asked here."""


@pytest.mark.parametrize(
    "name", [pytest.param(name, marks=[pytest.mark.long] if name == "demo" else []) for name in CLUBS]
)
def test_checks_that_come_out_alike_are_the_same_looked_at_one_by_one(
    name: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    dataset = CLUBS[name]()
    together = all_fits(dataset, unplanned)
    monkeypatch.setattr(Alike, "same", lambda _store, _parts: None)
    assert all_fits(dataset, unplanned) == together


def test_most_checks_of_a_club_are_some_other_joint_s_too(monkeypatch: pytest.MonkeyPatch) -> None:
    """Or the store would be of no use."""
    found = {id(check) for fit in fit_table(demo()) if fit.option for check in fit.option.checks}
    monkeypatch.setattr(Alike, "same", lambda _store, _parts: None)
    alone = {id(check) for fit in fit_table(demo()) if fit.option for check in fit.option.checks}
    assert len(found) < len(alone) / 2


def test_a_part_keeps_its_number_while_others_come_and_go() -> None:
    """A part that nobody else holds any more must not lend its identity to the next one."""
    store = Alike()
    numbers = [store.number(object()) for _ in range(50)]
    assert len(set(numbers)) == len(numbers)


def test_a_few_parts_at_a_time_give_what_all_at_once_give(monkeypatch: pytest.MonkeyPatch) -> None:
    dataset = CLUBS["sealed and plain"]()
    whole = all_fits(dataset)
    monkeypatch.setattr("generator.compute.all_fits.PAIRS_AT_A_TIME", 1)
    monkeypatch.setattr(fits, "LOOKED_AT", 7)
    monkeypatch.setattr(clip_links, "MET_AT_A_TIME", 1)
    monkeypatch.setattr(seals, "JOINTS_AT_A_TIME", 1)
    assert all_fits(dataset) == whole


def test_stores_are_kept_apart_where_records_differ() -> None:
    of, dataset = alike.AlikeOf(), demo()
    assert of(dataset) is of(replace(dataset, bikes={}))
    assert of(dataset) is not of(replace(dataset, trials={}))
    assert of(dataset) is not of(replace(dataset, links=dict(dataset.links)))
