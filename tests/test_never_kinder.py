"""Joints worked by hand on both sides of every limit that keeps a verdict from flattering: engine, oracle and hand.

Outside source: tests/facts/never_kinder.yaml, worked line by line from the rules on paper (common practice, no source).
"""

from collections.abc import Mapping
from typing import Any

import pytest

from generator.compute.fit.fits import fit_table
from generator.compute.fit.result import CheckFit
from generator.model.quantity import NM_PER_MM
from tests import oracle
from tests.clubs import shelf
from tests.engine import Told, every_option, reckoned
from tests.never_kinder import CASES, club
from tests.pairs import hand_worked

by_id = pytest.mark.parametrize("id_", CASES)


def said(best: int, worst: int) -> str:
    return oracle.RUNGS[worst] if best == worst else f"{oracle.RUNGS[best]}..{oracle.RUNGS[worst]}"


def the_option(id_: str) -> Told:
    """The one the case speaks of: its seals, its seat, its clip, its spacers."""
    case = CASES[id_]
    found = [told for told in every_option(club(id_), ["chain"], ["link"]) if _is_it(told, case)]
    assert found, "no such option"
    return found[0]


def _is_it(told: Told, case: Mapping[str, Any]) -> bool:
    way = told.way
    clip = case.get("clip")
    return (
        way.seals == case.get("option", _seals(case))
        and (way.seat == "clip") == (case.get("seat") == "clip")
        and way.spacer == case.get("spacer")
        and (clip is None or way.clip == (None if clip == "none" else clip))
    )


def _seals(case: Mapping[str, Any]) -> str:
    base = hand_worked()[case["base"]]
    return "fitted" if "seal" in base else "none"


def the_check(id_: str) -> CheckFit | None:
    return next((c for c in the_option(id_).fit.checks if c.id == CASES[id_]["check"]), None)


@by_id
def test_the_engine_as_worked_by_hand(id_: str) -> None:
    case = CASES[id_]
    if "absent" in case:
        assert case["absent"] not in [check.id for check in the_option(id_).fit.checks]
    if "check" in case:
        check = the_check(id_)
        assert check is not None
        assert case.get("rung") in (None, said(check.best, check.worst)), said(check.best, check.worst)
        if case.get("clearance") is not None:
            assert check.clearance is not None
            assert check.clearance.nominal == float(case["clearance"]) * NM_PER_MM
    if "pair" in case:
        (fit,) = fit_table(club(id_), ["chain"], ["link"])
        word = "cannot judge" if fit.best is None or fit.worst is None else said(fit.best, fit.worst)
        assert (word, fit.refused is None) == (case["pair"], case["pair"] != "cannot judge")
        assert case.get("says", "") in (fit.refused or "")


@by_id
def test_the_oracle_as_worked_by_hand(id_: str) -> None:
    case = CASES[id_]
    if "check" not in case or "rung" not in case or _proven_by_hand(case) or _no_size(case):
        pytest.skip("the oracle knows dry fits by their word only, and no sizes but those on the shelf")
    told = the_option(id_)
    check = reckoned(club(id_), told.way).checks[case["check"]]
    assert said(check.best, check.worst) == case["rung"]


def _proven_by_hand(case: Mapping[str, Any]) -> bool:
    """What a dry fit narrows beyond its words is proved elsewhere."""
    return case["check"] in ("clip-mouth", "pin-entry", "clip-seat") and "trials" in (case.get("club") or {})


def _no_size(case: Mapping[str, Any]) -> bool:
    parts = [
        part
        for kind in (case.get("club") or {}).values()
        if isinstance(kind, Mapping)
        for part in kind.values()
    ]
    codes = {part.get("size_code") for part in parts if isinstance(part, Mapping)} - {None}
    refused = "no-go" in case.get("pair", "") and any(
        isinstance(p, Mapping) and "plate_fit" in p for p in parts
    )
    return bool(codes - set(shelf().sizes)) or refused
