"""The hand-worked pairs against the slow reckoning: two workings that share nothing but the rules on paper.

Outside source: tests/facts/hand_worked.yaml, worked line by line from the fit rules (common practice, no source).
"""

from collections.abc import Mapping
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
import yaml

from tests import oracle

PAIRS: list[dict[str, Any]] = yaml.load(
    (Path(__file__).parent / "facts" / "hand_worked.yaml").read_text(encoding="utf-8"), yaml.BaseLoader
)
SYMBOLS = {
    "chain": {
        "pitch": "p", "bush_bore": "d3", "over_inner_plates": "b2p", "over_bush_ends": "b2b",
        "between_outer_plates": "b3", "over_riveted_pins": "b4", "plate_thickness": "tc", "plate_height": "h2",
        "tensile": "Fc",
    },
    "link": {
        "pitch": "pl", "pin_diameter": "d", "pin_reach": "G", "pin_length": "L", "groove_width": "gw",
        "groove_diameter": "gd", "side_plate_thickness": "t", "side_plate_height": "h", "shoulder_depth": "M",
        "hollow_depth": "hd", "tensile": "Fl",
    },
    "clip": {
        "thickness": "k", "thickness_new": "k0", "seat_width": "cs", "mouth": "cm", "pin_spacing": "csp", "bow": "bow",
    },
    "seal": {"thickness": "s"},
    "washers": {"thickness": "w"},
    "own_link": {"pin_length": "oL"},
    "bike": {"clearance_clip_side": "clr"},
}  # fmt: skip


def exact(text: str, plus_minus: Fraction = Fraction(0)) -> oracle.Interval:
    value = Fraction(text)
    return (value - plus_minus, value, value + plus_minus)


def dims_of(pair: Mapping[str, Any], plus_minus: Fraction = Fraction(0)) -> dict[str, oracle.Interval]:
    return {
        symbol: exact(pair[part][name], plus_minus)
        for part, names in SYMBOLS.items()
        for name, symbol in names.items()
        if pair.get(part, {}).get(name, "unknown") != "unknown"
    }


def words_of(pair: Mapping[str, Any]) -> dict[str, str]:
    chain, link = pair["chain"], pair["link"]
    names = ("closure", "plate_fit", "made_for", "condition", "half_link", "pin_kind")
    words = {name: link[name] for name in names if name in link}
    words |= {"kind": chain["kind"], "own_joint": chain["own_joint"], "chain_seal": chain["seal"]}
    words |= {"link_size": link["size_code"], "chain_size": chain["size_code"]}
    words["wear"] = "beyond" if Fraction(chain["elongation"]) > Fraction(pair["wear_limit"]) else "within"
    if "clip" in pair:
        words["clip_history"] = pair["clip"]["history"]
    if "seal" in pair:
        seal = pair["seal"]
        words |= {
            "seal_shape": seal["shape"], "seal_evidence": seal["evidence"], "covers_bush": seal["covers_bush"],
        }  # fmt: skip
    if "own_link" in pair:
        words["own_link"] = "other"
    return words


def said(best: int, worst: int) -> str:
    names = oracle.RUNGS
    return names[worst] if best == worst else f"{names[best]}..{names[worst]}"


def worked(pair: Mapping[str, Any], plus_minus: Fraction = Fraction(0)) -> list[oracle.Joint]:
    dims, words = dims_of(pair, plus_minus), words_of(pair)
    return [oracle.judge(dims, words, option) for option in oracle.options_of(dims, words)]


by_id = pytest.mark.parametrize("pair", PAIRS, ids=[pair["id"] for pair in PAIRS])


@by_id
def test_every_check_as_worked_by_hand(pair: dict[str, Any]) -> None:
    joints = {joint.option: joint for joint in worked(pair)}
    by_hand = {
        option: {name: rung for rung, names in rungs.items() for name in names}
        for option, rungs in pair["checks"].items()
    }
    reckoned = {
        option: {name: said(check.best, check.worst) for name, check in joint.checks.items()}
        for option, joint in joints.items()
    }
    assert reckoned == by_hand


@by_id
def test_verdict_deciding_check_and_option_as_worked_by_hand(pair: dict[str, Any]) -> None:
    joint = oracle.choose(worked(pair))
    slack = None if pair["slack"] == "none" else Fraction(pair["slack"])
    assert (said(joint.best, joint.worst), joint.deciding, joint.slack, joint.option) == (
        pair["expect"], pair["deciding"], slack, pair["option"],
    )  # fmt: skip


@by_id
def test_range_with_readings_holds_the_exact_verdict(pair: dict[str, Any]) -> None:
    # 0.02 mm: a digital caliper's outside limit (DIN 862)
    exactly = {joint.option: joint for joint in worked(pair)}
    for joint in worked(pair, Fraction("0.02")):
        inside = exactly[joint.option]
        assert joint.best <= inside.best
        assert inside.worst <= joint.worst
        for name, check in joint.checks.items():
            assert check.best <= inside.checks[name].best
            assert inside.checks[name].worst <= check.worst


def test_the_pairs_reach_every_rung_of_every_check() -> None:
    seen: dict[str, set[str]] = {}
    for pair in PAIRS:
        for rungs in pair["checks"].values():
            for rung, names in rungs.items():
                for name in names:
                    seen.setdefault(name, set()).add(rung)
    assert set(seen) == set(oracle.ORDER)
    for name, (low, high) in oracle.BANDS.items():
        edges = [side for side in (low, high) if side]
        rungs = {"proper", "no-go"}
        rungs |= {oracle.RUNGS[place] for place in (1, 2) if any(side[place] for side in edges)}
        assert rungs <= seen[name], name


def test_an_unknown_dimension_leaves_every_rung_open() -> None:
    pair = next(pair for pair in PAIRS if pair["id"] == "own-link")
    dims = dims_of(pair)
    del dims["d3"]
    joint = oracle.judge(dims, words_of(pair), "fitted")
    assert (joint.best, joint.worst, joint.deciding) == (oracle.PROPER, oracle.NO_GO, "pin-entry")


@pytest.mark.parametrize("word", ["link_size", "chain_size", "kind", "made_for", "condition"])
def test_no_verdict_where_a_part_is_not_known(word: str) -> None:
    words = words_of(PAIRS[0])
    assert oracle.refused(words) is None
    assert oracle.refused({**words, word: "unknown"}) is not None
