"""The question as whole numbers: items, pools that carry them, demands and the options that serve each."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

# (kind, id) of a part or tool of the club
PartKey = tuple[str, str]
# a level is four times the rung of the repair, and the rung that its joint alone would have
RUNGS_A_LEVEL = 4
# the level of a demand that nothing serves
NOT_SERVED = 3 * RUNGS_A_LEVEL
# beyond so many demands the solver is sooner done with those that follow from others than we are
MOST_COMPARED = 120


@dataclass(frozen=True, slots=True)
class Item:
    """Something carried as one piece: a bag (link, clip, seals), a single part, or a tool.

    `parts` are the club's parts in it with their counts; `key` is the number of the item that must lie beside it.
    """

    parts: tuple[tuple[PartKey, int], ...]
    mass: int
    used_up: bool
    key: int | None = None


@dataclass(frozen=True, slots=True, order=True)
class Want:
    """`count` of any of these items, by number."""

    items: tuple[int, ...]
    count: int


@dataclass(frozen=True, slots=True, order=True)
class Option:
    """One way to serve a demand: every want met gives the level."""

    level: int
    wants: tuple[Want, ...]


@dataclass(frozen=True, slots=True)
class Demand:
    """A failure of a bike, or several that are served alike with their weights together."""

    weight: int
    van: bool
    options: tuple[Option, ...]


@dataclass(frozen=True, slots=True)
class Pool:
    """Carriers taken together; a van serves only demands that it reaches."""

    limit: int
    van: bool = False


@dataclass(frozen=True, slots=True)
class Stock:
    """So many there are, and how many may be bought at what cost in hundredths."""

    count: int
    buyable: int = 0
    cost: int = 0


@dataclass(frozen=True, slots=True)
class Problem:
    """`depth` failures at once must not share what is used up.  Where all `must` be served, no plan leaves one out."""

    items: tuple[Item, ...]
    demands: tuple[Demand, ...]
    pools: tuple[Pool, ...]
    stock: Mapping[PartKey, Stock]
    depth: int = 1
    must: bool = False

    def most(self, item: int) -> int:
        """No plan needs more of it."""
        it = self.items[item]
        here = [
            (stock.count + stock.buyable) // uses
            for part, uses in it.parts
            if (stock := self.stock.get(part)) is not None
        ]
        return min([*here, self._most_wanted(item) if it.used_up else 1])

    def _most_wanted(self, item: int) -> int:
        wants = (
            want.count
            for demand in self.demands
            for option in demand.options
            for want in option.wants
            if item in want.items
        )
        return self.depth * max(wants, default=0)


def merged(demands: Iterable[Demand]) -> tuple[Demand, ...]:
    """Those served alike become one, as failures one at a time may share everything."""
    weights: dict[tuple[bool, tuple[Option, ...]], int] = {}
    for demand in demands:
        key = (demand.van, demand.options)
        weights[key] = weights.get(key, 0) + demand.weight
    return tuple(Demand(weight, van, options) for (van, options), weight in weights.items())


def pruned(options: Iterable[Option]) -> tuple[Option, ...]:
    """Without those that another one makes needless: no worse rung, and every want met whenever theirs are."""
    kept: list[Option] = []
    for option in sorted(set(options), key=lambda each: (each.level, len(each.wants), each.wants)):
        if not any(_easier(other, option) for other in kept):
            kept.append(option)
    return tuple(kept)


def _easier(one: Option, other: Option) -> bool:
    return one.level <= other.level and _easier_wants(one, other)


def _implied(want: Want, by: Want) -> bool:
    return want.count <= by.count and set(by.items) <= set(want.items)


def levels_of(problem: Problem, amounts: Sequence[Sequence[int]]) -> tuple[int, ...]:
    """Best level of each demand with `amounts` (pools x items), in plain whole numbers.

    For one failure at a time; what is used up is not missed by another.
    """
    group = [0] * len(problem.items)
    every = [0] * len(problem.items)
    for pool, row in zip(problem.pools, amounts, strict=True):
        for item, amount in enumerate(row):
            every[item] += amount
            group[item] += 0 if pool.van else amount
    return tuple(_level(demand, every if demand.van else group) for demand in problem.demands)


def _level(demand: Demand, amounts: Sequence[int]) -> int:
    """Options are kept in the order of their levels."""
    return next((option.level for option in demand.options if met(option, amounts)), NOT_SERVED)


def met(option: Option, amounts: Sequence[int]) -> bool:
    return all(sum(amounts[item] for item in want.items) >= want.count for want in option.wants)


def ideal_levels(problem: Problem) -> tuple[int, ...]:
    """The level that each demand reaches with all there is, were there no limits: no plan does better."""
    group, van = ([0] * len(problem.items) for _ in range(2))
    pools = {pool.van for pool in problem.pools}
    for item in range(len(problem.items)):
        group[item] = problem.most(item) if False in pools else 0
        van[item] = problem.most(item)
    return tuple(_level(demand, van if demand.van else group) for demand in problem.demands)


def at_their_best(problem: Problem) -> Problem:
    """The same question where every demand must reach its ideal level; those that ask no more than another are left
    out."""
    asked = [
        Demand(0, demand.van, tuple(option for option in demand.options if option.level == level))
        for demand, level in zip(problem.demands, ideal_levels(problem), strict=True)
        if level < NOT_SERVED
    ]
    kept = tuple(dict.fromkeys(asked)) if problem.depth == 1 else tuple(asked)
    if problem.depth == 1 and len(kept) <= MOST_COMPARED:
        kept = tuple(
            one for one in kept if not any(_follows(one, other) for other in kept if other is not one)
        )
    return replace(problem, demands=kept, must=True)


def _follows(one: Demand, other: Demand) -> bool:
    """Is `one` served whenever `other` is?  Of two that say the same only the first is kept."""
    if one.van is False and other.van is True:
        return False
    implied = all(any(_easier_wants(mine, theirs) for mine in one.options) for theirs in other.options)
    return implied and not (
        other.van == one.van
        and all(any(_easier_wants(mine, theirs) for mine in other.options) for theirs in one.options)
        and (other.options, other.van) > (one.options, one.van)
    )


def _easier_wants(one: Option, other: Option) -> bool:
    return all(any(_implied(want, by) for by in other.wants) for want in one.wants)
