"""Every change of a rule, a limit or a word makes a check come out otherwise, or has a reason not to.

The size codes are sampled here; `python -m tests.mutate` changes them all.
"""

from functools import cache

import pytest

from tests.mutate.explained import why_rule_survives, why_size_survives
from tests.mutate.others import other_killed, other_mutants
from tests.mutate.rules import Mutant, joint_killed, joint_mutants
from tests.mutate.sizes import fails, size_killed, size_mutants

pytestmark = pytest.mark.long

SAMPLED = 5


@cache
def rules() -> tuple[tuple[Mutant, bool], ...]:
    """Every change of a rule, and whether it is noticed."""
    joint = ((mutant, joint_killed(mutant)) for mutant in joint_mutants())
    others = ((mutant, other_killed(mutant)) for mutant in other_mutants())
    return (*joint, *others)


def test_every_change_of_a_rule_is_noticed() -> None:
    survivors = [mutant for mutant, dead in rules() if not dead]
    assert [str(mutant) for mutant in survivors if why_rule_survives(mutant) is None] == []


def test_every_reason_to_survive_is_needed() -> None:
    assert [str(mutant) for mutant, dead in rules() if dead and why_rule_survives(mutant)] == []


def test_a_change_of_a_size_code_is_noticed() -> None:
    assert not fails()
    sample = list(size_mutants())[::SAMPLED]
    assert len(sample) > 100
    survivors = [str(m) for m in sample if not size_killed(m) and why_size_survives(m) is None]
    assert survivors == []


def test_the_sizes_are_as_they_were() -> None:
    assert not fails()
