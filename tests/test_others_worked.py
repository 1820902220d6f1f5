"""Every rule for other parts on its limits and for each of its words, against what was worked by hand.

Outside source: tests/others_worked.yaml, worked from the notes on parts of every kind (common practice, no source).
"""

from collections import Counter

import pytest

from generator.model.shipped import Rule
from tests.clubs import shelf
from tests.others_worked import ASKED, Case, cases, file_of, limits, said

OWN: dict[str, Rule] = {id_: rule for rules in shelf().other_rules.values() for id_, rule in rules.items()}
# of a written number of digits: its limits stand among the cases
BY_CASES = ("strip-elongation",)


@pytest.mark.parametrize("case", cases(), ids=lambda case: case.label)
def test_worked(case: Case) -> None:
    assert said(file_of(case.rule), case.dataset).get(case.rule) == case.expected


def test_every_file_of_rules_is_asked() -> None:
    assert shelf().other_rules.keys() == ASKED.keys()


def test_every_limit_is_worked() -> None:
    worked = Counter(limit.rule for limit in limits())
    written = {
        id_: sum((band.low is not None) + (band.high is not None) for band in rule.bands.values())
        for id_, rule in OWN.items()
    }
    assert dict(worked) == {id_: count for id_, count in written.items() if count and id_ not in BY_CASES}


def test_every_word_is_worked() -> None:
    """As many different answers as a rule has; which word gives which is the case's own matter."""
    answers = {case.rule: set[object]() for case in cases()}
    for case in cases():
        answers[case.rule].add(case.expected)
    for id_, rule in OWN.items():
        assert len(answers[id_] - {None}) >= len(set(rule.rungs.values())), id_


def test_every_rule_with_a_condition_is_worked_where_it_is_not_asked() -> None:
    silent = {case.rule for case in cases() if case.expected is None}
    assert {id_ for id_, rule in OWN.items() if rule.when} <= silent
