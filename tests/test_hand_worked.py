"""The hand-worked pairs against the engine and against the oracle: three workings that share only the rules on paper.

Outside source: tests/facts/hand_worked.yaml, worked line by line from the fit rules (common practice, no source).
"""

from fractions import Fraction
from functools import cache
from typing import Any

import pytest

from generator.compute.fit.fits import fit_table
from generator.compute.fit.result import PairFit
from generator.model.dataset import Dataset
from tests import oracle
from tests.clubs import checked, errors_of, exactly, unchecked
from tests.engine import WEAR_LIMIT, Told, every_option, reckoned, words_of
from tests.pairs import hand_worked, pair_club

PAIRS = hand_worked()
# pairs that no club can hold: the rules between records refuse them, the engine need not care
REFUSED_IN_A_CLUB = {
    "rivet-get-home-short": "a bore of 0.10 mm reads like inches",
    "rivet-get-home-short-beyond": "a bore of 0.08 mm reads like inches",
}
by_id = pytest.mark.parametrize("id_", PAIRS)


@cache
def club(id_: str) -> Dataset:
    """The pair as a club folder, through the whole validation, then without the least ± a folder can say."""
    build = unchecked if id_ in REFUSED_IN_A_CLUB else checked
    return exactly(build(pair_club(PAIRS[id_])))


@cache
def options(id_: str) -> list[Told]:
    return every_option(club(id_), links=["link"])


def fit(id_: str) -> PairFit:
    return fit_table(club(id_), ["chain"], ["link"])[0]


def said(best: int, worst: int) -> str:
    names = oracle.RUNGS
    return names[worst] if best == worst else f"{names[best]}..{names[worst]}"


def by_hand(id_: str) -> dict[str, dict[str, str]]:
    """Option -> check -> rung, of the checks a pair is about; every part is measured and none was tried."""
    rungs: dict[str, dict[str, list[str]]] = PAIRS[id_]["checks"]
    return {
        option: {name: rung for rung, names in found.items() for name in names}
        for option, found in rungs.items()
    }


def as_made(told: Told) -> bool:
    """Makeshifts with the plate pressed to its clip, or washers under it, are worked elsewhere."""
    return told.way.seat != "clip" and told.way.spacer is None


def asked(found: dict[str, dict[str, str]], id_: str) -> dict[str, dict[str, str]]:
    hand = by_hand(id_)
    return {
        option: {n: r for n, r in rungs.items() if n in hand.get(option, {})}
        for option, rungs in found.items()
    }


@by_id
def test_engine_every_check_as_worked_by_hand(id_: str) -> None:
    told = {
        t.fit.seals: {c.id: said(c.best, c.worst) for c in t.fit.checks} for t in options(id_) if as_made(t)
    }
    assert asked(told, id_) == by_hand(id_)


@by_id
def test_oracle_every_check_as_worked_by_hand(id_: str) -> None:
    joints = [reckoned(club(id_), told.way) for told in options(id_) if as_made(told)]
    found = {
        joint.option: {name: said(check.best, check.worst) for name, check in joint.checks.items()}
        for joint in joints
    }
    assert asked(found, id_) == by_hand(id_)


@by_id
def test_engine_verdict_deciding_check_slack_and_option(id_: str) -> None:
    pair, found = PAIRS[id_], fit(id_)
    option = found.option
    assert option is not None and found.best is not None and found.worst is not None
    slack = None if option.slack is None else Fraction(round(option.slack), 1_000_000)
    wanted = None if pair["slack"] == "none" else Fraction(pair["slack"])
    assert (said(found.best, found.worst), option.deciding, slack, option.seals) == (
        pair["expect"], pair["deciding"], wanted, pair["option"],
    )  # fmt: skip


@by_id
def test_oracle_verdict_deciding_check_slack_and_option(id_: str) -> None:
    pair = PAIRS[id_]
    ways = [told.way for told in options(id_)]
    joints = [reckoned(club(id_), way) for way in ways]
    at = min(range(len(ways)), key=lambda i: (oracle.rank(joints[i], words_of(club(id_), ways[i])), i))
    joint, (best, worst) = joints[at], oracle.pair_range(joints)
    wanted = None if pair["slack"] == "none" else Fraction(pair["slack"])
    assert (said(best, worst), joint.deciding, joint.slack, joint.option) == (
        pair["expect"], pair["deciding"], wanted, pair["option"],
    )  # fmt: skip


@pytest.mark.parametrize("id_", REFUSED_IN_A_CLUB)
def test_what_no_club_can_hold_is_indeed_refused(id_: str) -> None:
    assert errors_of(pair_club(PAIRS[id_]))


def test_the_wear_limit_of_the_pairs_is_that_of_the_club() -> None:
    for pair in PAIRS.values():
        over = Fraction(pair["chain"]["elongation"]) > Fraction(pair["wear_limit"])
        assert over == (Fraction(pair["chain"]["elongation"]) > WEAR_LIMIT[pair["chain"]["kind"]])


def test_rows_of_the_measuring_notes_are_all_worked() -> None:
    rows: list[Any] = [pair["row"] for pair in PAIRS.values() if "row" in pair]
    assert len(rows) == 16
    assert len(PAIRS) >= 55


def test_an_unknown_dimension_leaves_every_rung_open() -> None:
    told = options("own-link")[0]
    dataset = club("own-link")
    joint = reckoned(dataset, told.way)
    assert joint.best == joint.worst == oracle.PROPER
    raw = pair_club(PAIRS["own-link"])
    raw["chains"]["chain"]["bush_bore"] = "unknown"
    found = fit_table(exactly(checked(raw)), ["chain"], ["link"])[0]
    assert (found.best, found.worst) == (oracle.PROPER, oracle.NO_GO)
    assert found.option is not None and found.option.deciding == "pin-entry"
    assert [missing.field for missing in found.option.deciding_check.missing] == ["bush_bore"]
