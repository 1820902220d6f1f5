"""Small random questions of who carries what, and their answers by trying every load."""

from itertools import product
from random import Random

from generator.compute.spares.problem import Demand, Item, Option, Pool, Problem, Stock, Want, pruned
from generator.compute.spares.prove import recount
from generator.compute.spares.solve import Solution


def random_problem(seed: int, items: int = 6, demands: int = 5) -> Problem:
    """Parts and tools, some tools with a key, some demands out of the van's reach, limits that bind now and then."""
    random = Random(seed)
    tools = random.randint(1, items - 2)
    made = [
        Item(((("part", f"p{i}"), 1),), random.randint(1, 9) * 10, used_up=i >= tools) for i in range(items)
    ]
    if tools >= 2 and random.random() < 0.7:
        made[1] = Item(made[1].parts, made[1].mass, False, key=0)
    shared = random.random() < 0.4
    if shared and items - tools >= 2:
        # two bags that share a clip
        made[-1] = Item((*made[-1].parts, (("part", "clip"), 1)), made[-1].mass, True)
        made[-2] = Item((*made[-2].parts, (("part", "clip"), 1)), made[-2].mass, True)
    stock = {
        ("part", f"p{i}"): Stock(random.randint(0, 2), random.choice((0, 0, 1)), random.randint(1, 5) * 100)
        for i in range(items)
    }
    stock["part", "clip"] = Stock(random.randint(0, 2))
    asked = tuple(
        Demand(random.randint(1, 9), random.random() < 0.6, pruned(_options(random, items, tools)))
        for _ in range(demands)
    )
    pools = [Pool(random.choice((40, 90, 10_000)))]
    pools.extend([Pool(random.choice((60, 10_000)), van=True)] if random.random() < 0.5 else [])
    return Problem(tuple(made), asked, tuple(pools), stock)


def _options(random: Random, items: int, tools: int) -> list[Option]:
    found = []
    for _ in range(random.randint(0, 4)):
        parts = random.sample(range(tools, items), random.randint(1, min(2, items - tools)))
        wants = [Want(tuple(sorted(parts)), random.choice((1, 1, 2)))]
        if random.random() < 0.7:
            able = random.sample(range(tools), random.randint(1, min(2, tools)))
            wants.append(Want(tuple(sorted(able)), 1))
        found.append(
            Option(
                random.randint(0, 2) * 4 + random.randint(0, 2),
                tuple(sorted(wants, key=lambda want: want.items)),
            )
        )
    return found


def by_trying(problem: Problem) -> tuple[int, ...]:
    """The goals of the best of all loads, for one failure at a time."""
    most = [range(most + 1) for most in problem.most]
    best: tuple[int, ...] | None = None
    for flat in product(*(most * len(problem.pools))):
        width = len(problem.items)
        amounts = tuple(flat[at : at + width] for at in range(0, len(flat), width))
        goals = recount(problem, Solution((), amounts))
        if goals is not None and (best is None or goals < best):
            best = goals
    assert best is not None
    return best
