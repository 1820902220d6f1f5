"""The schema of data/v1/plan.json."""

from typing import get_args

from generator.compute.spares.result import BearerKind
from generator.model.shipped import RUNGS
from generator.render.contract.plan_json import UNITS
from generator.render.schema.draft7 import Plain
from generator.render.schema.envelope import closed, published
from generator.render.schema.verdict import RUNG, TEXT, TEXT_OR_NULL, or_null

_COUNT = {"type": "integer", "minimum": 0}
_MASS = {"type": "number", "minimum": 0}
_KIND = {"enum": ["link", "clip", "seal", "plate", "strip", "tool"]}
_YES_NO = {"type": "boolean"}


def plan_schema() -> Plain:
    body = {
        "club": TEXT,
        "ride": {**TEXT_OR_NULL, "description": "null: for the whole club, or for bikes that were named"},
        "bikes": _list(TEXT),
        "depth": {**_COUNT, "description": "Failures at once that do not share what is used up"},
        "status": {"enum": ["optimal", "not-proven"]},
        "proof": _proof(),
        "bearers": _list(_bearer()),
        "buy": _list(closed({"id": TEXT, "kind": _KIND, "count": _COUNT})),
        "demands": _list(_demand()),
        "unserved": _list(
            closed({"bike": TEXT, "failure": TEXT, "code": TEXT_OR_NULL, "reason": TEXT_OR_NULL})
        ),
        "serves_nothing": _list(TEXT),
        "dry_fit": _list({**TEXT, "description": "chain/link"}),
        "next_item": _list(_next_item()),
        "kit": or_null(_kit()),
    }
    return published(
        "plan/1", "Who carries what, which failures of which bikes that mends, and the proof", body
    )


def _next_item() -> Plain:
    new = (
        "null for a part or tool of the club; else the pitches of a new strip made like the chain of that id"
    )
    pitches = {**or_null(_COUNT), "description": new}
    return closed({"id": TEXT, "kind": _KIND, "new_pitches": pitches, "mass_g": _MASS, "would": TEXT})


def _list(items: Plain) -> Plain:
    return {"type": "array", "items": items}


def _proof() -> Plain:
    number = {"type": "number"}
    goal = closed({"id": {"enum": [name for name, _ in UNITS.values()]}, "value": number, "bound": number})
    return closed({"solver": TEXT, "gap": {"const": 0}, "rechecked": _YES_NO, "goals": _list(goal)})


def _bearer() -> Plain:
    item = closed({"id": TEXT, "kind": _KIND, "count": _COUNT, "mass_g": _MASS, "serves": _COUNT})
    kind = {"enum": list(get_args(BearerKind))}
    return closed({"id": TEXT, "kind": kind, "mass_g": _MASS, "limit_g": _MASS, "items": _list(item)})


def _demand() -> Plain:
    item = closed({"id": TEXT, "kind": _KIND, "count": _COUNT, "bearer": TEXT})
    return closed(
        {
            "bike": TEXT,
            "failure": TEXT,
            "weight": _COUNT,
            "served": _YES_NO,
            "rung": RUNG,
            "word": {"enum": list(RUNGS)},
            "way": TEXT_OR_NULL,
            "items": _list(item),
            "pairs": _list(TEXT),
            "pitches_change": {"type": "integer"},
            "reason": TEXT_OR_NULL,
        }
    )


def _kit() -> Plain:
    worse = closed(
        {"bike": TEXT, "failure": TEXT, "with_kit": {"enum": list(RUNGS)}, "with_plan": {"enum": list(RUNGS)}}
    )
    return closed(
        {
            "mass_g": _MASS,
            "worse": _list(worse),
            "lacks": _list(closed({"kit": TEXT, "what": TEXT})),
            "for_nothing": _list(TEXT),
        }
    )
