"""Prints how many acts a volunteer needs to a verdict that stands, and how often it is kinder than the truth.

python -m tests.volunteer [COUNT]
"""

import sys
from collections import Counter
from collections.abc import Sequence
from statistics import median

from tests.volunteer.run import Story, stories

COUNT = 300


def main(count: int) -> int:
    told = list(stories(count))
    groups = {
        "own link, came with the chain": [s for s in told if s.joint.kind == "same-type"],
        "same size, other make": [s for s in told if s.joint.kind == "same-size"],
        "wrong or damaged": [s for s in told if s.joint.kind == "wrong"],
        "all": told,
    }
    print(f"{'joints':32}{'n':>5}{'median':>8}{'95 %':>6}{'worst':>7}{'counts as':>11}{'kinder':>8}")
    for name, group in groups.items():
        print(_row(name, group))
    wrong = list(stories(count, misreported=0.05))
    print(f"with 5 % of looks misreported: {sum(s.kinder for s in wrong)} of {count} kinder than the truth")
    print(
        f"verdicts: {dict(Counter(s.printed for s in told))}, truth: {dict(Counter(s.truth for s in told))}"
    )
    return int(any(s.kinder for s in told))


def _row(name: str, group: Sequence[Story]) -> str:
    acts = sorted(len(s.acts) for s in group)
    late = acts[min(len(acts) - 1, -(-95 * len(acts) // 100) - 1)]
    open_ = 100 * sum(not s.one_rung for s in group) / len(group)
    kinder = sum(s.kinder for s in group)
    return f"{name:32}{len(group):5}{median(acts):8g}{late:6}{acts[-1]:7}{open_:9.0f} %{kinder:8}"


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1]) if len(sys.argv) > 1 else COUNT))
