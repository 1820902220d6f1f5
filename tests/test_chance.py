"""Chances stand only where the deciding check alone makes the verdict, sum to 100 and keep within the verdict."""

from collections.abc import Sequence
from random import Random

import pytest

from generator.compute.fit.chance import whole_percents
from generator.compute.fit.fits import _decides_alone, explain_pair
from generator.compute.fit.result import CheckFit, OptionFit, PairFit
from generator.model.shipped import RUNGS, Group
from tests.handbook import demo, demo_fits
from tests.random_joints import random_joint


def assert_alone(fit: PairFit, options: Sequence[OptionFit]) -> None:
    """Nothing but the deciding check is left open, by the ranges that are printed."""
    assert fit.option is not None and fit.chance_percent is not None
    assert fit.best is not None and fit.worst is not None
    check = fit.option.deciding_check
    assert all(each.worst <= check.best for each in fit.option.checks if each is not check)
    assert all(option.best >= fit.worst for option in options[1:])
    assert (fit.best, fit.worst) == (check.best, check.worst)
    assert sum(fit.chance_percent.values()) == 100
    outside = [word for rung, word in enumerate(RUNGS) if not fit.best <= rung <= fit.worst]
    assert {fit.chance_percent[word] for word in outside} <= {0}


def test_in_the_demo_no_chance_stands_beside_another_open_check() -> None:
    with_chances = [fit for fit in demo_fits() if fit.chance_percent]
    assert with_chances
    for fit in with_chances:
        if fit.best != fit.worst:
            assert_alone(fit, explain_pair(demo(), fit.chain, fit.link)[1])


@pytest.mark.parametrize("seed", range(60))
def test_at_random_joints(seed: int) -> None:
    dataset = random_joint(Random(seed)).dataset()
    fit, options = explain_pair(dataset, "chain", "link")
    if fit.chance_percent:
        assert_alone(fit, options)


def _option(*checks: tuple[Group, int, int]) -> OptionFit:
    """The first check decides."""
    fits = tuple(CheckFit(str(n), str(n), g, b, w, "measured") for n, (g, b, w) in enumerate(checks))
    return OptionFit(
        *("clip", None, "none", None, "made", None),
        best=fits[0].best,
        worst=fits[0].worst,
        deciding="0",
        slack=None,
        adds_up=False,
        trials=(),
        went_together=False,
        checks=fits,
    )


def test_when_the_deciding_check_makes_the_verdict_alone() -> None:
    assert _decides_alone(_option(("pin", 0, 2), ("clip", 0, 0)), 3)
    # another check could be worse
    assert not _decides_alone(_option(("pin", 0, 2), ("clip", 0, 1)), 3)
    assert _decides_alone(_option(("pin", 1, 2), ("clip", 0, 1)), 3)
    # another way could be better
    assert not _decides_alone(_option(("pin", 0, 2), ("clip", 0, 0)), 1)
    assert _decides_alone(_option(("pin", 0, 2), ("clip", 0, 0)), 2)


def test_small_faults_that_could_add_up_leave_no_chance() -> None:
    three: tuple[tuple[Group, int, int], ...] = (("clip", 1, 1), ("seal", 1, 1), ("body", 1, 1))
    assert not _decides_alone(_option(("pin", 1, 2), *three), 3)
    assert _decides_alone(_option(("pin", 1, 2), *three[:2]), 3)
    # a check of a group that counts already adds no group
    assert _decides_alone(_option(("clip", 1, 2), *three), 3)
    # beyond get-home nothing adds up
    assert _decides_alone(_option(("pin", 2, 3), *three), 3)


def test_no_share_of_nothing_is_rounded_up() -> None:
    assert whole_percents([0.0, 1 / 3, 2 / 3, 0.0]) == [0, 33, 67, 0]
