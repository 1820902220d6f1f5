"""The quick verdicts of all options are those that a close look at each gives."""

from dataclasses import replace
from random import Random

import numpy as np
import pytest

from generator.compute.fit.evaluate import NO_SLACK
from generator.compute.fit.judge import Judge
from generator.compute.fit.options import PARTS, bench
from generator.compute.fit.quickly import distinct, parts_of
from generator.load.folder import load_club
from generator.model.dataset import Dataset
from generator.validate.dataset import build_dataset
from tests.club_maker import forty_bikes, inches_and_gaps
from tests.clubs import DATA, checked, shelf_files
from tests.random_joints import random_joint


def demo() -> Dataset:
    dataset, _ = build_dataset(load_club(DATA / "demo"), shelf_files())
    assert dataset is not None
    return dataset


def assert_same(dataset: Dataset) -> int:
    judge = Judge(dataset, bench(dataset))
    quick = judge.verdicts()
    for closely in judge.closely(np.arange(len(judge.options))):
        judged, at = closely.judged, closely.index
        assert np.array_equal(quick.best[at], judged.best)
        assert np.array_equal(quick.worst[at], judged.worst)
        by_word = np.array([check.category is not None for check in closely.plan.checks])[judged.deciding]
        unjudged = np.where(by_word, 0, -NO_SLACK)
        assert np.array_equal(quick.prefer[at], np.where(judged.slack != NO_SLACK, judged.slack, unjudged))
        assert sorted(at[sorted(closely.contradicted)]) == [n for n in at.tolist() if quick.contradicted[n]]
    return len(judge.options)


def test_of_the_demo_with_its_trials() -> None:
    dataset = demo()
    assert dataset.trials
    assert assert_same(dataset) > 1000


@pytest.mark.parametrize("raw", [forty_bikes, inches_and_gaps])
def test_of_other_clubs(raw: object) -> None:
    assert callable(raw)
    assert_same(checked(raw()))


@pytest.mark.parametrize("seed", range(0, 300, 10))
def test_of_joints_at_random(seed: int) -> None:
    dataset = random_joint(Random(seed)).dataset()
    if len(Judge(dataset, bench(dataset)).options):
        assert_same(dataset)


def test_one_option_stands_for_all_with_the_same_parts() -> None:
    dataset = demo()
    options = Judge(dataset, bench(dataset)).options
    everyone = np.arange(len(options))
    for parts in ((), ("chain",), ("link", "clip"), ("chain", "link"), ("chain", "link", "clip"), PARTS):
        some, inverse = distinct([getattr(options, part) for part in parts], len(options))
        stands_for = everyone if some is None or inverse is None else some[inverse]
        for part in parts:
            assert np.array_equal(getattr(options, part)[stands_for], getattr(options, part))
        found = {tuple(int(getattr(options, part)[n]) for part in parts) for n in range(len(options))}
        assert some is None or len(some) == len(found)


def test_an_unlisted_category_may_look_at_every_part() -> None:
    dataset = demo()
    judge = Judge(dataset, bench(dataset))
    plan = next(judge.plans.plan(case) for case, _ in judge.cases if dict(case)["stopped"] == "no")
    half = next(check for check in plan.checks if check.category == "half")
    assert parts_of(plan, half) == ("link",)
    assert parts_of(plan, replace(half, category="something new")) == PARTS
