"""Many small clubs as one table of options, so that one changed rule is judged over all of them at once.

Trials are left out: a table of them would not be rows.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from generator.compute.fit.columns import Column, Ints, Mask, taken
from generator.compute.fit.evaluate import Category, GroundsOf, judge_checks, row_values
from generator.compute.fit.judge import Judge
from generator.compute.fit.options import NOTHING, SEALS, SEATS, bench, restricted
from generator.compute.fit.plans import ASKED_OF_STOPPED, words_of
from generator.model.dataset import Dataset
from generator.model.shipped import Group, Rule
from generator.rules.forms import Vocabulary
from generator.rules.plan import PlanMaker, applies
from generator.rules.table import joint_scale, texts_of
from generator.rules.vocabulary import names_in
from tests.engine import Way

GROUPS: tuple[Group, ...] = ("body", "pin", "place", "seal", "clip")
# so many groups at get-home add up to last-resort
MANY = 4


@dataclass(frozen=True)
class Outcome:
    """What one rule says: positions of the options it speaks of, best and worst rung of each."""

    at: Ints
    best: Ints
    worst: Ints


class CaseTable:
    """The options of the pair (`chain`, `link`) of every club."""

    def __init__(self, clubs: Mapping[str, Dataset]) -> None:
        self.labels: list[str] = []
        self.ways: list[Way] = []
        self.cases: list[Mapping[str, str]] = []
        self.words: list[Mapping[str, str]] = []
        parts: list[Mapping[str, Column]] = []
        grounds: list[GroundsOf] = []
        for label, dataset in clubs.items():
            judge = Judge(dataset, restricted(bench(dataset), ["chain"], ["link"]))
            self.rules = dict(judge.plans.rules)
            parts.append(taken(judge.columns, judge.columns, np.arange(len(judge.options))))
            grounds.append(judge.grounds)
            self._add(label, judge)
        self.grounds = {name: np.concatenate([each[name] for each in grounds]) for name in grounds[0]}
        self.columns = {name: _joined([part[name] for part in parts]) for name in parts[0]}
        self.outcomes = {id_: self.check(id_, rule) for id_, rule in self.rules.items()}

    def _add(self, label: str, judge: Judge) -> None:
        options, on = judge.options, judge.on
        cases: dict[int, Mapping[str, str]] = {}
        for case, index in judge.cases:
            cases |= {int(number): dict(case) for number in index}
        for number in range(len(options)):
            clip, seal_set = int(options.clip[number]), int(options.seal_set[number])
            spacer = int(options.spacer[number])
            self.labels.append(label)
            self.cases.append(cases[number])
            self.words.append({n: c.words[int(c.codes[number])] for n, c in judge.categories.items()})
            self.ways.append(
                Way(
                    "chain",
                    "link",
                    None if clip == NOTHING else on.clips[clip].id,
                    SEALS[int(options.seals[number])],
                    None if seal_set == NOTHING else on.seals[seal_set].id,
                    SEATS[int(options.seat[number])],
                    None if spacer == NOTHING else on.seals[spacer].id,
                )
            )

    def check(self, id_: str, rule: Rule) -> Outcome:
        """The rungs of one rule over every option it speaks of.  Raises what the rule table raises."""
        speaks = [
            at
            for at, case in enumerate(self.cases)
            if applies(rule, case) and (case["stopped"] == "no" or id_ in ASKED_OF_STOPPED)
        ]
        alike: dict[Vocabulary, list[int]] = {}
        for at in speaks:
            alike.setdefault(words_of(self.cases[at], names_in(texts_of(rule))), []).append(at)
        found = [self._check(id_, rule, words, np.array(at, dtype=np.int64)) for words, at in alike.items()]
        none = np.zeros(0, dtype=np.int64)
        return Outcome(*(np.concatenate(each) for each in zip((none, none, none), *found, strict=True)))

    def _check(self, id_: str, rule: Rule, words: Vocabulary, at: Ints) -> tuple[Ints, Ints, Ints]:
        # the words of the case are met already; what a rule is about decides the rest
        plan = PlanMaker({id_: replace_when(rule)}, joint_scale({id_: rule})).plan({}, lambda _: words)
        columns = {name: column.take(at) for name, column in self.columns.items()}
        categories = {rule.category: self._category(rule.category, at)} if rule.category else {}
        values = row_values(plan.rows, columns, len(at))
        grounds = {name: mask[at] for name, mask in self.grounds.items()}
        judged = judge_checks(plan, values, categories, len(at), grounds)
        return at, judged.check_best[0].astype(np.int64), judged.check_worst[0].astype(np.int64)

    def _category(self, name: str, at: Ints) -> Category:
        said = [self.words[int(i)][name] for i in at]
        words = tuple(sorted(set(said)))
        return Category(np.array([words.index(word) for word in said], dtype=np.int8), words)

    def verdicts(self, changed: Mapping[str, Outcome]) -> dict[str, tuple[int, int]]:
        """Best and worst of the pair of each club, some rules saying something else than they do."""
        best, worst = (self._options(side, changed) for side in ("best", "worst"))
        found: dict[str, tuple[int, int]] = {}
        for label, low, high in zip(self.labels, best.tolist(), worst.tolist(), strict=True):
            before = found.get(label, (low, high))
            found[label] = (min(low, before[0]), min(high, before[1]))
        return found

    def options(self, changed: Mapping[str, Outcome]) -> list[tuple[int, int]]:
        """Best and worst of every option."""
        best, worst = (self._options(side, changed) for side in ("best", "worst"))
        return list(zip(best.tolist(), worst.tolist(), strict=True))

    def _options(self, side: str, changed: Mapping[str, Outcome]) -> Ints:
        by_group = np.zeros((len(GROUPS) + 1, len(self.labels)), dtype=np.int64)
        for id_, outcome in (self.outcomes | dict(changed)).items():
            group = self.rules[id_].group
            # what only a hand saw counts in no group
            row = by_group[GROUPS.index(group) if group in GROUPS else len(GROUPS)]
            row[outcome.at] = np.maximum(row[outcome.at], getattr(outcome, side))
        overall: Ints = by_group.max(axis=0)
        many = (by_group[: len(GROUPS)] >= 1).sum(axis=0) >= MANY
        added: Ints = np.where((overall == 1) & many, 2, overall)
        return added


def replace_when(rule: Rule) -> Rule:
    """The rule for every case."""
    return rule.model_copy(update={"when": {}})


def _joined(columns: Sequence[Column]) -> Column:
    ends: Ints = np.concatenate([column.ends for column in columns], axis=1)
    missing: Mask = np.concatenate([column.missing for column in columns])
    return Column(ends, missing)
