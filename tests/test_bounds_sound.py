"""No bound lies: whatever a caliper read and a hand felt of a joint, its true verdict lies within the range that is told.

Outside source: the true joint itself, judged from exact lengths by rules that other tests hold to hand-worked pairs.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from random import Random
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from generator.model.dataset import Dataset
from generator.model.quantity import Quantity
from tests import truth
from tests.engine import every_option
from tests.side_by_side import Rungs, side_by_side

# settled by words that a dry fit itself changes
OF_THE_TRIAL = ("dry-fit", "clip-history", "plate-pressed-before", "rule-of-thumb")
# so many joints are judged in the same arrays
TOGETHER = 100


def checks_of(dataset: Dataset) -> Rungs:
    """By way and check; the plate where it was put."""
    found: Rungs = {}
    for told in every_option(dataset, ["chain"], ["link"]):
        if told.way.seat != "clip" and told.way.spacer is None and told.way.seals in ("fitted", "none"):
            found |= {(told.way, check.id): (check.best, check.worst) for check in told.fit.checks}
    return found


def kinder(told: truth.Told, true: Rungs, said: Rungs) -> list[object]:
    """Checks whose true rung lies outside what is told; of a plate nobody looked at only what does not hang on it."""
    placed = any("width_at_joint" in trial.dims for trial in told.told.trials.values())
    pressed = told.truth.links["link"].record.plate_fit == "press"
    outside: list[object] = []
    for key, (best, worst) in said.items():
        hangs = (
            pressed
            and not placed
            and key[1] in ("squeeze", "backing", "place", "clip-goes-on", "stick-out-other")
        )
        if key in true and key[1] not in OF_THE_TRIAL and not hangs and not best <= true[key][0] <= worst:
            outside.append((key, true[key], (best, worst)))
    return outside


@pytest.mark.parametrize("seed", range(60))
def test_the_true_rung_lies_in_the_range(seed: int) -> None:
    joint = truth.told(Random(seed))
    assert kinder(joint, checks_of(joint.truth), checks_of(joint.told)) == []


def both_of(joints: Sequence[truth.Told]) -> Iterator[tuple[Rungs, Rungs]]:
    """By joint the true rungs and those told, all judged at once."""
    found = side_by_side([dataset for joint in joints for dataset in (joint.truth, joint.told)])
    return zip(found[::2], found[1::2], strict=True)


def test_side_by_side_they_are_judged_as_alone() -> None:
    joints = [truth.told(Random(seed)) for seed in range(60, 100)]
    alone = [(checks_of(joint.truth), checks_of(joint.told)) for joint in joints]
    assert list(both_of(joints)) == alone


@pytest.mark.long
def test_so_they_do_a_hundred_thousand_times() -> None:
    """So many rungs of checks, each of a joint drawn anew with its hand and its caliper."""
    rungs = seed = 0
    while rungs < 100_000:
        joints = [truth.told(Random(each)) for each in range(seed, seed + TOGETHER)]
        for joint, (true, said) in zip(joints, both_of(joints), strict=True):
            assert kinder(joint, true, said) == [], seed
            rungs += len(said)
            seed += 1


def narrower(random: Random, dataset: Dataset) -> Dataset:
    """One reading taken again, closer: an interval within the one before."""
    parts = [("chains", "chain"), ("links", "link"), ("clips", "clip"), ("seals", "seals")]
    table, id_ = random.choice([each for each in parts if each[1] in getattr(dataset, each[0])])
    part = getattr(dataset, table)[id_]
    wide = [name for name, q in sorted(part.dims.items()) if q.high > q.low]
    if not wide:
        return dataset
    name = random.choice(wide)
    q = part.dims[name]
    low = random.randint(q.low, q.high)
    high = random.randint(low, q.high)
    closer = Quantity(low, min(max(q.nominal, low), high), high, q.evidence)
    read: dict[str, Any] = {
        table: {**getattr(dataset, table), id_: replace(part, dims={**part.dims, name: closer})}
    }
    return replace(dataset, **read)


@settings(
    max_examples=40, deadline=None, derandomize=True, database=None, suppress_health_check=list(HealthCheck)
)
@given(st.randoms(use_true_random=False))
def test_more_evidence_never_widens(random: Random) -> None:
    """A closer reading, and then a dry fit besides."""
    joint = truth.told(random)
    without = replace(joint.told, trials={})
    for before, after in ((without, narrower(random, without)), (without, _with_felt(joint))):
        wide, close = checks_of(before), checks_of(after)
        for key in wide.keys() & close.keys():
            if key[1] not in OF_THE_TRIAL and close[key][0] <= close[key][1]:
                assert wide[key][0] <= close[key][0] <= close[key][1] <= wide[key][1], key


def _with_felt(joint: truth.Told) -> Dataset:
    """Of the dry fit only what the hand felt: where the plate was put is another joint."""
    trials = {id_: replace(trial, dims={}) for id_, trial in joint.told.trials.items()}
    return replace(joint.told, trials=trials)
