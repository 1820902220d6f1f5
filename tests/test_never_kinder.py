"""Joints worked by hand on both sides of every limit that keeps a verdict from flattering: engine, oracle and hand.

Outside source: tests/facts/never_kinder.yaml, worked line by line from the rules on paper (common practice, no source).
"""

from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any

import pytest
import yaml

from generator.compute.fit.fits import fit_table
from generator.compute.fit.result import CheckFit
from generator.model.dataset import Dataset
from generator.model.quantity import NM_PER_MM
from tests import oracle
from tests.clubs import exactly, shelf, unchecked
from tests.engine import Told, every_option, reckoned
from tests.pairs import EXACT, hand_worked, pair_club

CASES: dict[str, dict[str, Any]] = {
    case["id"]: case
    for case in yaml.load(
        (Path(__file__).parent / "facts" / "never_kinder.yaml").read_text(encoding="utf-8"), yaml.BaseLoader
    )
}
TRIAL = {"chain": "chain", "link": "link", "seals": "fitted", "on": "2027-02-20", "enters": "yes", "clip_on": "yes", "bends": "yes"}  # fmt: skip
by_id = pytest.mark.parametrize("id_", CASES)


def merged(raw: Mapping[str, Any], change: Mapping[str, Any]) -> dict[str, Any]:
    """The records with the changes laid over them; null takes a field away."""
    found = dict(raw)
    for key, value in change.items():
        if value in ("null", None):
            found.pop(key, None)
        elif isinstance(value, Mapping):
            before = found.get(key)
            found[key] = merged(before if isinstance(before, Mapping) else {}, value)
        else:
            found[key] = f"{value[1:]} ± {EXACT} mm" if str(value).startswith("=") else value
    return found


@cache
def club(id_: str) -> Dataset:
    case = CASES[id_]
    raw = merged(pair_club(hand_worked()[case["base"]]), case.get("club") or {})
    raw["trials"] = {
        name: merged({**TRIAL, **_closed(raw)}, trial) for name, trial in raw.get("trials", {}).items()
    }
    log = raw.pop("wear_log", None)
    dataset = unchecked(raw, log)
    return dataset if case.get("exact") == "no" else exactly(dataset, case.get("bow") != "unread")


def _closed(raw: Mapping[str, Any]) -> dict[str, str]:
    return {} if raw["links"]["link"]["closure"] == "clip" else {"clip_on": "unknown"}


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
