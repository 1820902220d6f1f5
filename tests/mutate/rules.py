"""The rule table of a joint changed one thing at a time, over the hand-worked pairs and the joints on every limit."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

import numpy as np

from generator.model.shipped import RUNGS, Band, Rule
from generator.rules.forms import FormFault
from generator.rules.rows import RuleFault
from tests import never_kinder
from tests.boundaries import clubs
from tests.case_table import CaseTable
from tests.clubs import exactly, unchecked
from tests.facts.moved import RUNGS as BANDS
from tests.facts.moved import limits, plus
from tests.pairs import hand_worked, pair_club

NANOMETRE = "0.000001"


@dataclass(frozen=True)
class Mutant:
    """One change of one rule; no rule at all is the change that drops it."""

    rule_id: str
    what: str
    rule: Rule | None

    def __str__(self) -> str:
        return f"{self.rule_id}: {self.what}"


@cache
def table() -> CaseTable:
    worked = {f"worked {id_}": exactly(unchecked(pair_club(pair))) for id_, pair in hand_worked().items()}
    kinder = {f"never kinder {id_}": never_kinder.club(id_) for id_ in never_kinder.CASES}
    return CaseTable(worked | clubs() | kinder)


def joint_mutants() -> Iterator[Mutant]:
    for id_, rule in table().rules.items():
        yield from rule_mutants(id_, rule)


def rule_mutants(id_: str, rule: Rule, least: str = NANOMETRE) -> Iterator[Mutant]:
    """Every change of one rule; its limits move by the least there is, in mm or per cent."""
    yield Mutant(id_, "rule dropped", None)
    yield from _condition_mutants(id_, rule)
    if rule.clearance is not None:
        turned = rule.model_copy(update={"clearance": f"-({rule.clearance})"})
        yield Mutant(id_, "sign of the clearance", turned)
    yield from _rung_mutants(id_, rule)
    for _, rung, side in limits({id_: rule}):
        yield from _limit_mutants(id_, rule, rung, side, least)


def _condition_mutants(id_: str, rule: Rule) -> Iterator[Mutant]:
    for key, words in rule.when.items():
        rest = {name: found for name, found in rule.when.items() if name != key}
        yield Mutant(id_, f"condition {key} dropped", rule.model_copy(update={"when": rest}))
        for word in words if len(words) > 1 else ():
            fewer = rule.when | {key: tuple(each for each in words if each != word)}
            yield Mutant(id_, f"condition {key} without {word}", rule.model_copy(update={"when": fewer}))


def _limit_mutants(id_: str, rule: Rule, rung: int, side: str, least: str) -> Iterator[Mutant]:
    band: Band = getattr(rule, BANDS[rung])
    limit: str = getattr(band, side)
    changes = {
        f"{least} more": plus(limit, least),
        f"{least} less": plus(limit, f"-{least}"),
        "sign": negated(limit),
        "dropped": None,
    }
    for what, text in changes.items():
        changed = rule.model_copy(update={BANDS[rung]: band.model_copy(update={side: text})})
        yield Mutant(id_, f"{RUNGS[rung]} {side} limit {limit}: {what}", changed)


def negated(limit: str) -> str:
    """Minus turns min into max."""
    if limit.startswith(("min(", "max(")):
        other = "max" if limit.startswith("min(") else "min"
        inside = [f"-({part.strip()})" for part in limit[4:-1].split(",")]
        return f"{other}({', '.join(inside)})"
    return f"-({limit})"


def _rung_mutants(id_: str, rule: Rule) -> Iterator[Mutant]:
    for value, words in rule.rungs.items():
        rest = {name: found for name, found in rule.rungs.items() if name != value}
        yield Mutant(id_, f"word {value} dropped", rule.model_copy(update={"rungs": rest}))
        for position, word in enumerate(words):
            for step in (-1, 1):
                rank = RUNGS.index(word) + step
                if 0 <= rank < len(RUNGS):
                    changed = (*words[:position], RUNGS[rank], *words[position + 1 :])
                    rungs = {**rule.rungs, value: changed}
                    what = f"word {value}: {word} becomes {RUNGS[rank]}"
                    yield Mutant(id_, what, rule.model_copy(update={"rungs": rungs}))


def joint_killed(mutant: Mutant) -> bool:
    """Does any check come out otherwise, or does the table refuse the rule?"""
    before = table().outcomes[mutant.rule_id]
    if mutant.rule is None:
        return len(before.at) > 0
    try:
        after = table().check(mutant.rule_id, mutant.rule)
    except (RuleFault, FormFault, AssertionError):
        return True  # the evaluator asserts that a clearance has limits
    same = all(
        np.array_equal(getattr(before, name), getattr(after, name)) for name in ("at", "best", "worst")
    )
    return not same
