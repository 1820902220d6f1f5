"""The outside figures themselves: a wrong copy here would make every check above it worthless.

Each worked example is recalculated; what is marked printed-wrong must come out differently.
"""

from collections.abc import Iterator
from math import erf, sqrt
from typing import Any

import pytest

from tests.outside.figures import published

STACKS = {stack["id"]: stack for stack in published()["tolerance_stacks"]}


def _with_confidence(node: Any) -> Iterator[dict[str, Any]]:
    if isinstance(node, dict):
        if "confidence" in node:
            yield node
        for value in node.values():
            yield from _with_confidence(value)
    elif isinstance(node, list):
        for value in node:
            yield from _with_confidence(value)


def _normal_below(limit: float, mean: float, sd: float) -> float:
    return 0.5 * (1 + erf((limit - mean) / (sd * sqrt(2))))


def _signs(stack: dict[str, Any]) -> dict[str, int]:
    words = ("+ " + stack["form"]).split()
    return {name: 1 if sign == "+" else -1 for sign, name in zip(words[::2], words[1::2], strict=True)}


def _nominal(stack: dict[str, Any]) -> float:
    return float(sum(sign * stack["parts"][name][0] for name, sign in _signs(stack).items()))


def _spread(stack: dict[str, Any]) -> float:
    halves = [pair[1] for pair in stack["parts"].values()]
    return sqrt(sum(halves)) if stack.get("second") == "variance" else sqrt(sum(half**2 for half in halves))


def test_every_figure_names_its_source_and_how_sure_it_is() -> None:
    records = list(_with_confidence(published()))
    assert len(records) > 35
    for record in records:
        assert record["confidence"] in ("read", "memory")
        assert record["source"]


@pytest.mark.parametrize("name", sorted(STACKS))
def test_stacks_recalculate(name: str) -> None:
    stack = STACKS[name]
    assert _nominal(stack) == pytest.approx(stack["nominal"], abs=1e-9)
    # printed to two or three figures
    spread = stack.get("rss", stack.get("sd"))
    assert _spread(stack) == pytest.approx(spread, abs=0.005 if stack.get("rss_printed") else 5e-4)
    if "worst" in stack:
        worst = sum(pair[1] for pair in stack["parts"].values())
        assert worst == pytest.approx(stack["worst"])
        ends = (stack["nominal"] - worst, stack["nominal"] + worst)
        assert ends == pytest.approx((stack["low"], stack["high"]))


@pytest.mark.parametrize("name", sorted(n for n, s in STACKS.items() if "below" in s))
def test_probabilities_recalculate(name: str) -> None:
    stack = STACKS[name]
    below = _normal_below(stack["below"]["limit"], stack["nominal"], _spread(stack))
    assert below == pytest.approx(stack["below"]["probability"], abs=1e-5)
    printed_right = abs(below - stack["below"]["probability_printed"]) < 1e-5
    assert printed_right == (stack["recomputed"] == "agrees")


@pytest.mark.parametrize("name", sorted(n for n, s in STACKS.items() if s["recomputed"] == "printed-wrong"))
def test_a_wrongly_printed_spread_comes_out_differently(name: str) -> None:
    stack = STACKS[name]
    assert abs(_spread(stack) - stack.get("rss_of_source", stack.get("sd_of_source"))) > 0.01


def test_the_squeeze_example_follows_its_formula() -> None:
    example = published()["squeeze"]["example"]
    assert example["d"] - example["gap"] == pytest.approx(example["interference"])
    assert 100 * (example["d"] - example["gap"]) / example["d"] == pytest.approx(example["percent"], abs=0.05)


def test_uncertainty_conversions_recalculate() -> None:
    # GUM F.2.2.1, 4.3.7 and H.1, EA-4/02 S10, as published.yaml names them
    sums = published()["uncertainty"]
    assert sums["resolution"]["resolution"] / sqrt(12) == pytest.approx(sums["resolution"]["u"], abs=5e-5)
    for row in sums["rectangular"]["rows"]:
        assert row["half_width"] / sqrt(3) == pytest.approx(row["u"], abs=5e-5)
    budget, caliper, gauge = sums["resolution_budget"], sums["caliper_budget"], sums["end_gauge"]
    assert sqrt(sum(u**2 for u in budget["parts"])) == pytest.approx(budget["combined"], abs=5e-6)
    assert sqrt(sum(u**2 for u in gauge["parts_nm"])) == pytest.approx(gauge["combined_nm"], abs=0.5)
    assert caliper["mechanical_um"] / sqrt(3) == pytest.approx(caliper["u_mechanical_um"], abs=0.5)
    combined = sqrt(caliper["u_resolution_um"] ** 2 + caliper["u_mechanical_um"] ** 2)
    assert combined == pytest.approx(caliper["combined_um"], abs=0.5)
    assert caliper["k"] * combined / 1000 == pytest.approx(caliper["expanded_mm"], abs=0.005)
