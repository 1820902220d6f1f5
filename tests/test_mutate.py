"""Every change of a rule, a limit or a word of the joint makes a check come out otherwise, or has a reason not to.

The size codes are sampled here; `python -m tests.mutate` changes them all.
"""

from tests.mutate.explained import why_rule_survives, why_size_survives
from tests.mutate.rules import killed, rule_mutants
from tests.mutate.sizes import fails, size_mutants
from tests.mutate.sizes import killed as size_killed

SAMPLED = 5


def test_every_change_of_a_rule_is_noticed() -> None:
    survivors = [mutant for mutant in rule_mutants() if not killed(mutant)]
    assert [str(mutant) for mutant in survivors if why_rule_survives(mutant) is None] == []


def test_every_reason_to_survive_is_needed() -> None:
    needless = [str(mutant) for mutant in rule_mutants() if why_rule_survives(mutant) and killed(mutant)]
    assert needless == []


def test_a_change_of_a_size_code_is_noticed() -> None:
    assert not fails()
    sample = list(size_mutants())[::SAMPLED]
    assert len(sample) > 100
    survivors = [str(m) for m in sample if not size_killed(m) and why_size_survives(m) is None]
    assert survivors == []


def test_the_sizes_are_as_they_were() -> None:
    assert not fails()
