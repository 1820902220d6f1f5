"""The hand-worked pairs and the trade facts as club folders of one chain and one link."""

from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any

import yaml

from tests.clubs import CLUB

FACTS = Path(__file__).parent / "facts"
# every value of a pair is exact; no reading is, so that a club folder says one nanometre
EXACT = "0.000001"
# the pitch is that of the size code; the other two are not of the joint
NOT_OF_THE_JOINT = ("pitch", "inner_width", "evidence", "pin_step")
FORCES = ("tensile",)
# bikes need these; no joint depends on them
BIKE = {
    "chain": "chain",
    "front_teeth": "14",
    "rear_teeth": "48",
    "pitches": "112",
    "joint_in_manual": "clip",
}
# what a pair does not say is that of a sound joint in plenty of room, and looked at
LOOKED_AT = {
    "chain": {"state": "as-made", "rub_marks": "no"},
    "link": {"half_link": "no", "flared": "no"},
    "bike": {"clearance_other_side": "9.00 ± 0.000001 mm"},
}
WORDS = ("size_code", "kind", "seal", "own_joint", "closure", "plate_fit", "made_for", "condition", "half_link",
         "pin_kind", "history", "letters", "came_with", "state", "rub_marks", "joint_in_manual", "clip_because", "flared",
         "in_use", "own_seals", "made_bowed", "count", "for_trials", "shape", "covers_bush", "elongation")  # fmt: skip


def _read(path: Path) -> Any:
    return yaml.load(path.read_text(encoding="utf-8"), yaml.BaseLoader)


@cache
def hand_worked() -> dict[str, dict[str, Any]]:
    """By id."""
    return {pair["id"]: pair for pair in _read(FACTS / "hand_worked.yaml")}


@cache
def facts() -> dict[str, dict[str, Any]]:
    """By id."""
    found = [
        _read(path)
        for path in sorted(FACTS.glob("*.yaml"))
        if path.stem not in ("hand_worked", "disagree", "never_kinder")
    ]
    return {fact["id"]: fact for fact in found}


def pair_club(pair: Mapping[str, Any]) -> dict[str, Any]:
    """The club of one hand-worked pair."""
    parts = {
        name: pair[name] for name in ("chain", "link", "clip", "seal", "washers", "bike") if name in pair
    }
    raw = joint_club(parts, "measured")
    if "own_link" in pair:
        own = (
            LOOKED_AT["link"]
            | _fixed_side(pair["link"])
            | _record({**pair["link"], **pair["own_link"]}, "measured")
        )
        raw["links"]["own-link"] = own | {"clip": "clip", "seals": "seal"}
        raw["chains"]["chain"]["own_link"] = "own-link"
    if "other_bike" in pair:
        raw["bikes"]["other-bike"] = BIKE | LOOKED_AT["bike"] | _record(pair["other_bike"], "measured")
    return raw


def fact_club(fact: Mapping[str, Any], place: str) -> dict[str, Any]:
    """The club of one fact with every part at one place (low, middle, high) of its range."""
    parts = {
        name: {
            field: value[place] if isinstance(value, dict) else value for field, value in fact[name].items()
        }
        for name in ("chain", "link", "clip", "seal", "bike")
        if name in fact
    }
    if parts.get("seal", {}).get("shape") == "washer":
        parts["washers"] = parts.pop("seal")
    evidence = "measured" if fact["evidence"] == "measured" else "from-memory"
    raw = joint_club(parts, evidence)
    if fact["id"].startswith("clip-"):
        # a fact about a clip of another link: it is carried, not the link's own
        raw["links"]["link"]["clip"] = "none"
    return raw


def joint_club(parts: Mapping[str, Mapping[str, str]], evidence: str) -> dict[str, Any]:
    """One chain, one link with its own clip and seals, washers of the club, one bike."""
    raw: dict[str, Any] = {
        "club": CLUB,
        "chains": {"chain": LOOKED_AT["chain"] | _record(parts["chain"], evidence)},
        "links": {"link": LOOKED_AT["link"] | _fixed_side(parts["link"]) | _record(parts["link"], evidence)},
        "bikes": {"bike": BIKE | LOOKED_AT["bike"] | _record(parts["bike"], "measured")},
    }
    link = raw["links"]["link"]
    link |= {"clip": "none", "seals": "none"}
    if "clip" in parts:
        raw["clips"] = {"clip": _record(parts["clip"], evidence)}
        link["clip"] = "clip"
    seals = {}
    if "seal" in parts:
        seals["seal"] = _record(parts["seal"], parts["seal"].get("evidence", evidence))
        link["seals"] = "seal"
    if "washers" in parts:
        seals["washers"] = _record(parts["washers"], evidence) | {"shape": "washer"}
    return raw | ({"seals": seals} if seals else {})


def _fixed_side(link: Mapping[str, str]) -> dict[str, Any]:
    """A fixed plate like the side plate, and heads that stand out of it by as much as those of a chain."""
    thick = link.get("side_plate_thickness", "unknown")
    heads = {"head_stand_out": f"0.90 ± {EXACT} mm"}
    return heads if thick == "unknown" else heads | {"fixed_plate_thickness": f"{thick} ± {EXACT} mm"}


def _record(values: Mapping[str, str], evidence: str) -> dict[str, Any]:
    return {
        field: value if field in WORDS else _length(value, field, evidence)
        for field, value in values.items()
        if field not in NOT_OF_THE_JOINT and not _is_nothing(field, value)
    }


def _is_nothing(field: str, value: str) -> bool:
    return field == "bow" and float(value) == 0


def _length(value: str, field: str, evidence: str) -> Any:
    if value == "unknown":
        return value
    unit = "kN" if field in FORCES else "mm"
    if evidence == "measured" and field not in FORCES:
        return f"{value} ± {EXACT} {unit}"
    word = "stated" if field in FORCES else evidence
    return {"is": f"{value} {unit}", "plus_minus": f"{EXACT} {unit}", "from": word}


@cache
def disagreements() -> list[dict[str, str]]:
    """Facts that the bands do not agree with, each with its reason; one entry a place and option."""
    return [
        {
            **entry,
            "place": place,
            "case": place if entry["what"] == "pair" else f"{place}, seals {entry['what']}",
        }
        for entry in _read(FACTS / "disagree.yaml")
        for place in entry["places"]
    ]
