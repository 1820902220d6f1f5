"""The rules that count for a club: the shipped table with the club's own bands laid over it."""

from collections.abc import Iterator, Mapping
from functools import lru_cache
from math import lcm
from typing import Literal

from generator.model.club import RuleOverride
from generator.model.dataset import Dataset
from generator.model.shipped import Band, Rule
from generator.rules.forms import dimension, parse_form
from generator.rules.rows import RuleFault
from generator.rules.symbols import SYMBOLS
from generator.rules.vocabulary import MACROS

# denominator of the macros
HALVES = 2


def effective_rules(dataset: Dataset) -> dict[str, Rule]:
    """The joint rules in order, overridden where the club says so."""
    return with_own_limits(dataset.shelf.joint_rules, dataset)


def with_own_limits(rules: Mapping[str, Rule], dataset: Dataset) -> dict[str, Rule]:
    """By id, in order, under the club's own limits."""
    own = dataset.overrides
    return {id_: overridden(rule, own[id_]) if id_ in own else rule for id_, rule in rules.items()}


def overridden(rule: Rule, override: RuleOverride) -> Rule:
    """The rule with the limits that the override names; every other limit stays."""
    pairs = (
        ("proper", rule.proper, override.proper),
        ("get_home", rule.get_home, override.get_home),
        ("last_resort", rule.last_resort, override.last_resort),
    )
    changed = {name: _band(shipped, own) for name, shipped, own in pairs if own}
    return rule.model_copy(update=changed)


def _band(shipped: Band | None, own: Mapping[Literal["low", "high"], str]) -> Band:
    before = shipped or Band()
    return Band(low=own.get("low", before.low), high=own.get("high", before.high))


def joint_scale(rules: Mapping[str, Rule]) -> int:
    """A whole factor that makes every coefficient of the table whole, so that slacks of different cases
    can be compared; sums and differences of forms need no other."""
    return _scale(tuple(text for rule in rules.values() for text in texts_of(rule)))


def texts_of(rule: Rule) -> Iterator[str]:
    texts = (rule.clearance, *(limit for band in rule.bands.values() for limit in (band.low, band.high)))
    return (text for text in texts if text is not None)


@lru_cache(maxsize=64)
def _scale(texts: tuple[str, ...]) -> int:
    """What a macro stands for has halves in it; all else has the denominators that are written."""
    atoms = {name: dimension(name) for name in (*SYMBOLS, *MACROS)}
    forms = [form for text in texts for form in parse_form(text, atoms).leaves()]
    written = lcm(*(c.denominator for form in forms for c in (form.constant, *(c for _, c in form.terms))))
    return written * HALVES


def rules_of(dataset: Dataset, *files: str) -> dict[str, Rule]:
    """Raises RuleFault where a rule is the same as one the joint does not have."""
    joint = effective_rules(dataset)
    found: dict[str, Rule] = {}
    for file in files:
        for id_, rule in dataset.shelf.other_rules[file].items():
            found[id_] = filled_in(id_, rule, joint)
    return with_own_limits(found, dataset)


def filled_in(id_: str, rule: Rule, joint: Mapping[str, Rule]) -> Rule:
    """Condition, clearance, limits and the check's name of the joint's rule; title and sentence of this one."""
    same_as = rule.same_as
    if same_as is None:
        return rule
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
        "by",
        "rungs",
        "source",
        "evidence",
    )
    taken = {name: getattr(model, name) for name in shared}
    return rule.model_copy(update=taken | {"check": model.check or same_as})
