"""The pieces that the schemas of all published verdicts are made of."""

from collections.abc import Iterable
from typing import Any, get_args

from generator.compute.fit.result import Word
from generator.model.many import MANY_PAIRS
from generator.model.quantity import EVIDENCE_ORDER
from generator.model.shipped import RUNGS, Group
from generator.render.schema.draft7 import Plain
from generator.render.schema.envelope import closed

TEXT = {"type": "string"}
TEXT_OR_NULL = {"type": ["string", "null"]}
LENGTH = {"type": ["number", "null"], "description": "Millimetres, at most six decimals; null: not known"}
FORCE = LENGTH | {"description": "Kilonewtons, at most six decimals; null: not known"}
PERCENT = LENGTH | {"description": "Per cent, at most six decimals; null: not known"}
# by the end of the key, in which a number is published beside lengths
OTHER_UNITS = {"kn": FORCE, "percent": PERCENT}
RUNG = {"type": "integer", "minimum": 0, "maximum": 3, "description": "0 proper .. 3 no-go"}
RUNG_OR_NULL = {"anyOf": [RUNG, {"type": "null"}]}
WORD = {"enum": list(get_args(Word)), "description": "measure-first exactly when best differs from worst"}
EVIDENCE = {"enum": list(EVIDENCE_ORDER), "description": "The weakest of what it rests on"}
READING = {"part": TEXT, "id": TEXT, "field": TEXT}
# what a check of a club with many pairs has no room for
NOT_SAID = f"may be left out where it is empty, in clubs of more than {MANY_PAIRS} pairs of chain and link"
ADDS_UP = {"type": "boolean", "description": "Four or more groups at get-home make last-resort"}


def or_null(schema: Plain) -> Plain:
    return {"anyOf": [schema, {"type": "null"}]}


def club_and_rungs() -> Plain:
    return {"club": TEXT, "rungs": {"const": list(RUNGS)}}


def verdict(checks: str, units: Iterable[str] = ("kn",)) -> dict[str, Any]:
    """What every verdict says: its range, why there is none, what decides it and what to measure next."""
    return {
        "word": WORD,
        "best": RUNG_OR_NULL,
        "worst": RUNG_OR_NULL,
        "refused": {**TEXT_OR_NULL, "description": "Why no verdict is given"},
        "deciding": {**TEXT_OR_NULL, "description": "Id of the check that decides"},
        "checks": {"type": "array", "items": check(units), "description": checks},
        "measure_next": or_null(closed({**READING, "to_within_mm": LENGTH})),
    }


def check(units: Iterable[str] = ("kn",)) -> Plain:
    """A strength has its numbers in kN, an elongation in per cent; a category has neither clearance nor edges."""
    numbers = {"mm": LENGTH} | {unit: OTHER_UNITS[unit] for unit in units}
    clearances = {f"clearance_{unit}": span() for unit in numbers}
    return closed(
        {
            "id": TEXT,
            "group": {"enum": list(get_args(Group))},
            "best": RUNG,
            "worst": RUNG,
            **clearances,
            "category": {**TEXT, "description": f"In place of a clearance, which {NOT_SAID}"},
            "missing": {
                "type": "array",
                "items": closed(READING),
                "description": f"Readings that nobody took, which {NOT_SAID}",
            },
            "evidence": EVIDENCE,
            "edges": {
                "type": "array",
                "items": _edge(numbers),
                "description": "Where a rung ends, and how far from there; see `checks` for where they are left out",
            },
        },
        optional=("category", "missing", "edges", *clearances),
    )


def _edge(numbers: Plain) -> Plain:
    found = {f"at_{unit}": schema for unit, schema in numbers.items()}
    found |= {f"slack_{unit}": span() for unit in numbers}
    return closed({"rung": {"enum": list(RUNGS)}, "side": {"enum": ["low", "high"]}, **found}, tuple(found))


def span() -> Plain:
    number = {"type": "number"}
    return or_null(closed({"low": number, "nominal": number, "high": number}))
