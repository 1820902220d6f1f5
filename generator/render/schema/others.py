"""The schemas of the fits of clips, seals, side plates, strips and tools.

Goes in: the closed lists of the models.  Comes out: one schema a document, by name.
"""

from collections.abc import Mapping
from typing import Any, get_args

from generator.compute.fit.result import Word
from generator.compute.others.result import Side
from generator.model.shipped import RUNGS, Group
from generator.render.schema.contract import EVIDENCE, LENGTH, READING, RUNG, RUNG_OR_NULL, TEXT, TEXT_OR_NULL
from generator.render.schema.draft7 import Plain
from generator.render.schema.envelope import closed, published

SEALS = {
    "enum": ["fitted", "left-out", "packed", "none", None],
    "description": "What lies between the plates",
}
PERCENT = {"type": ["number", "null"], "description": "Per cent, at most six decimals; null: not known"}
LINKS = {"type": "array", "items": TEXT, "description": "Links that come out alike in every check"}
# what meets in each list, by the word for its kind; a tool may have no key written down
MEETS: Mapping[str, Mapping[str, Mapping[str, Plain]]] = {
    "clip_links": {"pairs": {"clip": TEXT, "link": TEXT}},
    "seal_fits": {"joints": {"seal": TEXT, "chain": TEXT, "links": LINKS}},
    "plate_fits": {"pairs": {"plate": TEXT, "link": TEXT}},
    "strip_fits": {"pairs": {"strip": TEXT, "chain": TEXT}},
    "tool_fits": {"pairs": {"tool": TEXT, "chain": TEXT, "link": TEXT}, "keys": {"tool": TEXT, "key": TEXT}},
}
OPTIONAL = {("tool_fits", "pairs"): ("chain", "link"), ("tool_fits", "keys"): ("key",)}
TITLES: Mapping[str, str] = {
    "clip_links": "Every clip with every link that closes with a clip",
    "seal_fits": "Every seal set in every joint made for sealed chain",
    "plate_fits": "Every loose side plate with every link",
    "strip_fits": "Every strip in every chain, and links with one pin in each",
    "tool_fits": "Every tool with the chains and links it works on, and with its key",
}


def other_schemas() -> dict[str, Plain]:
    """By the name of the document."""
    return {name: _schema(name) for name in MEETS}


def _schema(name: str) -> Plain:
    body: dict[str, Any] = {"club": TEXT, "rungs": {"const": list(RUNGS)}}
    for key, parts in MEETS[name].items():
        fit = closed({**parts, **_fit()}, OPTIONAL.get((name, key), ()))
        body[key] = {"type": "array", "items": fit}
    if name == "strip_fits":
        body["neighbours"] = {"type": "array", "items": _neighbour()}
    return published(f"{name}/1", TITLES[name], body)


def _verdict() -> dict[str, Any]:
    return {
        "word": {
            "enum": list(get_args(Word)),
            "description": "measure-first exactly when best differs from worst",
        },
        "best": RUNG_OR_NULL,
        "worst": RUNG_OR_NULL,
        "refused": {**TEXT_OR_NULL, "description": "Why no verdict is given"},
        "deciding": {**TEXT_OR_NULL, "description": "Id of the check that decides"},
        "checks": {"type": "array", "items": _check()},
        "measure_next": _or_null(closed({**READING, "to_within_mm": LENGTH})),
    }


def _fit() -> dict[str, Any]:
    adds_up = {"type": "boolean", "description": "Four or more groups at get-home make last-resort"}
    return _verdict() | {"slack_mm": LENGTH, "adds_up": adds_up, "evidence": EVIDENCE}


def _neighbour() -> Plain:
    sides = {"enum": [*get_args(Side), None], "description": "Which of the two joints, or the bush ends"}
    parts = {"strip": TEXT, "chain": TEXT, "link": TEXT, "clip": TEXT_OR_NULL, "seals": SEALS}
    return closed(parts | _verdict() | {"decided_by": sides})


def _check() -> Plain:
    """As in fits/1, with per cents beside millimetres and kilonewtons."""
    units = {"mm": LENGTH, "kn": LENGTH | {"description": "Kilonewtons"}, "percent": PERCENT}
    numbers = {f"at_{unit}": schema for unit, schema in units.items()}
    numbers |= {f"slack_{unit}": _span() for unit in units}
    edge = {"rung": {"enum": list(RUNGS)}, "side": {"enum": ["low", "high"]}}
    return closed(
        {
            "id": TEXT,
            "group": {"enum": list(get_args(Group))},
            "best": RUNG,
            "worst": RUNG,
            "clearance_mm": _span(),
            "clearance_kn": _span(),
            "clearance_percent": _span(),
            "category": TEXT,
            "missing": {"type": "array", "items": closed(READING)},
            "evidence": EVIDENCE,
            "edges": {"type": "array", "items": closed(edge | numbers, tuple(numbers))},
        },
        optional=("clearance_kn", "clearance_percent", "category"),
    )


def _span() -> Plain:
    number = {"type": "number"}
    return _or_null(closed({"low": number, "nominal": number, "high": number}))


def _or_null(schema: Plain) -> Plain:
    return {"anyOf": [schema, {"type": "null"}]}
