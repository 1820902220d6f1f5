"""The question put to an open solver: one goal after the other, each earlier optimum fixed in whole numbers."""

from collections.abc import Sequence
from dataclasses import dataclass, field

import highspy
import numpy as np
from highspy._core import _Highs  # the class above it prints a line on standard output when made

from generator.compute.spares.problem import RUNGS_A_LEVEL, Problem
from generator.compute.spares.result import GOALS, GoalId, Tell, unheard
from generator.model.shipped import GET_HOME, LAST_RESORT, NO_GO

Terms = list[tuple[int, int]]
RUNG_GOALS: dict[GoalId, int] = {
    "worse-than-last-resort": NO_GO,
    "last-resort": LAST_RESORT,
    "get-home": GET_HOME,
}


@dataclass
class Program:
    """A whole-number program in columns and rows; `amount[pool][item]` are the columns of what is carried."""

    upper: list[int] = field(default_factory=list)
    whole: list[bool] = field(default_factory=list)
    rows: list[tuple[Terms, float, float]] = field(default_factory=list)
    goals: dict[GoalId, Terms] = field(default_factory=dict)
    amount: list[list[int]] = field(default_factory=list)
    uses: list[dict[int, int]] = field(default_factory=list)
    offset: dict[GoalId, int] = field(default_factory=dict)

    def column(self, upper: int, whole: bool = True) -> int:
        self.upper.append(upper)
        self.whole.append(whole)
        return len(self.upper) - 1

    def at_least(self, terms: Terms, low: int) -> None:
        self.rows.append((terms, low, highspy.kHighsInf))

    def at_most(self, terms: Terms, high: int) -> None:
        self.rows.append((terms, -highspy.kHighsInf, high))

    def equal(self, terms: Terms, value: int) -> None:
        self.rows.append((terms, value, value))


def order_weight(place: int) -> int:
    """A fixed weight for the last tie-break, spread so that two plans hardly ever weigh alike."""
    return 1 + place * 2654435761 % 9973


# what only helps to find plans, and is of no use where none is left to find
FINDERS = ("feasibility_jump", "rens", "rins", "root_reduced_cost")


def solver(program: Program, finding: bool = True) -> _Highs:
    """Gap 0, one thread and one seed, so that the same question has the same answer.  Not for finding: presolve is off.

    Tolerances stay as they are: with a finer one questions that have an answer were said to have none.
    """
    highs = _Highs()
    for name, value in (
        ("output_flag", False),
        ("presolve", "on" if finding else "off"),
        *((f"mip_heuristic_run_{each}", finding) for each in FINDERS),
        ("mip_rel_gap", 0.0),
        ("mip_abs_gap", 0.0),
        ("threads", 1),
        ("random_seed", 0),
    ):
        highs.setOptionValue(name, value)
    highs.passModel(_model(program))
    return highs


def impossible(program: Program) -> bool:
    """Is there a row without columns that does not hold?  The solver does not look at those."""
    return any(not terms and not low <= 0 <= high for terms, low, high in program.rows)


def _model(program: Program) -> highspy.HighsLp:
    lp = highspy.HighsLp()
    lp.num_col_, lp.num_row_ = len(program.upper), len(program.rows)
    lp.col_cost_ = np.zeros(lp.num_col_)
    lp.col_lower_ = np.zeros(lp.num_col_)
    lp.col_upper_ = np.array(program.upper, dtype=float)
    lp.row_lower_ = np.array([low for _, low, _ in program.rows], dtype=float)
    lp.row_upper_ = np.array([high for _, _, high in program.rows], dtype=float)
    lp.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
    starts = np.cumsum([0, *(len(terms) for terms, _, _ in program.rows)])
    lp.a_matrix_.start_ = starts.astype(np.int32)
    lp.a_matrix_.index_ = np.array([c for terms, _, _ in program.rows for c, _ in terms], dtype=np.int32)
    lp.a_matrix_.value_ = np.array([v for terms, _, _ in program.rows for _, v in terms], dtype=float)
    kinds = (highspy.HighsVarType.kContinuous, highspy.HighsVarType.kInteger)
    lp.integrality_ = [kinds[each] for each in program.whole]
    return lp


@dataclass(frozen=True, slots=True)
class Solution:
    """The value of every goal in order, and the amounts (pools x items)."""

    values: tuple[int, ...]
    amounts: tuple[tuple[int, ...], ...]
    uses: tuple[dict[int, int], ...] = ()


class Infeasible(Exception):
    """Nothing meets the rows."""


def solve(program: Program, goals: Sequence[GoalId] = GOALS, tell: Tell = unheard) -> Solution:
    """Each goal to proven optimality; Infeasible where nothing will do, RuntimeError where the solver ends otherwise."""
    if impossible(program):
        raise Infeasible
    highs = solver(program)
    values: list[int] = []
    columns: list[float] = []
    for goal in goals:
        terms = program.goals[goal]
        tell("finding", goal)
        # nothing that is added up is below 0, so that a goal at 0 needs no solver
        if not columns or _sum(terms, columns):
            columns = minimise(highs, terms)
        values.append(_sum(terms, columns))
        fix(highs, terms, values[-1])
    amounts = tuple(tuple(round(columns[at]) for at in row) for row in program.amount)
    uses = tuple({item: round(columns[at]) for item, at in each.items()} for each in program.uses)
    return Solution(tuple(values), amounts, uses)


def _sum(terms: Terms, columns: Sequence[float]) -> int:
    return sum(weight * round(columns[at]) for at, weight in terms)


def minimise(highs: _Highs, terms: Terms) -> list[float]:
    """The columns at the optimum of one goal."""
    columns = highs.getNumCol()
    costs = np.zeros(columns)
    for at, weight in terms:
        costs[at] += weight
    highs.changeColsCost(columns, np.arange(columns, dtype=np.int32), costs)
    highs.run()
    status = highs.getModelStatus()
    if status == highspy.HighsModelStatus.kModelEmpty:
        return []
    if status == highspy.HighsModelStatus.kInfeasible:
        raise Infeasible
    if status != highspy.HighsModelStatus.kOptimal:
        raise RuntimeError(f"the solver ended with {highs.modelStatusToString(status)}")
    return list(highs.getSolution().col_value)


def fix(highs: _Highs, terms: Terms, value: int) -> None:
    """From here on the goal is no worse than this."""
    if terms:
        index = np.array([at for at, _ in terms], dtype=np.int32)
        weights = np.array([weight for _, weight in terms], dtype=float)
        highs.addRow(-highspy.kHighsInf, float(value), len(terms), index, weights)


def version() -> str:
    return f"HiGHS {_Highs().version()}"


def level_goals(problem: Problem, of_level: Sequence[dict[int, Terms]]) -> dict[GoalId, Terms]:
    """Weight of the demands at each rung, and of the joints below proper, from the columns of their levels."""
    goals: dict[GoalId, Terms] = {goal: [] for goal in (*RUNG_GOALS, "lesser-joints")}
    for demand, columns in zip(problem.demands, of_level, strict=True):
        for level, terms in columns.items():
            rung, joint = divmod(level, RUNGS_A_LEVEL)
            weights = {goal: demand.weight for goal, of in RUNG_GOALS.items() if of == rung}
            for goal, weight in (weights | {"lesser-joints": joint * demand.weight}).items():
                goals[goal].extend((at, weight * sign) for at, sign in terms if weight)
    return {goal: _collected(terms) for goal, terms in goals.items()}


def _collected(terms: Terms) -> Terms:
    """Each column once: the solver takes no row with one twice."""
    sums: dict[int, int] = {}
    for at, weight in terms:
        sums[at] = sums.get(at, 0) + weight
    return [(at, weight) for at, weight in sums.items() if weight]
