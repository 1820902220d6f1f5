"""The schemas of what other programs may rely on: fits, an explanation, a check, the catalogue of codes.

Goes in: the closed lists of the models.  Comes out: one schema a document, by name.
"""

from typing import Any, get_args

from generator.compute.fit.result import Word
from generator.model.quantity import EVIDENCE_ORDER
from generator.model.shipped import RUNGS, Group
from generator.problems.problem import Level
from generator.render.many import MANY_PAIRS
from generator.render.schema.draft7 import Plain
from generator.render.schema.envelope import closed, published, whole

TEXT = {"type": "string"}
TEXT_OR_NULL = {"type": ["string", "null"]}
LENGTH = {"type": ["number", "null"], "description": "Millimetres, at most six decimals; null: not known"}
RUNG = {"type": "integer", "minimum": 0, "maximum": 3, "description": "0 proper .. 3 no-go"}
RUNG_OR_NULL = {"anyOf": [RUNG, {"type": "null"}]}
EVIDENCE = {"enum": list(EVIDENCE_ORDER), "description": "The weakest of what it rests on"}
OPTION = {
    "closure": {"enum": ["clip", "rivet", "screw"]},
    "clip": {**TEXT_OR_NULL, "description": "Bag label of the clip"},
    "seals": {"enum": ["fitted", "left-out", "packed", "none"]},
}
READING = {"part": TEXT, "id": TEXT, "field": TEXT}
CHECKS = (
    "Every check of the chosen option, the deciding one with its edges; the others have theirs in clubs of up to "
    f"{MANY_PAIRS} pairs, beyond that the limits stand in fit_rules.json"
)


def contract_schemas() -> dict[str, Plain]:
    """By the name of the document."""
    return {
        "fits": fits_schema(),
        "explain": explain_schema(),
        "check": check_schema(),
        "problems": problems_schema(),
    }


def fits_schema() -> Plain:
    body = _rungs() | {"pairs": {"type": "array", "items": pair()}}
    return published("fits/1", "Every chain with every connecting link, sorted by chain and link", body)


def explain_schema() -> Plain:
    body = _rungs() | {"pair": pair(), "options": {"type": "array", "items": _option()}}
    return published("explain/1", "One pair as in fits/1, with all its options, best first", body)


def _rungs() -> Plain:
    return {"club": TEXT, "rungs": {"const": list(RUNGS)}}


def pair() -> Plain:
    """One chain and one link; `refused` says why there is no verdict."""
    return closed(
        {
            "chain": TEXT,
            "link": TEXT,
            "word": {
                "enum": list(get_args(Word)),
                "description": "measure-first exactly when best differs from worst",
            },
            "best": RUNG_OR_NULL,
            "worst": RUNG_OR_NULL,
            "refused": {**TEXT_OR_NULL, "description": "Why no verdict is given"},
            "strength": {"enum": ["dry-fitted", "by-numbers"]},
            "option": _or_null(closed(OPTION)),
            "deciding": {**TEXT_OR_NULL, "description": "Id of the check that decides"},
            "slack_mm": LENGTH,
            "checks": {"type": "array", "items": _check(), "description": CHECKS},
            "measure_next": _or_null(closed({**READING, "to_within_mm": LENGTH})),
            "chance_percent": _or_null(
                closed({rung: {"type": "integer", "minimum": 0, "maximum": 100} for rung in RUNGS})
            ),
            "evidence": EVIDENCE,
            "page": {**TEXT, "description": "Address below the root of the handbook"},
        }
    )


def _option() -> Plain:
    return closed(
        {
            **OPTION,
            "seal_set": {**TEXT_OR_NULL, "description": "Bag label of the seals or washers"},
            "best": RUNG,
            "worst": RUNG,
            "deciding": TEXT,
            "slack_mm": LENGTH,
            "adds_up": {"type": "boolean", "description": "Four or more groups at get-home make last-resort"},
            "trials": {"type": "array", "items": TEXT},
            "checks": {"type": "array", "items": _check()},
        }
    )


def _check() -> Plain:
    """A strength has its numbers in kN, a category has neither clearance nor edges."""
    edge = {
        "rung": {"enum": list(RUNGS)},
        "side": {"enum": ["low", "high"]},
        "at_mm": LENGTH,
        "at_kn": LENGTH | {"description": "Kilonewtons"},
        "slack_mm": _span(),
        "slack_kn": _span(),
    }
    return closed(
        {
            "id": TEXT,
            "group": {"enum": list(get_args(Group))},
            "best": RUNG,
            "worst": RUNG,
            "clearance_mm": _span(),
            "clearance_kn": _span(),
            "category": TEXT,
            "missing": {"type": "array", "items": closed(READING)},
            "evidence": EVIDENCE,
            "edges": {
                "type": "array",
                "items": closed(edge, optional=("at_mm", "at_kn", "slack_mm", "slack_kn")),
            },
        },
        optional=("clearance_kn", "category"),
    )


def _span() -> Plain:
    number = {"type": "number"}
    return _or_null(closed({"low": number, "nominal": number, "high": number}))


def _or_null(schema: Plain) -> Plain:
    return {"anyOf": [schema, {"type": "null"}]}


def check_schema() -> Plain:
    count = {"type": "integer", "minimum": 0}
    place = {
        "file": TEXT,
        "line": {"type": "integer", "minimum": 1},
        "column": {"type": "integer", "minimum": 1},
    }
    problem: dict[str, Any] = {
        "code": {"type": "string", "pattern": "^[A-Z][0-9]{3}$"},
        "level": {"enum": list(get_args(Level))},
        **place,
        "end_column": {"type": "integer", "minimum": 1},
        "path": {"type": "array", "items": TEXT},
        "message": TEXT,
        "why": TEXT,
        "fix": TEXT,
        "did_you_mean": TEXT_OR_NULL,
        "related": {"type": "array", "items": closed(place)},
    }
    body = {
        "schema": {"const": "check/1"},
        "ok": {"type": "boolean", "description": "true: no errors; warnings are allowed"},
        "files": count,
        "errors": count,
        "warnings": count,
        "problems": {
            "type": "array",
            "items": closed(problem),
            "description": "Sorted by file, line, column, code",
        },
    }
    return whole("check/1", "What `handbook check --format json` found", body)


def problems_schema() -> Plain:
    files = {"type": "object", "additionalProperties": TEXT}
    entry = {
        "code": {"type": "string", "pattern": "^[A-Z][0-9]{3}$"},
        "title": TEXT,
        "level": {"enum": list(get_args(Level))},
        "why": TEXT,
        "fix": TEXT,
        "good": files,
        "bad": files,
        "at": {"type": "string", "description": "file:line:column of the problem in the bad sample"},
    }
    body = {"problems": {"type": "array", "items": closed(entry)}}
    return published("problems/1", "What each problem code means, with a good and a bad sample", body)
