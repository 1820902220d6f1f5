"""Worked examples of others, each written as a rule file and a club folder and run through the engine as it is.

Outside sources: tests/outside/published.yaml names each; a figure marked printed-wrong must come out differently.
"""

from dataclasses import replace
from fractions import Fraction
from math import sqrt
from statistics import NormalDist, stdev
from typing import Any

import numpy as np
import pytest
import yaml

from generator.compute.fit.chance import chance_that_all_hold
from generator.compute.fit.fits import fit_table
from generator.compute.fit.judge import Closely, Judge
from generator.compute.fit.options import bench
from generator.compute.fit.result import PairFit, Span
from generator.load.files import read_shelf
from generator.model.chain_parts import Chain, Link
from generator.model.club import Instrument
from generator.model.dataset import Dataset
from generator.model.quantity import Quantity
from generator.validate.measure import measure_record
from generator.validate.shelf import build_shelf
from tests.clubs import exactly, shelf, shelf_files, unchecked
from tests.outside.figures import exact, in_mm, instruments, published

STACKS = {stack["id"]: stack for stack in published()["tolerance_stacks"]}
SUMS = published()["uncertainty"]
SQUEEZE = published()["squeeze"]
INCH = Fraction("25.4")
# fields of a link that stand in for the parts of an example, by symbol of the rule table
FIELDS = {
    "L": "pin_length", "G": "pin_reach", "gw": "groove_width", "t": "side_plate_thickness", "M": "shoulder_depth",
}  # fmt: skip


def rule_file(form: str, **limits: str) -> str:
    """One check of everything; limits of proper."""
    rule = {
        "title": "A worked example", "group": "body", "clearance": form, "proper": limits,
        "says": "The example's sum must lie within its limits.", "source": "common-practice[fit bands]",
        "evidence": "common-practice",
    }  # fmt: skip
    return yaml.safe_dump({"example": rule}, sort_keys=False)


def club_with(rules: str, lengths: dict[str, str]) -> Dataset:
    """A club folder of one link whose dimensions are the parts of the example, under the rules of this file."""
    files = {name: file.text.encode() for name, file in shelf_files().files.items()}
    own, problems = build_shelf(read_shelf({**files, "rules/joint.yaml": rules.encode()}))
    assert problems == []
    link = {
        "size_code": "520",
        "closure": "clip",
        # one seat, so one way to join the pair
        "plate_fit": "slip",
        "made_for": "plain",
        "condition": "new",
        **lengths,
    }
    chain = {"size_code": "520", "kind": "plain", "seal": "none"}
    dataset = unchecked({"chains": {"chain": chain}, "links": {"link": link}})
    return replace(dataset, shelf=own)


class Example:
    """One sum of toleranced parts, as the engine sees it."""

    def __init__(self, stack: dict[str, Any], halves: dict[str, float], **limits: str) -> None:
        symbols = dict(zip(stack["parts"], FIELDS, strict=False))
        # a sign that leads is written onto nought
        form = " ".join(symbols.get(word, word) for word in stack["form"].split())
        unit = stack.get("unit", "mm")
        lengths = {
            FIELDS[symbols[name]]: f"{value[0]} ± {_plain(halves[name])} {unit}"
            for name, value in stack["parts"].items()
        }
        self.dataset = club_with(rule_file(form, **limits), lengths)

    def fit(self) -> PairFit:
        return fit_table(self.dataset)[0]

    def clearance(self) -> Span:
        option = self.fit().option
        assert option is not None and option.deciding_check.clearance is not None
        return option.deciding_check.clearance

    def chance(self) -> float:
        """Of keeping the limits, before it is rounded to whole per cents."""
        judge = Judge(self.dataset, bench(self.dataset))
        closely: Closely = next(iter(judge.closely(np.arange(1))))
        return chance_that_all_hold(closely, closely.plan.checks[0].asked[0], 0, lambda _name: ())


def _plain(value: float) -> str:
    return f"{value:.9f}".rstrip("0").rstrip(".")


def lifted(stack: dict[str, Any]) -> dict[str, Any]:
    """Parts of nought made ten each, as no length is negative; a spread does not depend on where it lies."""
    parts = {name: [value + 10, half] for name, (value, half) in stack["parts"].items()}
    return {**stack, "parts": parts, "nominal": stack["nominal"] + 10 * len(parts)}


def printed_halves(stack: dict[str, Any]) -> dict[str, float]:
    """What is printed as ± taken as the half-width of a rectangular distribution, or made into one."""
    # GUM 4.3.7: half-width = standard deviation x sqrt(3)
    second = stack.get("second", "")
    if second == "variance":
        return {name: sqrt(variance) * sqrt(3) for name, (_, variance) in stack["parts"].items()}
    factor = sqrt(3) if second == "standard-deviation" else 1
    return {name: half * factor for name, (_, half) in stack["parts"].items()}


def in_unit(nanometres: float, stack: dict[str, Any]) -> float:
    return nanometres / 1e6 / (25.4 if stack["unit"] == "in" else 1)


@pytest.mark.parametrize("id_", ["textbook-example-1-3", "manufacturing-lesson"])
def test_worst_case_is_the_interval_of_the_clearance(id_: str) -> None:
    stack = STACKS[id_]
    span = Example(stack, printed_halves(stack), low="-40", high="40").clearance()
    assert in_unit(span.nominal, stack) == pytest.approx(stack["nominal"], abs=1e-12)
    assert (in_unit(span.low, stack), in_unit(span.high, stack)) == pytest.approx(
        (stack["low"], stack["high"]), abs=1e-12
    )
    assert in_unit((span.high - span.low) / 2, stack) == pytest.approx(stack["worst"], abs=1e-12)


def test_worst_case_of_inches_is_exact_in_whole_nanometres() -> None:
    stack = STACKS["textbook-example-1-3"]
    span = Example(stack, printed_halves(stack), low="-40").clearance()
    ends = [exact(stack[name]) * INCH * 1_000_000 for name in ("low", "nominal", "high")]
    assert [Fraction(span.low), Fraction(span.nominal), Fraction(span.high)] == ends


def test_the_part_that_would_keep_the_least_gap_of_the_textbook() -> None:
    # asked there: d for a least gap of 0.003 in; the book finds 0.867 in
    stack = STACKS["textbook-example-1-3"]
    wanted = stack["other"]
    parts = {**stack["parts"], "d": [wanted["is"], stack["parts"]["d"][1]]}
    changed = {**stack, "parts": parts}
    span = Example(changed, printed_halves(changed), low="-40").clearance()
    assert in_unit(span.low, stack) == pytest.approx(wanted["for_low"], abs=1e-12)


def test_worst_case_of_the_lesson_leaves_its_wanted_gap_open() -> None:
    stack = STACKS["manufacturing-lesson"]
    wanted = stack["wanted"]
    fit = Example(stack, printed_halves(stack), low=str(wanted["low"]), high=str(wanted["high"])).fit()
    assert (fit.word, fit.best, fit.worst) == ("measure-first", 0, 3)
    assert not wanted["met"]


# root-sum-square: T = sqrt(sum of t squared) (NIST TN 1297, 5.1); for rectangular parts the deviation is T / sqrt(3),
# and half the cases lie within 0.6745 of it, which shows the T that was reckoned
HALF_OF_CASES = NormalDist().inv_cdf(0.75)


@pytest.mark.parametrize(
    ("id_", "rss"),
    [("textbook-example-1-3", 0.006), ("manufacturing-lesson", 0.18), ("public-file-wrong-rss", 0.308)],
)
def test_root_sum_square_of_the_parts(id_: str, rss: float) -> None:
    stack = lifted(STACKS[id_]) if STACKS[id_]["nominal"] == 0 else STACKS[id_]
    assert rss == stack["rss"]
    deviation = rss / sqrt(3) * (25.4 if stack["unit"] == "in" else 1)
    middle = stack["nominal"] * (25.4 if stack["unit"] == "in" else 1)
    low, high = middle - HALF_OF_CASES * deviation, middle + HALF_OF_CASES * deviation
    chance = Example(stack, printed_halves(stack), low=_signed(low), high=_signed(high)).chance()
    # the lesson prints two figures of 0.18248
    assert chance == pytest.approx(0.5, abs=0.012 if id_ == "manufacturing-lesson" else 5e-4)


def _signed(value: float) -> str:
    return ("-" if value < 0 else "") + _plain(abs(value))


def test_a_root_sum_square_printed_wrong_does_not_come_out() -> None:
    stack = lifted(STACKS["public-file-wrong-rss"])
    assert stack["recomputed"] == "printed-wrong"
    half = HALF_OF_CASES * stack["rss_of_source"] / sqrt(3)
    ends = {"low": _plain(stack["nominal"] - half), "high": _plain(stack["nominal"] + half)}
    chance = Example(stack, printed_halves(stack), **ends).chance()
    assert abs(chance - 0.5) > 0.01


def test_the_chance_of_the_homework_sum() -> None:
    # three parts of variance 12, which is a rectangular part of ±6 each: P(sum < 309) = 0.933193
    stack = STACKS["homework-three-parts"]
    halves = printed_halves(stack)
    assert list(halves.values()) == pytest.approx([6, 6, 6])
    example = Example(stack, halves, high=str(stack["below"]["limit"]))
    assert example.chance() == pytest.approx(stack["below"]["probability_printed"], abs=1e-6)
    assert example.fit().chance_percent == {"proper": 93, "get-home": 0, "last-resort": 0, "no-go": 7}
    between = stack["between"]
    both = Example(stack, halves, low=str(between["low"]), high=str(between["high"]))
    assert both.chance() == pytest.approx(between["probability_printed"], abs=1e-4)


def test_a_chance_printed_wrong_does_not_come_out() -> None:
    # the solution adds 0.0100, 0.0025 and 0.0025 up to 0.0125
    stack = STACKS["statistics-problem-5-66"]
    assert stack["recomputed"] == "printed-wrong"
    example = Example(stack, printed_halves(stack), low=str(stack["below"]["limit"]))
    below = 1 - example.chance()
    assert below == pytest.approx(stack["below"]["probability"], abs=1e-5)
    assert abs(below - stack["below"]["probability_printed"]) > 0.01
    percent = example.fit().chance_percent
    assert percent is not None and percent["no-go"] == 21 != round(
        100 * stack["below"]["probability_printed"]
    )


# --- GUM and NIST: how a reading's ± becomes a standard uncertainty ---

ONE_SIGMA = NormalDist().cdf(1) - NormalDist().cdf(-1)


def combined(halves: list[float], wanted: float) -> float:
    """Chance that the sum of rectangular parts lies within ± wanted."""
    names = ["a", "b", "c", "d"][: len(halves)]
    stack = {"parts": {name: [20, 0] for name in names}, "form": " + ".join(names), "unit": "mm"}
    middle = 20 * len(halves)
    limits = {"low": _plain(middle - wanted), "high": _plain(middle + wanted)}
    return Example(stack, dict(zip(names, halves, strict=True)), **limits).chance()


@pytest.mark.parametrize("row", SUMS["rectangular"]["rows"], ids=lambda row: str(row["half_width"]))
def test_a_limit_is_a_rectangular_distribution(row: dict[str, float]) -> None:
    # GUM 4.3.7, NIST TN 1297 4.6: u = a / sqrt(3)
    assert combined([row["half_width"]], row["u"]) == pytest.approx(ONE_SIGMA, abs=2e-3)


def test_resolution_as_a_standard_uncertainty() -> None:
    # GUM F.2.2.1: a step of 0.01 mm is a rectangular part of ±0.005 mm, u = 0.01 / sqrt(12)
    row = SUMS["resolution"]
    assert combined([row["resolution"] / 2], row["u"]) == pytest.approx(ONE_SIGMA, abs=5e-3)


@pytest.mark.parametrize(
    ("parts", "wanted", "within"),
    [
        (SUMS["resolution_budget"]["parts"], SUMS["resolution_budget"]["combined"], 6e-3),
        # EA-4/02 S10 and GUM H.1, the micrometres and nanometres of the source written as millimetres
        ([SUMS["caliper_budget"]["u_resolution_um"], SUMS["caliper_budget"]["u_mechanical_um"]], 33, 6e-3),
        (SUMS["end_gauge"]["parts_nm"], SUMS["end_gauge"]["combined_nm"], 6e-3),
    ],
    ids=["resolution budget", "caliper budget", "end gauge"],
)
def test_budgets_combine_by_root_sum_square(parts: list[float], wanted: float, within: float) -> None:
    scale = 1 if max(parts) < 1 else 0.01
    chance = combined([u * sqrt(3) * scale for u in parts], wanted * scale)
    # the sources round the combined figure to two digits
    assert chance == pytest.approx(ONE_SIGMA, abs=within)


# --- caliper limits through the readings of a record ---

DIN = published()["instruments"]["din_862_micrometres"]


@pytest.mark.parametrize(
    ("kind", "row"),
    [("digital-caliper", "digital_001"), ("vernier-002", "vernier_002"), ("vernier-005", "vernier_005"), ("vernier-01", "vernier_01")],
)  # fmt: skip
def test_a_reading_is_as_wide_as_din_862_says_and_its_recipe_adds(kind: str, row: str) -> None:
    own = {"tool": Instrument.model_validate({"kind": kind})}
    outside, inside = DIN[row], DIN[row] + DIN["added_for_inside_and_depth"]
    chain = {"size_code": "520", "kind": "plain", "measured_with": "tool"}
    chain |= {"over_inner_plates": "10.95 mm", "plate_thickness": "2.10 mm", "bush_bore": "5.30 mm"}
    of_chain = measure_record("chain", Chain.model_validate(chain), own, shelf())
    link = {
        "size_code": "520",
        "closure": "clip",
        "plate_fit": "press",
        "made_for": "plain",
        "measured_with": "tool",
    }
    link |= {"shoulder_depth": "13.05 mm", "pin_length": "17.30 mm"}
    of_link = measure_record("link", Link.model_validate(link), own, shelf())
    # (reading, what the recipe adds below and above, um)
    assert _ends_um(of_chain["over_inner_plates"]) == (-outside, outside)
    assert _ends_um(of_chain["plate_thickness"]) == (-outside - 50, outside + 50)
    assert _ends_um(of_chain["bush_bore"]) == (-inside, inside + 100)
    assert _ends_um(of_link["shoulder_depth"]) == (-inside, inside)
    assert _ends_um(of_link["pin_length"]) == (-inside - 20, inside + 20)


def _ends_um(quantity: Quantity) -> tuple[float, float]:
    low, high = quantity.low - quantity.nominal, quantity.high - quantity.nominal
    return float(Fraction(low, 1000)), float(Fraction(high, 1000))


def test_a_reading_without_an_instrument_gets_the_coarsest_that_ships() -> None:
    chain = Chain.model_validate({"size_code": "520", "kind": "plain", "over_inner_plates": "10.95 mm"})
    worst = max(in_mm(kind.outside) for kind in instruments().values() if kind.outside is not None)
    quantity = measure_record("chain", chain, {}, shelf())["over_inner_plates"]
    assert _ends_um(quantity) == (float(-worst * 1000), float(worst * 1000))


def test_repeated_readings_add_the_spread_of_their_mean() -> None:
    # GUM 4.2.3: s / sqrt(n), here with k = 2 for the five readings from which that counts; the standard library reckons s
    readings = (10.93, 10.95, 10.95, 10.96, 10.96)
    own = {"tool": Instrument.model_validate({"kind": "digital-caliper"})}
    record = {"size_code": "520", "kind": "plain", "measured_with": "tool"}
    record["over_inner_plates"] = ", ".join(f"{reading:.2f}" for reading in readings) + " mm"
    quantity = measure_record("chain", Chain.model_validate(record), own, shelf())["over_inner_plates"]
    added = 2 * stdev(readings) / sqrt(len(readings)) * 1000
    assert quantity.nominal == 10_950_000
    assert _ends_um(quantity) == pytest.approx(
        (-DIN["digital_001"] - added, DIN["digital_001"] + added), abs=0.002
    )


# --- squeeze ---


def squeezed(section: Fraction, gap: Fraction) -> tuple[int, int, Fraction]:
    """Best and worst rung of the squeeze check of a joint pressed to its shoulders, and its squeeze in per cent."""
    plates = Fraction(10)
    chain = {"size_code": "520", "kind": "sealed", "seal": "O", "over_inner_plates": _length(plates)}
    link = {
        "size_code": "520",
        "closure": "clip",
        "plate_fit": "press-to-shoulder",
        "shoulder_depth": _length(plates + 2 * gap),
        "made_for": "sealed",
        "condition": "new",
        "seals": "rings",
    }
    rings = {"shape": "O", "thickness": _length(section)}
    dataset = exactly(
        unchecked({"chains": {"chain": chain}, "links": {"link": link}, "seals": {"rings": rings}})
    )
    option = fit_table(dataset)[0].option
    assert option is not None and option.seals == "fitted"
    check = next(check for check in option.checks if check.id == "squeeze")
    assert check.clearance is not None
    return check.best, check.worst, Fraction(check.clearance.nominal) / (2 * section * 1_000_000) * 100


def _length(value: Fraction) -> str:
    return f"{float(value):.6f} ± 0.000001 mm"


def test_the_worked_squeeze_of_the_lexicon() -> None:
    example = SQUEEZE["example"]
    best, worst, percent = squeezed(exact(example["d"]), exact(example["gap"]))
    assert float(percent) == pytest.approx(example["percent"], abs=0.05)
    assert (best, worst) == (0, 0)


@pytest.mark.parametrize(
    "limit", [row["most_static"] for row in SQUEEZE["limits_percent"] if "most_static" in row]
)
def test_proper_ends_where_the_handbook_ends(limit: int) -> None:
    section = Fraction(3)
    on, beyond = (squeezed(section, section * (1 - Fraction(percent, 100))) for percent in (limit, limit + 1))
    assert on == (0, 0, Fraction(limit))
    assert beyond == (1, 1, Fraction(limit + 1))


def test_every_published_range_for_seals_that_stand_still_is_proper() -> None:
    for row in SQUEEZE["limits_percent"]:
        for percent in (row.get("least"), row.get("most"), *row.get("static", ()), *row.get("face", ())):
            if percent is not None:
                assert squeezed(Fraction(3), 3 * (1 - Fraction(percent, 100)))[:2] == (0, 0), (
                    row["source"],
                    percent,
                )
