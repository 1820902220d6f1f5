"""The rules for other parts changed one thing at a time, over their worked cases."""

from collections.abc import Iterator, Mapping

from generator.model.shipped import Rule
from tests.clubs import shelf
from tests.mutate.rules import NANOMETRE, Mutant, rule_mutants
from tests.others_worked import Case, cases_of, file_of, said

# per cent are written in ten-thousandths, so that nothing finer can matter
LEAST = {"strip-elongation": "0.0001"}


def other_mutants() -> Iterator[Mutant]:
    for rules in shelf().other_rules.values():
        for id_, rule in rules.items():
            yield from rule_mutants(id_, rule, LEAST.get(id_, NANOMETRE))
            yield from _same_as_mutants(id_, rule)


def _same_as_mutants(id_: str, rule: Rule) -> Iterator[Mutant]:
    """A rule that is one of the joint's may name the wrong one of its group."""
    if rule.same_as is not None:
        for other, of_joint in shelf().joint_rules.items():
            if other != rule.same_as and of_joint.group == rule.group:
                yield Mutant(id_, f"the same as {other}", rule.model_copy(update={"same_as": other}))


def other_killed(mutant: Mutant) -> bool:
    """Does any worked case of the rule come out otherwise, or is the rule refused?"""
    file = file_of(mutant.rule_id)
    shipped = shelf().other_rules[file]
    rules = {id_: rule for id_, rule in shipped.items() if id_ != mutant.rule_id}
    if mutant.rule is not None:
        rules[mutant.rule_id] = mutant.rule
    return any(_differs(file, case, rules) for case in cases_of(mutant.rule_id))


def _differs(file: str, case: Case, rules: Mapping[str, Rule]) -> bool:
    try:
        return said(file, case.dataset, rules).get(case.rule) != case.expected
    # a faulty rule or form, nothing left to ask, a rule that is asked for by name
    except (ValueError, AssertionError, KeyError):
        return True
