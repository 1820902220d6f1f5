"""Spares lists of random clubs, 40 bikes x 60 items: processor time until proven and rechecked, beside a second open solver.

Of each seed the first goal to the last, each earlier optimum fixed.  The second solver is CBC by way of pulp (for tests
only): it is given the first of our two formulations and proves nothing a second time.
"""

import os
import statistics
from random import Random
from typing import Any

import pulp  # type: ignore[import-untyped]

from generator.compute.spares.formulations import by_options
from generator.compute.spares.problem import Demand, Item, Option, Pool, Problem, Stock, Want, merged, pruned
from generator.compute.spares.prove import proven
from generator.compute.spares.result import GOALS
from generator.compute.spares.solve import Program

SEEDS = range(40)
BIKES, FAILURES, TOOLS, PARTS = 40, 20, 12, 48
CHAINS, CLIPS = 10, 4
# g that a rider carries: as in the trade's kits, and far too little for the tools that are asked for
USUAL, STARVED = 400, 60
STARVED_SEEDS = range(2)


def club_problem(seed: int, rider: int = USUAL) -> Problem:
    """Ten chains among 40 bikes; every failure has options with parts of its chain, tools, at several rungs; every
    fourth part is a bag that shares its clip with others."""
    random = Random(seed)
    tools = [
        Item(((("tool", f"t{i}"), 1),), random.randint(40, 600) * 1000, False, 0 if i in (1, 2) else None)
        for i in range(TOOLS)
    ]
    parts = [Item(_in_bag(i), random.randint(1, 40) * 1000, True) for i in range(PARTS)]
    of_chain = [
        [TOOLS + i for i in range(PARTS) if i % CHAINS in (c, (c + 1) % CHAINS)] for c in range(CHAINS)
    ]
    asked = [[pruned(_options(random, pool)) for _ in range(FAILURES)] for pool in of_chain]
    demands = [
        Demand(random.randint(1, 25), bike % 3 == 0, options)
        for bike in range(BIKES)
        for options in asked[bike % CHAINS]
    ]
    stock = {("tool", f"t{i}"): Stock(random.choice((0, 1, 1, 2))) for i in range(TOOLS)}
    stock |= {
        ("part", f"p{i}"): Stock(
            random.choice((0, 1, 2, 4)), random.choice((0, 2)), random.randint(1, 20) * 100
        )
        for i in range(PARTS)
    }
    stock |= {("clip", f"c{i}"): Stock(random.randint(1, 6)) for i in range(CLIPS)}
    pools = (Pool(BIKES * rider * 1000), Pool(50_000_000, van=True))
    return Problem((*tools, *parts), merged(demands), pools, stock)


def _in_bag(part: int) -> tuple[tuple[tuple[str, str], int], ...]:
    alone = ((("part", f"p{part}"), 1),)
    return alone if part % 4 else (*alone, (("clip", f"c{part // 4 % CLIPS}"), 1))


def _options(random: Random, pool: list[int]) -> list[Option]:
    found = []
    for _ in range(random.randint(1, 5)):
        wants = [Want(tuple(sorted(random.sample(pool, random.randint(1, 4)))), random.choice((1, 1, 2)))]
        for _ in range(random.randint(0, 2)):
            wants.append(Want(tuple(sorted(random.sample(range(TOOLS), random.randint(1, 2)))), 1))
        found.append(Option(random.randint(0, 2) * 4 + random.randint(0, 1), tuple(sorted(wants))))
    return found


def by_cbc(program: Program) -> list[int]:
    """The same columns and rows, goal by goal, in another open solver."""
    model = pulp.LpProblem("spares", pulp.LpMinimize)
    columns = [
        pulp.LpVariable(f"x{i}", 0, upper, "Integer" if whole else "Continuous")
        for i, (upper, whole) in enumerate(zip(program.upper, program.whole, strict=True))
    ]
    for terms, low, high in program.rows:
        total = pulp.lpSum(weight * columns[at] for at, weight in terms)
        if terms and low > -1e20:
            model += total >= low
        if terms and high < 1e20:
            model += total <= high
    values = []
    for goal in GOALS:
        total = pulp.lpSum(weight * columns[at] for at, weight in program.goals[goal])
        model.setObjective(total)
        model.solve(pulp.PULP_CBC_CMD(msg=False, gapRel=0, threads=1))
        values.append(round(pulp.value(total) or 0))
        model += total <= values[-1]
    return values


def _cpu() -> float:
    """Seconds of processor, of this process and of the solvers it started: both work on one thread."""
    spent = os.times()
    return spent.user + spent.system + spent.children_user + spent.children_system


def spares_figures() -> dict[str, Any]:
    return {
        "bikes": BIKES,
        "items": TOOLS + PARTS,
        "failures": BIKES * FAILURES,
        "usual": _family(SEEDS, USUAL, beside=True),
        "starved": _family(STARVED_SEEDS, STARVED, beside=False),
    }


def _family(seeds: range, rider: int, beside: bool) -> dict[str, Any]:
    """Seconds at the middle and at the 95th of a hundred, plans not rechecked, and plans that CBC values otherwise, where
    it is measured beside."""
    ours, theirs, differ, open_ = [], [], 0, 0
    for seed in seeds:
        problem = club_problem(seed, rider)
        start = _cpu()
        found = proven(problem)
        ours.append(_cpu() - start)
        open_ += not found.proof.rechecked
        if not beside:
            continue
        start = _cpu()
        values = by_cbc(by_options(problem))
        theirs.append(_cpu() - start)
        differ += values != [value for _, value, _ in found.proof.goals]
    return {
        "seeds": [seeds.start, seeds.stop - 1],
        "rider_g": rider,
        "seconds": _middle_and_95(ours),
        "cbc_seconds": _middle_and_95(theirs) if beside else None,
        "not_rechecked": open_,
        "cbc_differs": differ if beside else None,
    }


def _middle_and_95(seconds: list[float]) -> list[float]:
    return [statistics.median(seconds), statistics.quantiles(seconds, n=20, method="inclusive")[-1]]
