"""All pair verdicts of 60 chains x 200 links against a bare numpy loop of compares, and against plain Python."""

import time
from collections.abc import Callable
from random import Random
from typing import Any

import numpy as np

from generator.compute.fit.columns import Ints, taken
from generator.compute.fit.evaluate import row_values
from generator.compute.fit.judge import Judge
from generator.compute.fit.options import bench
from generator.rules.plan import Clauses, Plan
from generator.rules.rows import Row
from tests.club_maker import sixty_by_two_hundred
from tests.clubs import checked
from tests.engine import every_option, reckoned

RUNS = 7
SAMPLE = 400
FRACTIONS_SAMPLE = 12
CHUNK = 8192


def pair_figures() -> dict[str, Any]:
    dataset = checked(sixty_by_two_hundred())
    judge = Judge(dataset, bench(dataset))
    shape = _shape(judge)
    judge.verdicts()
    engine = _best(judge.verdicts)
    from_dataset = _best(lambda: Judge(dataset, bench(dataset)).verdicts(), 3)
    options = len(judge.options)
    bare_dimensions = bare_seconds(options, shape["dimensions"])
    bare_limits = bare_seconds(options, shape["forms"])
    plain, differences = plain_python(judge)
    return {
        "chains": 60,
        "links": 200,
        "options": options,
        "dimensions": shape["dimensions"],
        "forms": shape["forms"],
        "seconds": engine,
        "seconds_from_dataset": from_dataset,
        "million_options_per_second": options / engine / 1e6,
        "of_bare_compares_per_dimension": bare_dimensions / engine,
        "of_bare_compares_per_limit": bare_limits / engine,
        "times_plain_python": plain * options / engine,
        "differences_plain_python": differences,
        "differences_fractions": fraction_differences(),
    }


def _best(function: Callable[[], object], runs: int = RUNS) -> float:
    """The fastest of several runs: what the machine can do when nobody else asks."""
    times = []
    for _ in range(runs):
        start = time.perf_counter()
        function()
        times.append(time.perf_counter() - start)
    return min(times)


def _shape(judge: Judge) -> dict[str, int]:
    """Dimensions read and linear forms compared for one option, on average."""
    dimensions = forms = 0
    for case, index in judge.cases:
        rows = judge.plans.plan(case).rows.values()
        dimensions += len({name for row in rows for name, _ in row.terms}) * len(index)
        forms += len(rows) * len(index)
    return {"dimensions": round(dimensions / len(judge.options)), "forms": round(forms / len(judge.options))}


def bare_seconds(options: int, dimensions: int) -> float:
    """Both ends of so many int64 dimensions compared with a limit, and nothing else."""
    random = np.random.default_rng(1)
    low = [random.integers(-1_000_000, 50_000_000, options) for _ in range(dimensions)]
    high = [values + 40_000 for values in low]
    return _best(lambda: _compare(low, high, options))


def _compare(low: list[Ints], high: list[Ints], options: int) -> int:
    kept = 0
    for start in range(0, options, CHUNK):
        end = min(start + CHUNK, options)
        sure, perhaps = np.ones(end - start, dtype=bool), np.ones(end - start, dtype=bool)
        for below, above in zip(low, high, strict=True):
            sure &= below[start:end] >= 0
            perhaps &= above[start:end] >= 0
        kept += int(sure.sum()) + int(perhaps.sum())
    return kept


def plain_python(judge: Judge) -> tuple[float, int]:
    """Seconds an option in plain Python, and on how many options of the sample it says something else."""
    verdicts = judge.verdicts()
    seconds, options, differences = 0.0, 0, 0
    for case, index in judge.cases:
        if dict(case)["stopped"] == "yes":
            continue
        chosen = index[:: max(1, len(index) // 40)][: SAMPLE // len(judge.cases)]
        plan, words, ends = _sampled(judge, judge.plans.plan(case), chosen)
        start = time.perf_counter()
        told = [_option(plan, words[n], ends[n]) for n in range(len(chosen))]
        seconds += time.perf_counter() - start
        options += len(chosen)
        differences += sum(
            (best, worst) != (int(verdicts.best[at]), int(verdicts.worst[at]))
            for (best, worst), at in zip(told, chosen.tolist(), strict=True)
        )
    return seconds / options, differences


def _sampled(judge: Judge, plan: Plan, at: Ints) -> tuple[Plan, list[dict[str, str]], list[dict[str, Any]]]:
    columns = taken(judge.columns, judge.columns, at)
    words = [{n: c.words[int(c.codes[o])] for n, c in judge.categories.items()} for o in at.tolist()]
    ends = [{n: (int(c.low[i]), int(c.high[i])) for n, c in columns.items()} for i in range(len(at))]
    # the rows are made once on arrays, so that a fault of this sample itself would show
    assert len(row_values(plan.rows, columns, len(at)).ends) == len(plan.rows)
    return plan, words, ends


def _option(plan: Plan, words: dict[str, str], ends: dict[str, tuple[int, int]]) -> tuple[int, int]:
    low: dict[int, int] = {}
    high: dict[int, int] = {}
    for number, row in plan.rows.items():
        low[number], high[number] = _row(row, ends)
    by_group: dict[str, tuple[int, int]] = {}
    for check in plan.checks:
        if check.category is not None:
            best, worst = dict(check.rungs)[words[check.category]]
        else:
            best = sum(_value(asked, high) < 0 for asked in check.asked)
            worst = sum(_value(asked, low) < 0 for asked in check.asked)
        before = by_group.get(check.group, (0, 0))
        by_group[check.group] = (max(before[0], best), max(before[1], worst))
    return _added_up([b for b, _ in by_group.values()]), _added_up([w for _, w in by_group.values()])


def _row(row: Row, ends: dict[str, tuple[int, int]]) -> tuple[int, int]:
    low = high = row.constant
    for name, coefficient in row.terms:
        first, last = ends[name]
        low += coefficient * (first if coefficient > 0 else last)
        high += coefficient * (last if coefficient > 0 else first)
    return low, high


def _value(clauses: Clauses, rows: dict[int, int]) -> int:
    return min(max(rows[row] for row in clause) for clause in clauses)


def _added_up(rungs: list[int]) -> int:
    overall = max(rungs)
    return 2 if overall == 1 and sum(rung >= 1 for rung in rungs) >= 4 else overall


def fraction_differences() -> int:
    """Options on which plain fractions say something else, of pairs taken at random."""
    dataset = checked(sixty_by_two_hundred())
    random = Random(0)
    differences = 0
    for _ in range(FRACTIONS_SAMPLE):
        chain, link = random.choice(list(dataset.chains)), random.choice(list(dataset.links))
        for told in every_option(dataset, [chain], [link]):
            joint = reckoned(dataset, told.way)
            found = (told.fit.best, told.fit.worst, told.fit.deciding)
            differences += found != (joint.best, joint.worst, joint.deciding)
    return differences
