"""The verdicts of all options of one case without their details: each check judged once for the parts it depends on.

Goes in: options, columns, categories and the plan of a case.  Comes out: rungs and preference of each option, the same
that a close look at it gives.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from generator.compute.fit.categories import PARTS_OF_CATEGORY
from generator.compute.fit.columns import Ints, Spread, taken
from generator.compute.fit.evaluate import Categories, check_rungs, row_values
from generator.compute.fit.joint import PARTS_BEHIND
from generator.compute.fit.options import PARTS, Options, Parts
from generator.compute.fit.packed import Packed, Quick
from generator.compute.fit.rules import CheckPlan, Clauses, Plan


@dataclass(frozen=True, slots=True)
class Share:
    """The checks of a plan that depend on the same parts, as a plan of their own."""

    parts: Parts
    plan: Plan


def shares_of(plan: Plan) -> tuple[Share, ...]:
    """The plan cut up by what its checks depend on, rule order kept within each; checks that depend on less
    go along with others, as few shares are worth more than few combinations."""
    own = [parts_of(plan, check) for check in plan.checks]
    parts = [_along_with(mine, own) for mine in own]
    return tuple(
        Share(mine, part_plan(plan, [check for check, its in zip(plan.checks, parts, strict=True) if its == mine]))
        for mine in dict.fromkeys(parts)
    )  # fmt: skip


def _along_with(mine: Parts, others: Sequence[Parts]) -> Parts:
    """The least parts of a share that has all of mine, but no share of single parts."""
    wider = [parts for parts in others if set(mine) <= set(parts) and len(parts) > 1]
    return min(wider, key=lambda parts: (len(parts), parts), default=mine)


def parts_of(plan: Plan, check: CheckPlan) -> Parts:
    """Which parts of an option a check looks at; what is not listed may look at all of them."""
    if check.category is not None:
        found = set(PARTS_OF_CATEGORY.get(check.category, PARTS))
    else:
        names = {name for row in _rows(check) for name, _ in plan.rows[row].terms}
        found = {part for name in names for part in PARTS_BEHIND.get(name, PARTS)}
    return tuple(part for part in PARTS if part in found)


def _rows(check: CheckPlan) -> list[int]:
    return sorted({row for asked in check.asked for clause in asked for row in clause})


def part_plan(plan: Plan, checks: Sequence[CheckPlan]) -> Plan:
    """Only these checks, and only the rows that decide them."""
    used = sorted({row for check in checks for row in _rows(check)})
    place = {row: at for at, row in enumerate(used)}

    def moved(clauses: Clauses) -> Clauses:
        return tuple(tuple(place[row] for row in clause) for clause in clauses)

    kept = tuple(
        replace(c, clearance=(), edges=(), asked=(moved(c.asked[0]), moved(c.asked[1]), moved(c.asked[2])))
        for c in checks
    )
    return Plan(plan.scale, tuple(plan.rows[row] for row in used), kept)


def judge_quickly(
    shares: Sequence[Share],
    options: Options,
    columns: Mapping[str, Spread],
    categories: Categories,
    index: Ints,
) -> Quick:
    """The verdicts of the options at `index`, all of one case."""
    found = Packed(len(index))
    places = {part: getattr(options, part).take(index) for part in PARTS}
    for share in shares:
        some, inverse = distinct([places[part] for part in share.parts], len(index))
        at = index if some is None else index[some]
        names = {name for row in share.plan.rows for name, _ in row.terms}
        known = {
            id(getattr(options, part)): its if some is None else its.take(some)
            for part, its in places.items()
        }
        values = row_values(share.plan.rows, taken(columns, names, at, known), len(at))
        wanted = {check.category for check in share.plan.checks if check.category is not None}
        words = {name: categories[name].take(at) for name in wanted}
        found.add(share.plan.checks, check_rungs(share.plan, values, words, len(at)), inverse)
    return found.quick()


def distinct(places: Sequence[Ints], options: int) -> tuple[Ints | None, Ints | None]:
    """Positions, one for each combination of these places, and where every position finds its own among them;
    None twice: each stands for itself."""
    key = np.zeros(options, dtype=np.int64)
    size = 1
    for place in places:
        count = int(place.max(initial=0)) + 2
        key *= count
        key += place
        # position -1 is 'none'
        key += 1
        size *= count
    # options of a pair stand together, so that few combinations show as repeats
    if size > MOST_COMBINATIONS * len(key) or (len(places) > 2 and not (key[1:] == key[:-1]).any()):
        return None, None
    someone = np.full(size, -1, dtype=np.int64)
    someone[key] = np.arange(len(key))
    used = np.flatnonzero(someone >= 0)
    number = np.empty(size, dtype=np.int64)
    number[used] = np.arange(len(used))
    return someone[used], number.take(key)


# a table of combinations larger than this many times the options is not worth making
MOST_COMBINATIONS = 8
