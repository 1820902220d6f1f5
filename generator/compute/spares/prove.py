"""A plan found by the solver, checked again in whole numbers and bounded by a second formulation without presolve."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import product
from math import gcd
from operator import add

from generator.compute.spares.formulations import by_options, by_rungs
from generator.compute.spares.problem import (
    NOT_SERVED,
    RUNGS_A_LEVEL,
    Demand,
    Problem,
    ideal_levels,
    levels_of,
    sure,
    with_musts,
)
from generator.compute.spares.result import GOALS, GoalId, Proof, Tell, unheard
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


@dataclass(frozen=True, slots=True)
class Proven:
    """Amounts (pools x items) with their proof."""

    amounts: tuple[tuple[int, ...], ...]
    uses: tuple[dict[int, int], ...]
    proof: Proof


def proven(problem: Problem, tell: Tell = unheard) -> Proven:
    """First with every demand at its ideal level, which no plan betters; where limits or stock forbid that, with only
    those at theirs that take from no other."""
    levels = ideal_levels(problem)
    every = (True,) * len(problem.demands)
    found = _answer(problem, levels, every, tell) if problem.depth == 1 else None
    found = found or _answer(problem, levels, sure(problem, levels), tell)
    if found is None:
        raise RuntimeError("the solver has no plan, though one that carries nothing is always there")
    solution, values, bounds = found
    goals = tuple(zip(GOALS, values, bounds, strict=True))
    sound = values == bounds == recount(problem, solution)
    return Proven(solution.amounts, solution.uses, Proof(version(), goals, sound))


def _answer(
    problem: Problem, levels: Sequence[int], musts: Sequence[bool], tell: Tell
) -> tuple[Solution, tuple[int, ...], tuple[int, ...]] | None:
    """The best plan with those demands at their level, its goals and their bounds; None where no load does it."""
    asked = with_musts(problem, levels, musts)
    try:
        found = solve(by_options(asked), tell=tell)
    except Infeasible:
        return None
    kept = zip(problem.demands, levels, musts, strict=True)
    reached = [(demand, level) for demand, level, must in kept if must]
    sums = (*_weights(reached), *(0 for _ in GOALS[4:]))
    bounds = bounded(asked, found.values, tell=tell)
    return found, _added(found.values, sums), _added(bounds, sums)


def _added(values: Sequence[int], more: Sequence[int]) -> tuple[int, ...]:
    return tuple(map(add, values, more))


def _weights(reached: Iterable[tuple[Demand, int]]) -> tuple[int, ...]:
    """Weight that is not served, at last-resort and at get-home, and of joints below proper."""
    found = [(demand.weight, *divmod(level, RUNGS_A_LEVEL)) for demand, level in reached]
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
    return (*_weights(zip(problem.demands, levels, strict=True)), *_loads(problem, found.amounts))


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


def bounded(
    problem: Problem, values: Sequence[int], goals: Sequence[GoalId] = GOALS, tell: Tell = unheard
) -> tuple[int, ...]:
    """The least that each goal can be in the second formulation, the goals before it fixed at what was found."""
    program = by_rungs(problem)
    return tuple(_bound(program, number, values, goals, tell) for number in range(len(goals)))


def _step(terms: Terms) -> int:
    """A goal rises and falls by whole multiples of what all weights share."""
    return gcd(*(weight for _, weight in terms)) or 1


def _bound(program: Program, number: int, values: Sequence[int], goals: Sequence[GoalId], tell: Tell) -> int:
    """The value itself where nothing is a step better; else the least there is."""
    tell("proving", goals[number])
    if not program.goals[goals[number]]:
        return program.offset.get(goals[number], 0)
    highs = solver(program, finding=False)
    for goal, value in zip(goals[:number], values, strict=False):
        fix(highs, program.goals[goal], value - program.offset.get(goal, 0))
    terms, offset = program.goals[goals[number]], program.offset.get(goals[number], 0)
    fix(highs, terms, values[number] - offset - _step(terms))
    try:
        columns = minimise(highs, terms)
    except Infeasible:
        return values[number]
    return sum(weight * round(columns[at]) for at, weight in terms) + offset
