"""Spares lists of random clubs, 40 bikes x 60 items: processor time until proven and rechecked, beside a second open solver.

`python -m tests.bench.spares` prints seeds, the 50th and 95th of a hundred, and the same questions (first goal to last,
each earlier optimum fixed) put to CBC by way of pulp, if that is installed.
"""

import os
import statistics
from random import Random

from generator.compute.spares.formulations import by_options
from generator.compute.spares.problem import Demand, Item, Option, Pool, Problem, Stock, Want, merged, pruned
from generator.compute.spares.prove import proven
from generator.compute.spares.result import GOALS
from generator.compute.spares.solve import Program

SEEDS = range(20)
BIKES, FAILURES, TOOLS, PARTS = 40, 20, 12, 48
CHAINS = 10


def club_problem(seed: int) -> Problem:
    """Ten chains among 40 bikes; every failure has options with parts of its chain, tools, at several rungs."""
    random = Random(seed)
    tools = [
        Item(((("tool", f"t{i}"), 1),), random.randint(40, 600) * 1000, False, 0 if i in (1, 2) else None)
        for i in range(TOOLS)
    ]
    parts = [Item(((("part", f"p{i}"), 1),), random.randint(1, 40) * 1000, True) for i in range(PARTS)]
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
    pools = (Pool(BIKES * 100_000), Pool(50_000_000, van=True))
    return Problem((*tools, *parts), merged(demands), pools, stock)


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
    import pulp  # type: ignore[import-not-found]

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


def main() -> None:
    ours, theirs, differ, open_ = [], [], 0, 0
    for seed in SEEDS:
        problem = club_problem(seed)
        start = _cpu()
        found = proven(problem)
        ours.append(_cpu() - start)
        open_ += not found.proof.rechecked
        try:
            start = _cpu()
            values = by_cbc(by_options(problem))
            theirs.append(_cpu() - start)
            differ += values[:-1] != [value for _, value, _ in found.proof.goals][:-1]
        except ImportError:
            continue
    print(
        f"seeds {SEEDS.start} to {SEEDS.stop - 1}, {BIKES} bikes x {TOOLS + PARTS} items, {BIKES * FAILURES} failures"
    )
    print(_line("proven and rechecked", ours), f"{open_} not rechecked")
    print(_line("CBC, goals only", theirs) if theirs else "CBC is not installed", f"{differ} differ")


def _line(what: str, seconds: list[float]) -> str:
    nth = statistics.quantiles(seconds, n=20)
    return f"{what}: median {statistics.median(seconds) * 1000:.0f} ms, p95 {nth[-1] * 1000:.0f} ms;"


if __name__ == "__main__":
    main()
