"""The rules of one kind of meeting, with those it shares with the joint filled in.

Goes in: a dataset and names of rule files.  Comes out: rules by id, in file order, under the club's own limits.
"""

from collections.abc import Mapping

from generator.compute.fit.limit_rows import RuleFault
from generator.compute.fit.rule_table import effective_rules, with_own_limits
from generator.model.dataset import Dataset
from generator.model.shipped import Rule


def rules_of(dataset: Dataset, *files: str) -> dict[str, Rule]:
    """Raises RuleFault where a rule is the same as one the joint does not have."""
    joint = effective_rules(dataset)
    found: dict[str, Rule] = {}
    for file in files:
        for id_, rule in dataset.shelf.other_rules[file].items():
            found[id_] = rule if rule.same_as is None else _filled_in(id_, rule, rule.same_as, joint)
    return with_own_limits(found, dataset)


def _filled_in(id_: str, rule: Rule, same_as: str, joint: Mapping[str, Rule]) -> Rule:
    """Condition, clearance, limits and the check's name of the joint's rule; title and sentence of this one."""
    if same_as not in joint:
        raise RuleFault(f"rule '{id_}' is the same as '{same_as}', which the joint does not have")
    model = joint[same_as]
    shared = (
        "when",
        "clearance",
        "proper",
        "get_home",
        "last_resort",
        "category",
        "rungs",
        "source",
        "evidence",
    )
    taken = {name: getattr(model, name) for name in shared}
    return rule.model_copy(update=taken | {"check": model.check or same_as})
