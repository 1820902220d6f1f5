"""How likely each rung is, by the deciding check alone: a remark for the bench, never a verdict.

Rectangular distributions added by root-sum-square: GUM 4.3.7 and 5.1.2, NIST TN 1297 4.6 and 5.1.
"""

from collections.abc import Callable, Mapping, Sequence
from math import erf, sqrt

from generator.compute.fit.judge import Closely
from generator.model.shipped import RUNGS
from generator.rules.joined import Behind
from generator.rules.plan import CheckPlan, Clauses

# the readings behind a name
Readings = Callable[[str], Sequence[Behind]]


def chance_percent(closely: Closely, at: int, readings: Readings) -> Mapping[str, int] | None:
    """Chance of each rung by the deciding check; None where a dimension is missing."""
    check = closely.plan.checks[int(closely.judged.deciding[at])]
    i = closely.plan.checks.index(check)
    best, worst = int(closely.judged.check_best[i][at]), int(closely.judged.check_worst[i][at])
    if best == worst:
        return {word: 100 * (rung == best) for rung, word in enumerate(RUNGS)}
    if check.category is not None or _misses(closely, check, at):
        return None
    reached = [chance_that_all_hold(closely, asked, at, readings) for asked in check.asked]
    # rungs nest, and what the interval rules out has no chance
    reached = [max(reached[: rung + 1]) for rung in range(3)]
    reached = [0.0 if rung < best else 1.0 if rung >= worst else p for rung, p in enumerate(reached)]
    shares = [p - q for p, q in zip([*reached, 1.0], [0.0, *reached], strict=True)]
    return dict(zip(RUNGS, whole_percents(shares), strict=True))


def _misses(closely: Closely, check: CheckPlan, at: int) -> bool:
    return any(closely.values.missing[row][at] for asked in check.asked for clause in asked for row in clause)


def chance_that_all_hold(closely: Closely, clauses: Clauses, at: int, readings: Readings) -> float:
    """1 - the sum of the chances to fail: exact for the two sides of one band, cautious otherwise."""
    fails = (min(_chance_negative(closely, row, at, readings) for row in clause) for clause in clauses)
    return max(0.0, 1.0 - sum(fails))


def _chance_negative(closely: Closely, row: int, at: int, readings: Readings) -> float:
    low, _, high = closely.values.ends[row][:, at].tolist()
    if low >= 0 or high < 0:
        return float(high < 0)
    variance = sum(spread**2 / 3 for spread in _spreads(closely, row, at, readings).values())
    return normal_below(0.0, (low + high) / 2, sqrt(variance))


def _spreads(closely: Closely, row: int, at: int, readings: Readings) -> Mapping[object, float]:
    """How far each reading moves the row at the most; one that stands behind several names moves them together."""
    found: dict[object, float] = {}
    for name, coefficient in closely.plan.rows[row].terms:
        column, behind = closely.columns[name], [each for each in readings(name) if each.quantity is not None]
        if len(behind) < 2:
            key = behind[0].reading if behind else name
            found[key] = found.get(key, 0.0) + coefficient * (int(column.high[at]) - int(column.low[at])) / 2
            continue
        for each in behind:
            assert each.quantity is not None
            half = (each.quantity.high - each.quantity.low) / 2
            found[each.reading] = found.get(each.reading, 0.0) + coefficient * float(each.weight) * half
    return found


def normal_below(limit: float, mean: float, deviation: float) -> float:
    """P(X < limit) for a normal X."""
    return 0.5 * (1 + erf((limit - mean) / (deviation * sqrt(2)))) if deviation else float(mean < limit)


def whole_percents(shares: list[float]) -> list[int]:
    """Shares of 1 as whole per cents that sum to 100 (largest remainder first)."""
    exact = [100 * share for share in shares]
    whole = [int(x) for x in exact]
    by_rest = sorted(range(len(exact)), key=lambda i: (whole[i] - exact[i], i))
    for i in by_rest[: 100 - sum(whole)]:
        whole[i] += 1
    return whole
