"""All options of all pairs judged, a case at a time, a chunk at a time."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from generator.compute.fit.cases import cases
from generator.compute.fit.categories import categories
from generator.compute.fit.columns import Columns, Ints, taken
from generator.compute.fit.dense import MANY
from generator.compute.fit.evaluate import (
    NO_SLACK,
    Categories,
    GroundsOf,
    Judged,
    RowValues,
    Rungs,
    few_values,
    judge_checks,
    row_values,
)
from generator.compute.fit.grounds import grounds_of
from generator.compute.fit.measured import Combined, joint_columns
from generator.compute.fit.options import NOTHING, SEATS, Bench, Options, all_options, pair_numbers
from generator.compute.fit.plans import Plans, plans_of
from generator.compute.fit.shared_trials import inheriting, shift_of
from generator.compute.fit.tighten import Proofs, tighten
from generator.compute.fit.trials import TRIED, Shifted, pair_positions, trial_positions
from generator.compute.fit.tried import Tried, tried_by_pair
from generator.compute.reading_cost import ClosestPossible
from generator.model.dataset import Dataset, TrialFacts
from generator.rules.plan import Case, Clauses, Plan

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
    # what dry fits prove, by position of the options that they speak of
    proofs: Mapping[int, Proofs]
    grounds: GroundsOf
    # by clauses a computed length of every option, and where one is missing, made when the first is asked for
    lengths: dict[Clauses, tuple[Sequence[float], ...]] = field(default_factory=dict)


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
        self, dataset: Dataset, on: Bench, options: Options | None = None, plans: Plans | None = None
    ) -> None:
        """All options under the joint's rules, or the given ones under those of the given plans, which may be
        those of another judge."""
        self.dataset = dataset
        self.on = on
        self.options = all_options(dataset, on) if options is None else options
        self._combined = Combined(dataset, on, self.options)
        self.columns = joint_columns(self._combined)
        self.categories: Categories = categories(self._combined)
        self.grounds = grounds_of(self._combined)
        self.plans = plans_of(dataset) if plans is None else plans
        self.alike = self.plans.alike(dataset)

    @cached_property
    def cases(self) -> list[tuple[Case, Ints]]:
        return list(cases(self._combined, self.columns))

    @cached_property
    def trials(self) -> dict[int, list[Shifted]]:
        """Option -> the trials of this very clip and these very seals, and those of a clip kept for trials."""
        found: dict[int, list[Shifted]] = {}
        for trial in self.dataset.trials.values():
            for at in trial_positions(trial.record, self.on, self.options).tolist():
                found.setdefault(at, []).append(Shifted(trial))
            for at in inheriting(trial, self.dataset, self.on, self.options).tolist():
                by = shift_of(trial, self.dataset.shelf, self.on, int(self.options.clip[at]))
                found.setdefault(at, []).append(Shifted(trial, False, by))
        return found

    @cached_property
    def pair_trials(self) -> dict[int, list[TrialFacts]]:
        """Option -> the trials of its chain and link, whatever clip and seals they were made with."""
        found: dict[int, list[TrialFacts]] = {}
        for trial in self.dataset.trials.values():
            for at in pair_positions(trial.record, self.on, self.options).tolist():
                found.setdefault(at, []).append(trial)
        return found

    @cached_property
    def tried(self) -> Mapping[tuple[str, str], tuple[Tried, ...]]:
        return tried_by_pair(self.dataset)

    @cached_property
    def closest(self) -> ClosestPossible:
        return ClosestPossible(self.dataset)

    def verdicts(self) -> Verdicts:
        """All options, a case and a chunk at a time."""
        size = len(self.options)
        best, worst = (np.zeros(size, dtype=np.int8) for _ in range(2))
        prefer, deciding = (np.zeros(size, dtype=np.int64) for _ in range(2))
        adds_up, contradicted = (np.zeros(size, dtype=bool) for _ in range(2))
        for closely in self.closely(np.arange(size)):
            index, judged = closely.index, closely.judged
            best[index], worst[index] = judged.best, judged.worst
            prefer[index] = _preference(closely)
            deciding[index] = np.array([check.order for check in closely.plan.checks])[judged.deciding]
            adds_up[index] = judged.check_worst.max(axis=0) < judged.worst
            contradicted[index[sorted(closely.contradicted)]] = True
        return Verdicts(best, worst, prefer, deciding, adds_up, contradicted)

    def closely(self, wanted: Ints) -> Iterator[Closely]:
        """The wanted options with all rows and checks, case by case and in chunks."""
        is_wanted = np.zeros(len(self.options), dtype=bool)
        is_wanted[wanted] = True
        for case, index in self.cases:
            chosen = index[is_wanted[index]]
            if not len(chosen):
                continue
            for start in range(0, len(chosen), CHUNK):
                yield self._chunk(case, chosen[start : start + CHUNK])

    def _chunk(self, case: Case, index: Ints) -> Closely:
        plan = self.plans.plan(case)
        names = {name for row in plan.rows.values() for name, _ in row.terms}
        columns = taken(self.columns, sorted(names | self.plans.bound_by_trials), index)
        few = len(index) < MANY
        values = (
            few_values(self.plans.dense(case), columns, len(index))
            if few
            else row_values(plan.rows, columns, len(index))
        )
        proven = self._proven(case, index)
        contradicted = frozenset(
            int(at) for known, tried in proven for at in tighten(values, known, columns, tried)
        )
        words = {name: category.take(index) for name, category in self.categories.items()}
        grounds = {name: mask[index] for name, mask in self.grounds.items()}
        judged = judge_checks(plan, values, words, len(index), grounds)
        proofs = {int(at): known for known, tried in proven for at in tried}
        return Closely(plan, index, values, judged, columns, contradicted, proofs, grounds)

    def _proven(self, case: Case, index: Ints) -> list[tuple[Proofs, Ints]]:
        """What dry fits prove, and the positions of the options of which they prove the same."""
        found: dict[int, tuple[Proofs, list[int]]] = {}
        for at, option in enumerate(index.tolist()) if self.pair_trials else ():
            if option in self.pair_trials:
                own, of_pair = self.trials.get(option, ()), self.pair_trials[option]
                proofs = self.plans.proofs(case, own, of_pair, self._clip_is_new(option))
                found.setdefault(id(proofs), (proofs, []))[1].append(at)
        return [(proofs, np.array(tried)) for proofs, tried in found.values()]

    def _clip_is_new(self, option: int) -> bool:
        """As it was when it was tried, or as its packet is."""
        clip = int(self.options.clip[option])
        if clip == NOTHING:
            return False
        return self.on.clips[clip].record.history in ("new", "never-off")


def _preference(closely: Closely) -> Ints:
    """The slack of what decides.  What goes by a word counts as nothing to spare and nothing lacking; a check that
    cannot be judged comes last."""
    judged = closely.judged
    by_word = np.array([check.category is not None for check in closely.plan.checks])[judged.deciding]
    return np.where(judged.slack != NO_SLACK, judged.slack, np.where(by_word, 0, -NO_SLACK))


def in_order(judge: Judge, verdicts: Verdicts) -> Ints:
    """Options by pair, then worst rung, best rung, tried before untried, as made before makeshifts, a clip that is new
    before a used one, slack, own clip first: among equals nobody should be told to leave the seals out for a
    hundredth of slack."""
    options, words = judge.options, judge.categories
    number, pair = np.arange(len(options)), pair_numbers(judge.on, options)
    tried = words["tried"].codes == TRIED.index("went-together")
    history = words["clip-history"]
    fresh = np.array([word in ("new", "never-off") for word in history.words], dtype=bool)[history.codes]
    makeshift = (options.seat == SEATS.index("clip")).astype(np.int8) + (options.spacer != NOTHING)
    keys = (
        number,
        -verdicts.prefer,
        ~fresh,
        makeshift,
        options.seals,
        ~tried,
        verdicts.best,
        verdicts.worst,
        pair,
    )
    return np.lexsort(keys)
