"""A plan found by the solver, checked again in whole numbers and bounded by a second formulation without presolve."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import product
from math import ceil, gcd

from generator.compute.spares.formulations import by_options, by_rungs
from generator.compute.spares.problem import (
    NOT_SERVED,
    RUNGS_A_LEVEL,
    Problem,
    at_their_best,
    ideal_levels,
    levels_of,
)
from generator.compute.spares.result import GOALS, GoalId, Proof
from generator.compute.spares.solve import (
    Infeasible,
    Program,
    Solution,
    Terms,
    fix,
    minimise,
    order_weight,
    solve,
    solver,
    version,
)
from generator.model.shipped import GET_HOME, LAST_RESORT, NO_GO

# share of a sum that the solver may be off by
SLIP = 1e-6
# the goals that are left where every demand is at its best
LOADS = GOALS[4:]


@dataclass(frozen=True, slots=True)
class Proven:
    """Amounts (pools x items) with their proof."""

    amounts: tuple[tuple[int, ...], ...]
    uses: tuple[dict[int, int], ...]
    proof: Proof


def proven(problem: Problem) -> Proven:
    """First with every demand at its ideal rung, which no plan betters; where limits or stock forbid that, in full."""
    found, values, bounds = _ideal(problem) or _in_full(problem)
    goals = tuple(zip(GOALS, values, bounds, strict=True))
    sound = values == bounds == recount(problem, found)
    return Proven(found.amounts, found.uses, Proof(version(), goals, sound))


Found = tuple[Solution, tuple[int, ...], tuple[int, ...]]


def _ideal(problem: Problem) -> Found | None:
    """The lightest load that has every demand at its best; None where failures may meet, or no load does it."""
    if problem.depth > 1:
        return None
    ideal = at_their_best(problem)
    try:
        found = solve(by_options(ideal), LOADS)
    except Infeasible:
        return None
    reached = _weights(problem, ideal_levels(problem))
    return found, (*reached, *found.values), (*reached, *bounded(ideal, found.values, LOADS))


def _in_full(problem: Problem) -> Found:
    found = solve(by_options(problem))
    return found, found.values, bounded(problem, found.values)


def _weights(problem: Problem, levels: Sequence[int]) -> tuple[int, ...]:
    """Weight that is not served, at last-resort and at get-home, and of joints below proper."""
    found = [
        (demand.weight, *divmod(level, RUNGS_A_LEVEL))
        for demand, level in zip(problem.demands, levels, strict=True)
    ]
    at_rungs = (
        sum(weight for weight, rung, _ in found if rung == at) for at in (NO_GO, LAST_RESORT, GET_HOME)
    )
    return (*at_rungs, sum(weight * joint for weight, _, joint in found))


def recount(problem: Problem, found: Solution) -> tuple[int, ...] | None:
    """The goals of the amounts in plain whole numbers; None where they break a limit."""
    if not feasible(problem, found.amounts):
        return None
    levels = levels_of(problem, found.amounts)
    if problem.depth > 1:
        levels = tuple(
            max(level, _level_by_use(problem, number, found.uses[number]))
            for number, level in enumerate(levels)
        )
        if not _apart(problem, found):
            return None
    return (*_weights(problem, levels), *_loads(problem, found.amounts))


def _level_by_use(problem: Problem, number: int, uses: dict[int, int]) -> int:
    """The level that the pieces set aside for the demand are enough for."""
    for option in problem.demands[number].options:
        wants = [want for want in option.wants if problem.items[want.items[0]].used_up]
        if all(sum(uses.get(item, 0) for item in want.items) >= want.count for want in wants):
            return option.level
    return NOT_SERVED


def _apart(problem: Problem, found: Solution) -> bool:
    """No `depth` demands together use more of an item than there is for them."""
    for item, van in product(range(len(problem.items)), (True, False)):
        uses = sorted(
            (
                use.get(item, 0)
                for demand, use in zip(problem.demands, found.uses, strict=True)
                if van or not demand.van
            ),
            reverse=True,
        )
        rows = zip(problem.pools, found.amounts, strict=True)
        if sum(uses[: problem.depth]) > sum(row[item] for pool, row in rows if van or not pool.van):
            return False
    return True


def feasible(problem: Problem, amounts: Sequence[Sequence[int]]) -> bool:
    """Limits of mass, keys beside tools, stock."""
    items = problem.items
    for pool, row in zip(problem.pools, amounts, strict=True):
        if (
            sum(n * item.mass for n, item in zip(row, items, strict=True)) > pool.limit
            or min(row, default=0) < 0
        ):
            return False
        if any(n and item.key is not None and row[item.key] < n for n, item in zip(row, items, strict=True)):
            return False
    return all(
        used <= problem.stock[part].count + problem.stock[part].buyable
        for part, used in taken(problem, amounts).items()
    )


def taken(problem: Problem, amounts: Sequence[Sequence[int]]) -> dict[tuple[str, str], int]:
    """How many of each part of the club the amounts take."""
    counts: dict[tuple[str, str], int] = {}
    for row in amounts:
        for n, item in zip(row, problem.items, strict=True):
            for part, uses in item.parts if n else ():
                counts[part] = counts.get(part, 0) + n * uses
    return counts


def bought(problem: Problem, amounts: Sequence[Sequence[int]]) -> dict[tuple[str, str], int]:
    """How many of each part are more than there are."""
    return {
        part: used - problem.stock[part].count
        for part, used in taken(problem, amounts).items()
        if used > problem.stock[part].count
    }


def _loads(problem: Problem, amounts: Sequence[Sequence[int]]) -> tuple[int, int, int, int]:
    mass = {True: 0, False: 0}
    order = 0
    for p, (pool, row) in enumerate(zip(problem.pools, amounts, strict=True)):
        for i, (n, item) in enumerate(zip(row, problem.items, strict=True)):
            mass[pool.van] += n * item.mass
            order += n * order_weight(i * len(problem.pools) + p)
    cost = sum(n * problem.stock[part].cost for part, n in bought(problem, amounts).items())
    return mass[False], cost, mass[True], order


def bounded(problem: Problem, values: Sequence[int], goals: Sequence[GoalId] = GOALS) -> tuple[int, ...]:
    """The least that each goal can be in the second formulation, the goals before it fixed at what was found: first
    with columns that need not be whole, which is often enough, else with whole ones."""
    program = by_rungs(problem)
    loose = solver(program, presolve=False, whole=False)
    bounds: list[int] = []
    for number, (goal, value) in enumerate(zip(goals, values, strict=True)):
        terms, offset = program.goals[goal], program.offset.get(goal, 0)
        columns = minimise(loose, terms)
        least = _least(sum(weight * columns[at] for at, weight in terms), terms) + offset
        bounds.append(least if least == value else _in_whole(program, number, values, goals))
        fix(loose, terms, value - offset)
    return tuple(bounds)


def _least(loose: float, terms: Terms) -> int:
    """The next whole multiple of what all weights share, allowing for what the solver may be off by."""
    step = gcd(*(weight for _, weight in terms)) or 1
    return step * ceil((loose - SLIP * max(1.0, abs(loose))) / step)


def _in_whole(program: Program, number: int, values: Sequence[int], goals: Sequence[GoalId]) -> int:
    """The optimum of one goal in whole numbers."""
    highs = solver(program, presolve=False)
    for goal, value in zip(goals[:number], values, strict=False):
        fix(highs, program.goals[goal], value - program.offset.get(goal, 0))
    terms = program.goals[goals[number]]
    columns = minimise(highs, terms)
    return sum(weight * round(columns[at]) for at, weight in terms) + program.offset.get(goals[number], 0)
