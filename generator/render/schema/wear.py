"""The schema of data/v1/wear.json."""

from typing import Any, get_args

from generator.compute.wear.limits import By
from generator.compute.wear.outlook import State, Why
from generator.model.wear_row import Event
from generator.render.schema.draft7 import Plain
from generator.render.schema.envelope import closed, published
from generator.render.schema.verdict import TEXT, or_null

_NUMBER = {"type": "number"}
_HOURS = {"type": "number", "minimum": 0}
_PERCENT = or_null(closed({"nominal": _NUMBER, "low": _NUMBER, "high": _NUMBER})) | {
    "description": "Longer than new by so many per cent, an interval; null: never read"
}


def wear_schema() -> Plain:
    readings = {"type": "array", "items": _reading(), "description": "By day, since the chain was new"}
    chain = closed({"id": TEXT, "readings": readings, **_shared()})
    bike = closed({"id": TEXT, "chain": TEXT, "readings": readings, **_shared()})
    body = {
        "club": TEXT,
        "chains": {"type": "array", "items": chain, "description": "Sorted by id"},
        "bikes": {"type": "array", "items": bike, "description": "Sorted by id"},
    }
    return published(
        "wear/1", "How worn each chain is, its limit on each bike, and the hours it has left", body
    )


def _shared() -> dict[str, Any]:
    limit = {
        "value": _NUMBER,
        "rule": {**TEXT, "description": "Id in wear_limits.json"},
        "by": {"enum": list(get_args(By)), "description": "The rule itself, or what governs beside it"},
        "source": TEXT,
    }
    left = closed({"low": _HOURS, "nominal": _HOURS, "high": _HOURS})
    return {
        "elongation_percent": _PERCENT,
        "limit_percent": closed(limit),
        "state": {"enum": list(get_args(State))},
        "why": {
            "enum": list(get_args(Why)),
            "description": "Why there is no forecast, or what to know with it",
        },
        "hours_left": or_null(left) | {"description": "From the newest reading on; null: no forecast"},
    }


def _reading() -> Plain:
    return closed(
        {
            "on": {"type": "string", "format": "date"},
            "hours": {"type": ["number", "null"], "description": "Since the chain was new"},
            "elongation_percent": _PERCENT,
            "place": {**TEXT, "description": "The worst place of that day"},
            "event": {"enum": list(get_args(Event))},
        }
    )
