"""Joints worked by hand on both sides of every limit that keeps a verdict from flattering: the club of each.

Outside source: tests/facts/never_kinder.yaml, worked line by line from the rules on paper (common practice, no source).
"""

from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any

import yaml

from generator.model.dataset import Dataset
from tests.clubs import exactly, unchecked
from tests.pairs import EXACT, hand_worked, pair_club

CASES: dict[str, dict[str, Any]] = {
    case["id"]: case
    for case in yaml.load(
        (Path(__file__).parent / "facts" / "never_kinder.yaml").read_text(encoding="utf-8"), yaml.BaseLoader
    )
}
TRIAL = {"chain": "chain", "link": "link", "seals": "fitted", "on": "2027-02-20", "enters": "yes", "clip_on": "yes", "bends": "yes"}  # fmt: skip


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
