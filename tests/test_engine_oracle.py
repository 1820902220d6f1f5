"""The engine, arrays of whole numbers over all pairs, against the oracle: plain fractions, one joint at a time.

Both follow the same rules on paper and share no code; tests/test_layers.py sees to that.
"""

from collections import Counter
from functools import cache
from random import Random

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from generator.compute.fit.fits import fit_table
from generator.compute.fit.refused import why_refused
from generator.compute.fit.result import CheckFit, PairFit
from generator.model.dataset import Dataset
from tests import oracle
from tests.engine import Told, dims_of, every_option, reckoned, words_of
from tests.random_joints import RandomJoint, random_joint

SAMPLE = 320
LEAST_SHARE, LEAST_TOUCHED = 0.05, 0.10
NM_PER_MM = 10**6


def _clearance(check: CheckFit) -> tuple[float, float, float] | None:
    span = check.clearance
    return None if span is None else (span.low, span.nominal, span.high)


def engine_checks(told: Told) -> dict[str, object]:
    return {c.id: (c.best, c.worst, _clearance(c)) for c in told.fit.checks}


def oracle_checks(joint: oracle.Joint) -> dict[str, object]:
    found: dict[str, object] = {}
    for name, check in joint.checks.items():
        ends = check.clearance
        # correctly rounded on both sides: a whole number by the scale, a fraction to a float
        clearance = None if ends is None else tuple(float(end * NM_PER_MM) for end in ends if end is not None)
        found[name] = (check.best, check.worst, clearance)
    return found


def assert_agree(dataset: Dataset, fit: PairFit) -> list[oracle.Joint]:
    """Every check of every option of the pair, the option chosen and the range of the pair."""
    options = every_option(dataset, [fit.chain], [fit.link])
    joints, ranks = [], []
    for told in options:
        joint = reckoned(dataset, told.way)
        assert engine_checks(told) == oracle_checks(joint), told.way
        slack = None if joint.slack is None else float(joint.slack * NM_PER_MM)
        assert (told.fit.best, told.fit.worst, told.fit.deciding, told.fit.slack) == (
            joint.best, joint.worst, joint.deciding, slack,
        ), told.way  # fmt: skip
        joints.append(joint)
        ranks.append(oracle.rank(joint, words_of(dataset, told.way)))
    assert (fit.best, fit.worst) == oracle.pair_range(joints)
    chosen = min(range(len(joints)), key=lambda i: (ranks[i], i))
    assert fit.option == options[chosen].fit
    return joints


def look(joint: RandomJoint) -> tuple[PairFit, list[oracle.Joint]]:
    dataset = joint.dataset()
    fit = fit_table(dataset, ["chain"], ["link"])[0]
    refused = why_refused(dataset, dataset.chains["chain"], dataset.links["link"])
    if refused is None:
        return fit, assert_agree(dataset, fit)
    # nothing hides a no-go that other facts prove
    assert fit.refused == refused or (fit.best, fit.worst) == (oracle.NO_GO, oracle.NO_GO)
    return fit, []


def touches(joint: RandomJoint) -> bool:
    """Does an end of some form of some limit lie exactly on zero?"""
    dataset = joint.dataset()
    if why_refused(dataset, dataset.chains["chain"], dataset.links["link"]) is not None:
        return False
    for told in every_option(dataset, ["chain"], ["link"]):
        checks = reckoned(dataset, told.way).checks
        if any(0 in form.over(c.over) for c in checks.values() for edge in c.edges for form in edge.forms):
            return True
    return False


@cache
def sample() -> Counter[str]:
    """The seeded sample: the word of each joint, after engine and oracle were seen to agree on it."""
    found: Counter[str] = Counter()
    for seed in range(SAMPLE):
        fit, joints = look(random_joint(Random(seed)))
        found[fit.word] += 1
        for joint in joints:
            found[f"option {joint.best}..{joint.worst}"] += 1
    return found


@pytest.mark.long
def test_a_seeded_sample_agrees_and_reaches_every_word(capsys: pytest.CaptureFixture[str]) -> None:
    found = sample()
    words = (*oracle.RUNGS, "measure-first", "cannot-judge")
    with capsys.disabled():
        print("\nshare of joints:", ", ".join(f"{word} {found[word] / SAMPLE:.1%}" for word in words))
    for word in words[:-1]:
        assert found[word] >= LEAST_SHARE * SAMPLE, word


@pytest.mark.long
def test_the_sample_lies_on_edges_often_enough(capsys: pytest.CaptureFixture[str]) -> None:
    joints = [random_joint(Random(seed)) for seed in range(0, SAMPLE, 4)]
    share = sum(touches(joint) for joint in joints) / len(joints)
    with capsys.disabled():
        print(f"\njoints exactly on an edge: {share:.1%}")
    assert share >= LEAST_TOUCHED


@pytest.mark.long
@settings(
    max_examples=120, deadline=None, derandomize=True, database=None, suppress_health_check=list(HealthCheck)
)
@given(st.randoms(use_true_random=False))
def test_engine_and_oracle_agree(random: Random) -> None:
    look(random_joint(random))


@pytest.mark.parametrize("word", ["link_size", "chain_size", "kind", "made_for", "plate_fit", "condition"])
def test_no_verdict_where_a_part_is_not_known(word: str) -> None:
    part, field = {
        "link_size": ("link", "size_code"),
        "chain_size": ("chain", "size_code"),
        "kind": ("chain", "kind"),
        "made_for": ("link", "made_for"),
        "plate_fit": ("link", "plate_fit"),
        "condition": ("link", "condition"),
    }[word]
    joint = random_joint(Random(1))
    dataset = joint.dataset()
    told = every_option(dataset, ["chain"], ["link"])[0]
    words = words_of(dataset, told.way)
    assert oracle.refused(dims_of(dataset, told.way), words) is None
    assert oracle.refused(dims_of(dataset, told.way), {**words, word: "unknown"}) is not None
    joint.pieces[part].words[field] = "unknown"
    fit = fit_table(joint.dataset(), ["chain"], ["link"])[0]
    assert (fit.word, fit.best, fit.worst, fit.option) == ("cannot-judge", None, None, None)
