"""Three more clubs by a seeded generator: they pass the validation and every pair gets a verdict."""

from collections.abc import Callable
from random import Random

import pytest

from generator.compute.fit.fits import explain_pair, fit_table
from generator.model.dataset import Dataset
from generator.validate.dataset import build_dataset
from tests import oracle
from tests.club_maker import forty_bikes, inches_and_gaps, one_bike
from tests.clubs import Raw, checked, loaded, shelf_files
from tests.handbook import demo, demo_fits
from tests.test_engine_oracle import assert_agree

CLUBS: dict[str, Callable[[], Raw]] = {
    "one bike": one_bike,
    "inches, everything unknown": inches_and_gaps,
    "forty bikes": forty_bikes,
}
by_name = pytest.mark.parametrize("name", CLUBS)


@by_name
def test_the_club_has_no_problem_of_any_level(name: str) -> None:
    dataset, problems = build_dataset(loaded(CLUBS[name]()), shelf_files())
    assert problems == ()
    assert dataset is not None and dataset.club.invented


@by_name
def test_every_pair_has_a_verdict_and_twice_the_same(name: str) -> None:
    dataset = checked(CLUBS[name]())
    fits = fit_table(dataset)
    assert [(f.chain, f.link) for f in fits] == [(c, li) for c in dataset.chains for li in dataset.links]
    assert all(fit.refused is None and fit.option is not None for fit in fits)
    assert fits == fit_table(checked(CLUBS[name]()))


@by_name
def test_pairs_taken_at_random_agree_with_the_oracle(name: str) -> None:
    dataset = checked(CLUBS[name]())
    random = Random(name)
    for _ in range(8):
        chain, link = random.choice(list(dataset.chains)), random.choice(list(dataset.links))
        fit, options = explain_pair(dataset, chain, link)
        assert fit == fit_table(dataset, [chain], [link])[0]
        assert fit.option == options[0]
        assert_agree(dataset, fit)


def words(dataset: Dataset) -> set[str]:
    return {fit.word for fit in fit_table(dataset)}


def test_a_club_that_knows_nothing_is_promised_nothing() -> None:
    assert words(checked(inches_and_gaps())) == {"measure-first", "no-go"}


def test_a_large_club_meets_every_rung() -> None:
    assert words(checked(forty_bikes())) == {*oracle.RUNGS, "measure-first"}


@pytest.mark.parametrize("many", [0, 1 << 60])
def test_few_options_are_judged_all_rows_at_once_and_many_row_by_row_to_the_same(
    many: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The demo has cases of both kinds, trials, and rules of several clauses."""
    monkeypatch.setattr("generator.compute.fit.judge.MANY", many)
    assert fit_table(demo()) == demo_fits()
