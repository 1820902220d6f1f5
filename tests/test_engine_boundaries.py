"""On every limit, one nanometre inside and one outside; and every word: the engine against the oracle.

The limits and the words are the oracle's (common practice, no source, but for those the rules name).
"""

from collections import Counter

import pytest

from tests import oracle
from tests.boundaries import boundaries, pitch_clubs, word_clubs
from tests.engine import Told, dims_of, every_option, reckoned, words_of
from tests.facts.moved import limits
from tests.mutate.rules import table

LABELS = list(boundaries())


@pytest.mark.parametrize("label", LABELS)
def test_one_nanometre_decides(label: str) -> None:
    boundary = boundaries()[label]
    rungs = {}
    for side, joint in boundary.joints:
        told = next(t for t in every_option(joint.dataset(), ["chain"], ["link"]) if t.way == boundary.way)
        check = next(check for check in told.fit.checks if check.id == boundary.check)
        rungs[side] = (check.best, check.worst)
    assert rungs == {0: boundary.on, 1: boundary.on, -1: boundary.beyond}
    assert boundary.on != boundary.beyond


def assert_same(told: Told, joint: oracle.Joint) -> None:
    assert {c.id: (c.best, c.worst) for c in told.fit.checks} == {
        name: (check.best, check.worst) for name, check in joint.checks.items()
    }
    assert (told.fit.best, told.fit.worst, told.fit.deciding) == (joint.best, joint.worst, joint.deciding)


@pytest.mark.parametrize("label", [*word_clubs(), *pitch_clubs()])
def test_every_word_and_the_pitch(label: str) -> None:
    dataset = (word_clubs() | pitch_clubs())[label]
    options = every_option(dataset, ["chain"], ["link"])
    for told in options:
        assert_same(told, reckoned(dataset, told.way))
    # what is refused has no options
    way = options[0].way if options else None
    assert way is not None and oracle.refused(dims_of(dataset, way), words_of(dataset, way)) is None


def test_every_check_with_limits_has_a_joint_on_one() -> None:
    checks = Counter(boundary.check for boundary in boundaries().values())
    rules = table().rules
    with_limits = {rules[id_].check or id_ for id_, _, _ in limits(rules)}
    # beyond the limit of a gap nothing is judged; these are worked by hand in tests/facts/never_kinder.yaml
    by_hand = {"pitch", "looks-sealed", "stick-out-other-unread"}
    assert set(checks) | by_hand == with_limits
