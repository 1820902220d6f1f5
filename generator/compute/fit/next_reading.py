"""What to measure next: the reading that blurs the undecided check most, and how close it must be.

Goes in: an option judged closely.  Comes out: a MeasureNext, or None where all is decided.
"""

from collections.abc import Iterator
from fractions import Fraction

from generator.compute.fit.detail import Look
from generator.compute.fit.judge import Closely
from generator.compute.fit.readings import Behind
from generator.compute.fit.result import MeasureNext, Reading
from generator.compute.fit.rules import CheckPlan
from generator.model.dataset import Shelf
from generator.model.quantity import NM_PER_MM
from generator.validate.measure import best_error

# asked-for closeness is given in steps a caliper shows
STEP_NM = NM_PER_MM // 100


def measure_next(look: Look, shelf: Shelf) -> MeasureNext | None:
    """For the deciding check where it is open, else for the open check that could be worst."""
    closely, at = look.closely, look.at
    check = open_check(closely, at)
    if check is None or check.category is not None:
        return None
    missing = list(_missing(look, check))
    if missing:
        return MeasureNext(missing[0], closest_possible(missing[0], shelf))
    row = _blurred_row(closely, check, at)
    shares = list(_shares(look, row))
    if not shares:
        return None
    total = sum((share for _, share, _ in shares), Fraction(0))
    most, share, weight = max(shares, key=lambda each: each[1])
    nominal = int(closely.values.nominal[row][at])
    # a row below zero must stay below it, one at or above zero may touch it
    room = (nominal if nominal >= 0 else -nominal - 1) - (total - share)
    within = int(room / weight) // STEP_NM * STEP_NM
    return MeasureNext(most, within if within > 0 else None)


def open_check(closely: Closely, at: int) -> CheckPlan | None:
    """The deciding check where it is open, else the open one that could be worst."""
    best, worst = closely.judged.check_best[:, at], closely.judged.check_worst[:, at]
    order = [int(closely.judged.deciding[at]), *sorted(range(len(best)), key=lambda i: (-worst[i], i))]
    return next((closely.plan.checks[i] for i in order if best[i] < worst[i]), None)


def _missing(look: Look, check: CheckPlan) -> Iterator[Reading]:
    rows = dict.fromkeys(row for asked in check.asked for clause in asked for row in clause)
    for symbol in dict.fromkeys(name for row in rows for name, _ in look.closely.plan.rows[row].terms):
        if look.closely.columns[symbol].missing[look.at]:
            yield from (b.reading for b in look.readings(symbol) if b.quantity is None)


def _blurred_row(closely: Closely, check: CheckPlan, at: int) -> int:
    """The row that straddles zero by most among those that keep the check from its better rung."""
    i = closely.plan.checks.index(check)
    rung = max(int(closely.judged.check_worst[i][at]) - 1, 0)
    low, high = closely.values.low, closely.values.high
    rows = [row for clause in check.asked[rung] for row in clause]
    return min(rows, key=lambda row: (not low[row][at] < 0 <= high[row][at], int(low[row][at])))


def _shares(look: Look, row: int) -> Iterator[tuple[Reading, Fraction, Fraction]]:
    """(reading, how far it blurs the row, how strongly it counts) for each reading with a width."""
    for symbol, coefficient in look.closely.plan.rows[row].terms:
        for each in look.readings(symbol):
            weight = abs(coefficient) * each.weight
            yield each.reading, weight * _half(each), weight


def _half(each: Behind) -> Fraction:
    """How far the reading may lie from its nominal, to the wider side."""
    known = each.quantity
    return Fraction(max(known.nominal - known.low, known.high - known.nominal)) if known else Fraction(0)


def closest_possible(reading: Reading, shelf: Shelf) -> int | None:
    """The plus-minus in nm that the recipe and the best shipped instrument for it can reach."""
    name = f"{reading.kind}.{reading.field}"
    recipe = next((r for r in shelf.recipes.values() if name in r.fields), None)
    if recipe is None:
        return None
    added = max(recipe.minus.readings[0], recipe.plus.readings[0])
    return int(added + best_error(recipe.contact, shelf))
