"""The same question written twice: by options chosen, and by rungs reached over single pieces.

The first finds the plan, the second, with presolve off, bounds it.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import pairwise, product

from generator.compute.spares.problem import NOT_SERVED, Demand, Option, Problem, Want
from generator.compute.spares.result import GoalId
from generator.compute.spares.solve import Program, Terms, level_goals, order_weight

# pool and item -> the columns that add up to the amount
Sums = list[list[Terms]]


def by_options(problem: Problem) -> Program:
    """A column for each option of each demand, one for being left; amounts as whole numbers."""
    program = Program()
    program.amount = [
        [program.column(_upper(problem, p, i)) for i in _items(problem)] for p in _pools(problem)
    ]
    sums: Sums = [[[(at, 1)] for at in row] for row in program.amount]
    bought = _carrying(problem, program, sums)
    of_level: list[dict[int, Terms]] = []
    for demand in problem.demands:
        uses = _uses(problem, program, demand)
        if demand.must:
            _serve(problem, program, demand, sums, uses)
            of_level.append({})
            continue
        chosen = [program.column(1) for _ in demand.options]
        left = program.column(1)
        program.equal([(at, 1) for at in (*chosen, left)], 1)
        columns: dict[int, Terms] = {NOT_SERVED: [(left, 1)]}
        for at, option in zip(chosen, demand.options, strict=True):
            columns.setdefault(option.level, []).append((at, 1))
            _meet(problem, program, demand, sums, option, at, uses)
        of_level.append(columns)
    _apart(problem, program, sums)
    program.goals = level_goals(problem, of_level) | _rest(problem, sums, bought)
    return program


def _serve(problem: Problem, program: Program, demand: Demand, sums: Sums, uses: dict[int, int]) -> None:
    """One of its options must be met."""
    if len(demand.options) == 1:
        _meet(problem, program, demand, sums, demand.options[0], None, uses)
        return
    chosen = [program.column(1) for _ in demand.options]
    program.at_least([(at, 1) for at in chosen], 1)
    for at, option in zip(chosen, demand.options, strict=True):
        _meet(problem, program, demand, sums, option, at, uses)


def _uses(problem: Problem, program: Program, demand: Demand) -> dict[int, int]:
    """Columns of the pieces the demand uses up, where others may fail at the same time."""
    uses: dict[int, int] = {}
    if problem.depth > 1:
        wanted = {i for option in demand.options for want in option.wants for i in want.items}
        uses = {i: program.column(problem.most[i]) for i in sorted(wanted) if problem.items[i].used_up}
    program.uses.append(uses)
    return uses


def _meet(
    problem: Problem,
    program: Program,
    demand: Demand,
    sums: Sums,
    option: Option,
    at: int | None,
    uses: dict[int, int],
) -> None:
    """Where the column is 1 (None: always), every want of the option is met by what the demand can reach."""
    for want in option.wants:
        have = [term for item in want.items for term in _within(problem, demand, sums, item)]
        own = [(uses[item], 1) for item in want.items if item in uses]
        for terms in (have, own) if own else (have,):
            if at is None:
                program.at_least(terms, want.count)
            else:
                program.at_least([*terms, (at, -want.count)], 0)


def _apart(problem: Problem, program: Program, sums: Sums) -> None:
    """The `depth` largest uses of an item together are no more than is carried: of all demands, and of those that no
    van reaches from the riders alone.  depth * t + sum s <= amount with t + s >= use says just that."""
    for item, van in product(_items(problem) if problem.depth > 1 else (), (True, False)):
        users = [
            uses[item]
            for demand, uses in zip(problem.demands, program.uses, strict=True)
            if item in uses and (van or not demand.van)
        ]
        if not users:
            continue
        top = program.column(problem.most[item])
        over = [program.column(problem.most[item]) for _ in users]
        have = [term for p in _pools(problem) if van or not problem.pools[p].van for term in sums[p][item]]
        program.at_least([*have, (top, -problem.depth), *((at, -1) for at in over)], 0)
        for use, beyond in zip(users, over, strict=True):
            program.at_least([(top, 1), (beyond, 1), (use, -1)], 0)


def by_rungs(problem: Problem) -> Program:
    """A column for each rung that a demand reaches, a yes or no for each single piece, and one for each want, option and
    rung however many demands have it.  Only pieces and wants of several need be whole: the rest follows."""
    program = Program()
    pieces = [
        [[program.column(1) for _ in range(_upper(problem, p, i))] for i in _items(problem)]
        for p in _pools(problem)
    ]
    for row in pieces:
        for same in row:
            for one, other in pairwise(same):
                program.at_least([(one, 1), (other, -1)], 0)
    sums: Sums = [[[(at, 1) for at in same] for same in row] for row in pieces]
    bought = _carrying(problem, program, sums)
    reached = _Reached(problem, program, sums)
    of_level = [reached.levels(number) for number in _numbers(problem)]
    _apart(problem, program, sums)
    program.goals = level_goals(problem, of_level) | _rest(problem, sums, bought)
    program.offset = {"worse-than-last-resort": sum(d.weight for d in problem.demands)}
    return program


@dataclass
class _Reached:
    """The columns that are 1 where a want is met, an option can be done, a level is reached: one a kind of each."""

    problem: Problem
    program: Program
    sums: Sums
    made: dict[tuple[object, ...], int] = field(default_factory=dict)
    said: set[tuple[int, int]] = field(default_factory=set)

    def levels(self, number: int) -> dict[int, Terms]:
        """`at[n]` is 1 where the demand reaches its n-th level or better; what lies at it exactly is at[n] - at[n - 1]."""
        demand = self.problem.demands[number]
        uses = _uses(self.problem, self.program, demand)
        options = [(option.level, self._option(number, option, uses)) for option in demand.options]
        if demand.must:
            self.program.at_least([(at, 1) for at in dict.fromkeys(at for _, at in options)], 1)
            return {}
        levels = sorted({level for level, _ in options})
        at = [self._any({column for of, column in options if of <= level}) for level in levels]
        for better, worse in pairwise(at):
            self._once(worse, better)
        exactly: dict[int, Terms] = {NOT_SERVED: [(at[-1], -1)] if at else []}
        for n, level in enumerate(levels):
            exactly[level] = [(at[n], 1), *([(at[n - 1], -1)] if n else [])]
        return exactly

    def _option(self, number: int, option: Option, uses: dict[int, int]) -> int:
        """Done where all its wants are met."""
        wants = sorted({self._want(number, want, uses) for want in option.wants})
        if len(wants) == 1:
            return wants[0]
        key = ("option", *wants)
        if key not in self.made:
            self.made[key] = self.program.column(1, whole=False)
            for want in wants:
                self._once(want, self.made[key])
        return self.made[key]

    def _want(self, number: int, want: Want, uses: dict[int, int]) -> int:
        """Met by what the demand can reach; with failures at once also by what is set aside for it."""
        demand = self.problem.demands[number]
        key = (number if uses else demand.van, want)
        if key not in self.made:
            at = self.made[key] = self.program.column(1, whole=want.count > 1)
            have = [term for item in want.items for term in _within(self.problem, demand, self.sums, item)]
            self.program.at_least([*have, (at, -want.count)], 0)
            own = [(uses[item], 1) for item in want.items if item in uses]
            if own:
                self.program.at_least([*own, (at, -want.count)], 0)
            # of several any piece may be missing, and one less is still there
            for less in have if want.count > 1 else ():
                self.program.at_least([*(term for term in have if term != less), (at, 1 - want.count)], 0)
        return self.made[key]

    def _any(self, columns: set[int]) -> int:
        if len(columns) == 1:
            return min(columns)
        key = ("any", *sorted(columns))
        if key not in self.made:
            self.made[key] = self.program.column(1, whole=False)
            self.program.at_least([*((at, 1) for at in sorted(columns)), (self.made[key], -1)], 0)
        return self.made[key]

    def _once(self, larger: int, smaller: int) -> None:
        """A row said once, however many demands ask for it."""
        if larger != smaller and (larger, smaller) not in self.said:
            self.said.add((larger, smaller))
            self.program.at_least([(larger, 1), (smaller, -1)], 0)


def _within(problem: Problem, demand: Demand, sums: Sums, item: int) -> Iterator[tuple[int, int]]:
    for p in _pools(problem):
        if demand.van or not problem.pools[p].van:
            yield from sums[p][item]


def _carrying(problem: Problem, program: Program, sums: Sums) -> Terms:
    """Limits of the pools, keys beside their tools, and the stock; what is bought, with its cost."""
    for p, pool in enumerate(problem.pools):
        load = [(at, w * problem.items[i].mass) for i in _items(problem) for at, w in sums[p][i]]
        program.at_most(load, pool.limit)
        for i in _items(problem):
            key = problem.items[i].key
            if key is not None and sums[p][i]:
                program.at_least([*sums[p][key], *((at, -w) for at, w in sums[p][i])], 0)
    bought: Terms = []
    for part, stock in problem.stock.items():
        used = [
            (at, w * uses)
            for i in _items(problem)
            for of, uses in problem.items[i].parts
            if of == part
            for p in _pools(problem)
            for at, w in sums[p][i]
        ]
        if used and stock.buyable:
            more = program.column(stock.buyable)
            bought.append((more, stock.cost))
            program.at_most([*used, (more, -1)], stock.count)
        elif used:
            program.at_most(used, stock.count)
    return bought


def _rest(problem: Problem, sums: Sums, bought: Terms) -> dict[GoalId, Terms]:
    """Mass on riders, cost, mass in the van, and the fixed order."""
    every = [(p, i, at, w) for p in _pools(problem) for i in _items(problem) for at, w in sums[p][i]]
    mass = {
        van: [(at, w * problem.items[i].mass) for p, i, at, w in every if problem.pools[p].van is van]
        for van in (True, False)
    }
    order = [(at, w * order_weight(i * len(problem.pools) + p)) for p, i, at, w in every]
    return {"mass_mg": mass[False], "cost_cent": bought, "van_mass_mg": mass[True], "order": order}


def _pools(problem: Problem) -> range:
    return range(len(problem.pools))


def _numbers(problem: Problem) -> range:
    return range(len(problem.demands))


def _items(problem: Problem) -> range:
    return range(len(problem.items))


def _upper(problem: Problem, pool: int, item: int) -> int:
    """Nothing lies in a van that reaches nobody."""
    useful = not problem.pools[pool].van or any(demand.van for demand in problem.demands)
    return problem.most[item] if useful else 0
