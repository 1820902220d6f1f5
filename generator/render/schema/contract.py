"""The schemas of what other programs may rely on: fits, an explanation, a check, the catalogue of codes."""

from typing import Any, get_args

from generator.compute.fit.trials import TRIED
from generator.model.many import MANY_PAIRS
from generator.model.shipped import RUNGS
from generator.problems.problem import Level
from generator.render.schema.cards import cards_schema
from generator.render.schema.draft7 import Plain
from generator.render.schema.envelope import closed, published, whole
from generator.render.schema.plan import plan_schema
from generator.render.schema.verdict import (
    ADDS_UP,
    EVIDENCE,
    LENGTH,
    RUNG,
    RUNG_OR_NULL,
    TEXT,
    TEXT_OR_NULL,
    WORD,
    check,
    club_and_rungs,
    or_null,
    span,
    verdict,
)
from generator.render.schema.wear import wear_schema

OPTION = {
    "closure": {"enum": ["clip", "rivet", "screw"]},
    "clip": {**TEXT_OR_NULL, "description": "Bag label of the clip"},
    "seals": {"enum": ["fitted", "left-out", "packed", "none"]},
    "seat": {
        "enum": ["made", "neighbours", "clip"],
        "description": "Where the side plate goes: where it stops itself, pressed level with its neighbours, or to its clip",
    },
    "spacer": {**TEXT_OR_NULL, "description": "Bag label of the washers under the clip on each pin"},
}
RUNS_NOW = {
    "best": RUNG,
    "worst": RUNG,
    "since": {**TEXT_OR_NULL, "description": "Day on which it was last closed"},
    "looked_on": TEXT_OR_NULL,
    "not_looked": {"type": "array", "items": TEXT, "description": "Looks that nobody has taken since"},
}
CHECKS = (
    "Every check of the chosen option, the deciding one with its edges; the others have `edges` in clubs of up to "
    f"{MANY_PAIRS} pairs; beyond that the limits stand in fit_rules.json, and only checks that hold the verdict down "
    "are here"
)

BY_BIKE = (
    "The verdict by the room of each bike that runs the chain, sorted by bike; empty where every one of them has that "
    "of the pair"
)


def contract_schemas() -> dict[str, Plain]:
    """By the name of the document."""
    return {
        "fits": fits_schema(),
        "explain": explain_schema(),
        "check": check_schema(),
        "problems": problems_schema(),
        "wear": wear_schema(),
        "plan": plan_schema(),
        "cards": cards_schema(),
    }


def fits_schema() -> Plain:
    body = club_and_rungs() | {"pairs": {"type": "array", "items": _pair()}}
    return published("fits/1", "Every chain with every connecting link, sorted by chain and link", body)


def explain_schema() -> Plain:
    body = club_and_rungs() | {
        "pair": _pair(),
        "options": {"type": "array", "items": _option()},
        "dry_fits": {"type": "array", "items": _dry_fit()},
        "next": or_null(_act()),
        "clip_lost": {
            "type": "array",
            "items": closed({"id": TEXT, "best": RUNG, "worst": RUNG, "look_first": {"type": "boolean"}}),
            "description": "What is left when the clip is lost, by rule; look_first: not without a look",
        },
    }
    return published("explain/1", "One pair as in fits/1, with all its options, best first", body)


def _act() -> Plain:
    """What to do next: one handling of one part or joint."""
    ask = closed({"part": TEXT, "id": TEXT, "field": TEXT})
    return closed(
        {
            "act": {"enum": ["look", "dry-fit", "compare", "measure"]},
            "part": TEXT,
            "id": TEXT,
            "ask": {"type": "array", "items": ask, "description": "Fields that the answers fill in"},
            "using": or_null(TEXT),
            "between": or_null(TEXT),
            "minutes": {"type": "integer", "minimum": 1},
        }
    )


def _pair() -> Plain:
    """One chain and one link; `refused` says why there is no verdict."""
    return closed(
        {
            "chain": TEXT,
            "link": TEXT,
            **verdict(CHECKS),
            "by_bike": {"type": "array", "items": _on_bike(), "description": BY_BIKE},
            "strength": {"enum": ["dry-fitted", "by-make", "by-numbers"]},
            "option": or_null(closed(OPTION)),
            "slack_mm": LENGTH,
            "chance_percent": or_null(
                closed({rung: {"type": "integer", "minimum": 0, "maximum": 100} for rung in RUNGS})
            ),
            "counts_as": {
                **RUNG_OR_NULL,
                "description": "What it is worth where nothing more can be found out",
            },
            "runs_now": or_null(closed(RUNS_NOW)),
            "press_to_mm": span() | {"description": "Over both outer plates, the plate where it belongs"},
            "beside_mm": span() | {"description": "Over the outer plates beside it"},
            "flare_mm": span() | {"description": "Over the flared ends of rivet pins, as manuals ask"},
            "flare_least_mm": span() | {"description": "The least that holds on this pin"},
            "pieces": {"type": "integer", "minimum": 0, "description": "Links the record stands for"},
            "pieces_tried": {"type": "integer", "minimum": 0},
            "evidence": EVIDENCE,
            "page": {**TEXT, "description": "Address below the root of the handbook"},
        }
    )


def _on_bike() -> Plain:
    return closed({"bike": TEXT, "word": WORD, "best": RUNG_OR_NULL, "worst": RUNG_OR_NULL})


def _option() -> Plain:
    return closed(
        {
            **OPTION,
            "seal_set": {**TEXT_OR_NULL, "description": "Bag label of the seals or washers"},
            "best": RUNG,
            "worst": RUNG,
            "deciding": TEXT,
            "slack_mm": LENGTH,
            "adds_up": ADDS_UP,
            "trials": {"type": "array", "items": TEXT},
            "checks": {"type": "array", "items": check()},
        }
    )


def _dry_fit() -> Plain:
    return closed(
        {
            "id": TEXT,
            "on": {"type": "string", "format": "date"},
            "clip": OPTION["clip"],
            "seals": OPTION["seals"],
            "word": {"enum": list(TRIED), "description": "What came of it"},
            "open": {"type": "array", "items": TEXT, "description": "Questions it leaves unanswered"},
        }
    )


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
