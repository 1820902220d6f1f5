"""The question as whole numbers: items, pools that carry them, demands and the options that serve each."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

# (kind, id) of a part or tool of the club
PartKey = tuple[str, str]
# a level is four times the rung of the repair, and the rung that its joint alone would have
RUNGS_A_LEVEL = 4
# the level of a demand that nothing serves
NOT_SERVED = 3 * RUNGS_A_LEVEL


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
    """A failure of a bike, or several that are served alike with their weights together; one that `must` be served by
    any of its options weighs nothing."""

    weight: int
    van: bool
    options: tuple[Option, ...]
    must: bool = False


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


@dataclass(frozen=True)
class Problem:
    """`depth` failures at once must not share what is used up."""

    items: tuple[Item, ...]
    demands: tuple[Demand, ...]
    pools: tuple[Pool, ...]
    stock: Mapping[PartKey, Stock]
    depth: int = 1

    @cached_property
    def most(self) -> tuple[int, ...]:
        """No plan needs more of each item."""
        wanted = [0] * len(self.items)
        wants = {want for demand in self.demands for option in demand.options for want in option.wants}
        for want in wants:
            for item in want.items:
                wanted[item] = max(wanted[item], self.depth * want.count)
        most = [
            min([*self._left(item), wanted[at] if item.used_up else 1]) for at, item in enumerate(self.items)
        ]
        return tuple(
            count if item.key is None or most[item.key] else 0
            for count, item in zip(most, self.items, strict=True)
        )

    def _left(self, item: Item) -> Iterator[int]:
        """How many there could be, part by part."""
        for part, uses in item.parts:
            stock = self.stock.get(part)
            if stock is not None:
                yield (stock.count + stock.buyable) // uses


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
    return one.level <= other.level and all(
        any(_implied(want, by) for by in other.wants) for want in one.wants
    )


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
    return tuple(level_of(demand, every if demand.van else group) for demand in problem.demands)


def level_of(demand: Demand, amounts: Sequence[int]) -> int:
    """Options are kept in the order of their levels."""
    return next((option.level for option in demand.options if met(option, amounts)), NOT_SERVED)


def met(option: Option, amounts: Sequence[int]) -> bool:
    return all(sum(amounts[item] for item in want.items) >= want.count for want in option.wants)


def ideal_levels(problem: Problem) -> tuple[int, ...]:
    """The level that each demand reaches with all there is, were there no limits: no plan does better."""
    group = problem.most if any(not pool.van for pool in problem.pools) else (0,) * len(problem.items)
    return tuple(level_of(demand, problem.most if demand.van else group) for demand in problem.demands)


def sure(problem: Problem, levels: Sequence[int]) -> tuple[bool, ...]:
    """The demands that reach their level in every plan that is best for the joints: no other loses by what they take.

    That is so where one rider's load may hold everything and some way takes only pieces whose parts are enough for all.
    """
    everything = sum(most * item.mass for most, item in zip(problem.most, problem.items, strict=True))
    if problem.depth > 1 or not any(not pool.van and everything <= pool.limit for pool in problem.pools):
        return (False,) * len(problem.demands)
    amounts = [n if free else 0 for n, free in zip(problem.most, _free(problem), strict=True)]
    return tuple(
        level == NOT_SERVED
        or any(option.level == level and met(option, amounts) for option in demand.options)
        for demand, level in zip(problem.demands, levels, strict=True)
    )


def _free(problem: Problem) -> list[bool]:
    """Of which items as many as are ever needed can be carried, whatever else is."""
    need: dict[PartKey, int] = {}
    for most, item in zip(problem.most, problem.items, strict=True):
        for part, uses in item.parts:
            need[part] = need.get(part, 0) + most * uses
    short = {part for part, at in problem.stock.items() if need.get(part, 0) > at.count + at.buyable}
    alone = [all(part not in short for part, _ in item.parts) for item in problem.items]
    return [
        free and (item.key is None or alone[item.key])
        for free, item in zip(alone, problem.items, strict=True)
    ]


def with_musts(problem: Problem, levels: Sequence[int], musts: Sequence[bool]) -> Problem:
    """The same question where some demands must reach their level: what has a single way is asked for together, what is
    then there anyway no more.  A demand that nothing serves is left out."""
    asked = [
        (demand.van, tuple(option.wants for option in demand.options if option.level == level))
        for demand, level, must in zip(problem.demands, levels, musts, strict=True)
        if must and level < NOT_SERVED
    ]
    single = {
        van: [want for at, ways in asked if at is van and len(ways) == 1 for want in ways[0]]
        for van in (False, True)
    }
    # what riders carry serves those whom the van reaches as well
    of_riders = _least_wants(single[False], (), len(problem.items))
    of_all = _least_wants(single[True], of_riders, len(problem.items))
    demands = [_must(van, [wants]) for van, wants in ((False, of_riders), (True, of_all)) if wants]
    for van, ways in dict.fromkeys(each for each in asked if len(each[1]) > 1):
        there = (*of_riders, *of_all) if van else of_riders
        left = [_not_implied(wants, there) for wants in ways]
        if all(left):
            demands.append(_must(van, left))
    rest = (demand for demand, must in zip(problem.demands, musts, strict=True) if not must)
    return replace(problem, demands=(*dict.fromkeys(demands), *rest))


def _must(van: bool, ways: Iterable[tuple[Want, ...]]) -> Demand:
    return Demand(0, van, pruned(Option(0, wants) for wants in ways), must=True)


def _least_wants(wants: Iterable[Want], there: Sequence[Want], items: int) -> tuple[Want, ...]:
    """Those that follow neither from another nor from what is there, in a fixed order."""
    asked = sorted({*wants} - {*there}, key=lambda want: (len(want.items), -want.count, want.items))
    rows = [*asked, *there]
    sets = np.zeros((len(rows), items), dtype=bool)
    for row, want in zip(sets, rows, strict=True):
        row[list(want.items)] = True
    bits = np.packbits(sets, axis=1)
    counts = np.array([want.count for want in rows])
    follows = counts[:, None] >= counts[: len(asked)]
    for byte in bits.T:
        follows &= byte[:, None] & ~byte[: len(asked)] == 0
    np.fill_diagonal(follows, False)
    needless = np.any(follows, axis=0).tolist()
    return tuple(want for want, less in zip(asked, needless, strict=True) if not less)


def _not_implied(wants: Iterable[Want], there: Sequence[Want]) -> tuple[Want, ...]:
    return tuple(want for want in wants if not any(_implied(want, by) for by in there))
