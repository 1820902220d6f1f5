"""All options of all pairs judged, a case at a time, a chunk at a time.

Goes in: a dataset (or a part of its chains and links).  Comes out: per option its range, deciding
check and slack, and the means to look at any of them closely.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from generator.compute.fit.cases import cases
from generator.compute.fit.categories import categories
from generator.compute.fit.columns import Columns, Ints, taken
from generator.compute.fit.evaluate import (
    Categories,
    Judged,
    RowValues,
    Rungs,
    judge_checks,
    ranks_of,
    row_values,
)
from generator.compute.fit.joint import joint_columns, words_for
from generator.compute.fit.options import Bench, Options, all_options, pair_numbers
from generator.compute.fit.packed import claims_of, orders_of, preference_of, worst_of
from generator.compute.fit.quickly import Share, judge_quickly, shares_of
from generator.compute.fit.result import Span
from generator.compute.fit.rule_table import PLATE_FITS, effective_rules, joint_scale
from generator.compute.fit.rules import Case, Clauses, Plan, make_plan
from generator.compute.fit.tighten import Proofs, proofs, tighten
from generator.compute.fit.trials import bounds, pair_bounds, pair_positions, symbols_bound, trial_positions
from generator.compute.fit.tried import Tried, tried_by_pair
from generator.model.dataset import Dataset, TrialFacts
from generator.model.shipped import Rule
from generator.model.trials_and_rides import Trial

# where the pins cannot line up nothing else is worth asking
ASKED_OF_STOPPED = ("pitch", "size-code")
# options judged at a time: small enough that the rows of a plan stay in the processor's cache
CHUNK = 8192


@dataclass(frozen=True, slots=True)
class Closely:
    """Some options of one case with every row and check: what detail pages and explain need."""

    plan: Plan
    index: Ints
    values: RowValues
    judged: Judged
    columns: Columns
    contradicted: frozenset[int]
    # computed lengths by clauses, made for all options at once when the first is asked for
    spans: dict[Clauses, Sequence[Span | None]] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Verdicts:
    """One entry an option; `prefer` orders options of equal rungs, greater first; `deciding` is the place of a rule in
    the table; `adds_up` says whether the worst rung is that of small faults added up."""

    best: Rungs
    worst: Rungs
    prefer: Ints
    deciding: Ints
    adds_up: NDArray[np.bool_]
    contradicted: NDArray[np.bool_]


class Judge:
    """Holds one dataset's options and columns while they are judged; computes nothing twice."""

    def __init__(
        self,
        dataset: Dataset,
        on: Bench,
        options: Options | None = None,
        rules: Mapping[str, Rule] | None = None,
        plans: dict[Case, Plan] | None = None,
    ) -> None:
        """All options under the joint's rules, or the given ones under some of them; `plans` are those of
        another judge with the same rules."""
        self.dataset = dataset
        self.on = on
        self.options = all_options(dataset, on) if options is None else options
        self.columns = joint_columns(dataset, on, self.options)
        self.categories: Categories = categories(dataset, on, self.options)
        self.rules = effective_rules(dataset) if rules is None else rules
        self.vocabularies = {fit: words_for(fit) for fit in PLATE_FITS}
        self.bound_by_trials = symbols_bound(self.vocabularies.values())
        self.scale = joint_scale(self.rules)
        self.plans: dict[Case, Plan] = {} if plans is None else plans
        self.shares: dict[Case, tuple[Share, ...]] = {}
        # by plan (which is kept above) and the trials that speak of an option
        self.proofs: dict[tuple[int, tuple[str, ...], tuple[str, ...]], Proofs] = {}

    @cached_property
    def cases(self) -> list[tuple[Case, Ints]]:
        return list(cases(self.dataset, self.on, self.options, self.columns))

    @cached_property
    def trials(self) -> dict[int, list[TrialFacts]]:
        """Option -> the trials of this very clip and these very seals."""
        return self._trials(trial_positions)

    @cached_property
    def pair_trials(self) -> dict[int, list[TrialFacts]]:
        """Option -> the trials of its chain and link, whatever clip and seals they were made with."""
        return self._trials(pair_positions)

    @cached_property
    def tried(self) -> Mapping[tuple[str, str], tuple[Tried, ...]]:
        return tried_by_pair(self.dataset)

    def _trials(self, positions: Callable[[Trial, Bench, Options], Ints]) -> dict[int, list[TrialFacts]]:
        found: dict[int, list[TrialFacts]] = {}
        for trial in self.dataset.trials.values():
            for at in positions(trial.record, self.on, self.options):
                found.setdefault(int(at), []).append(trial)
        return found

    def plan(self, case: Case) -> Plan:
        if case not in self.plans:
            self.plans[case] = self._new_plan(case)
        return self.plans[case]

    def _new_plan(self, case: Case) -> Plan:
        known = dict(case)
        only = ASKED_OF_STOPPED if known["stopped"] == "yes" else None
        return make_plan(self.rules, known, self.vocabularies[known["plate_fit"]], self.scale, only)

    def verdicts(self) -> Verdicts:
        """All options, quickly; those that a trial speaks of are looked at closely, as it narrows them."""
        size = len(self.options)
        best, worst = (np.zeros(size, dtype=np.int8) for _ in range(2))
        claims = np.zeros(size, dtype=np.int64)
        contradicted = np.zeros(size, dtype=bool)
        for case, index in self.cases:
            quick = judge_quickly(self._shares(case), self.options, self.columns, self.categories, index)
            best[index], worst[index], claims[index] = quick.best, quick.worst, quick.claims
        for closely in self.closely(np.array(sorted(self.pair_trials), dtype=np.int64)):
            index, judged = closely.index, closely.judged
            best[index], worst[index], claims[index] = judged.best, judged.worst, _claims(closely)
            contradicted[index[sorted(closely.contradicted)]] = True
        by_word = np.array([rule.category is not None for rule in self.rules.values()])
        return Verdicts(
            best,
            worst,
            preference_of(claims, by_word),
            orders_of(claims),
            worst_of(claims) < worst,
            contradicted,
        )

    def _shares(self, case: Case) -> tuple[Share, ...]:
        if case not in self.shares:
            self.shares[case] = shares_of(self.plan(case))
        return self.shares[case]

    def closely(self, wanted: Ints) -> Iterator[Closely]:
        """The wanted options with all rows and checks, case by case and in chunks."""
        is_wanted = np.zeros(len(self.options), dtype=bool)
        is_wanted[wanted] = True
        for case, index in self.cases:
            chosen = index[is_wanted[index]]
            if not len(chosen):
                continue
            plan = self.plan(case)
            for start in range(0, len(chosen), CHUNK):
                yield self._chunk(plan, dict(case)["plate_fit"], chosen[start : start + CHUNK])

    def _chunk(self, plan: Plan, plate_fit: str, index: Ints) -> Closely:
        names = {name for row in plan.rows for name, _ in row.terms}
        columns = taken(self.columns, sorted(names | self.bound_by_trials), index)
        values = row_values(plan.rows, columns, len(index))
        contradicted = frozenset(self._tighten(values, plan, columns, plate_fit, index))
        words = {name: category.take(index) for name, category in self.categories.items()}
        return Closely(
            plan, index, values, judge_checks(plan, values, words, len(index)), columns, contradicted
        )

    def _tighten(
        self, values: RowValues, plan: Plan, columns: Columns, plate_fit: str, index: Ints
    ) -> Iterator[int]:
        """Narrow the tried options in place; yields the positions where readings and trial disagree."""
        for at, option in enumerate(index.tolist()) if self.pair_trials else ():
            proven = self.proofs_of(plan, plate_fit, option)
            if proven is not None and not tighten(values, proven, columns, at):
                yield at

    def proofs_of(self, plan: Plan, plate_fit: str, option: int) -> Proofs | None:
        """What dry fits prove about the rows of one option; None where nobody tried its pair."""
        trials, of_pair = self.trials.get(option, []), self.pair_trials.get(option, [])
        if not of_pair:
            return None
        key = (id(plan), tuple(trial.id for trial in trials), tuple(trial.id for trial in of_pair))
        if key not in self.proofs:
            words = self.vocabularies[plate_fit]
            own = [bound for trial in trials for bound in bounds(trial, plate_fit, words)]
            others = [bound for trial in of_pair for bound in pair_bounds(trial, words)]
            self.proofs[key] = proofs(plan, [*own, *others])
        return self.proofs[key]


def _claims(closely: Closely) -> Ints:
    """What decides each option, as the quick way writes it."""
    judged = closely.judged
    at = np.arange(len(closely.index))
    ranks = ranks_of(judged.check_best[judged.deciding, at], judged.check_worst[judged.deciding, at])
    orders = np.array([check.order for check in closely.plan.checks])
    return claims_of(ranks, judged.slack, orders[judged.deciding])


def in_order(judge: Judge, verdicts: Verdicts) -> Ints:
    """Options by pair, then worst rung, best rung, seals as made before makeshifts, slack, own clip
    first: among equals nobody should be told to leave the seals out for a hundredth of slack."""
    options = judge.options
    number, pair = np.arange(len(options)), pair_numbers(judge.on, options)
    return np.lexsort((number, -verdicts.prefer, options.seals, verdicts.best, verdicts.worst, pair))
