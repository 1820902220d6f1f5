"""The schemas of the fits of clips, seals, side plates, strips and tools."""

from collections.abc import Mapping
from typing import Any, get_args

from generator.compute.others.result import Side
from generator.compute.others.seals import MOST_MEETINGS
from generator.model.many import MANY_PAIRS
from generator.render.schema.draft7 import Plain
from generator.render.schema.envelope import closed, published
from generator.render.schema.verdict import (
    ADDS_UP,
    EVIDENCE,
    LENGTH,
    TEXT,
    TEXT_OR_NULL,
    club_and_rungs,
    verdict,
)

SEALS = {
    "enum": ["fitted", "left-out", "packed", "none", None],
    "description": "What lies between the plates",
}
UNITS = ("kn", "percent")
CHECKS = (
    f"Every check with its edges in clubs of up to {MANY_PAIRS} pairs of chain and link; beyond that the deciding one "
    "alone and without `edges`, since the limits stand in fit_rules.json"
)
LEFT_OUT = f"in clubs of more than {MANY_PAIRS} pairs of chain and link, what is no-go is left out"
OWN_SETS_ONLY = (
    f"In a club with more than {MOST_MEETINGS} meetings of seals, links and chains a set is judged only with links whose "
    "own it is, or whose own are not known or gone; what is not in the list was then not judged"
)
LINKS = {"type": "array", "items": TEXT, "minItems": 1, "description": "Links of which all this holds"}
CHAINS = {
    "type": "object",
    "additionalProperties": LINKS,
    "description": "Chains by id, each with its links of which all this holds",
}
# what meets in each list, by the word for its kind; a tool may have no key written down
MEETS: Mapping[str, Mapping[str, Mapping[str, Plain]]] = {
    "clip_links": {"pairs": {"clip": TEXT, "links": LINKS}},
    "seal_fits": {"joints": {"seal": TEXT, "chains": CHAINS}},
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
    body = club_and_rungs()
    for key, parts in MEETS[name].items():
        fit = closed({**parts, **_fit()}, OPTIONAL.get((name, key), ()))
        body[key] = {"type": "array", "items": fit}
    if name == "seal_fits":
        body["own_sets_only"] = {"type": "boolean", "description": OWN_SETS_ONLY}
    if name == "strip_fits":
        body["neighbours"] = {"type": "array", "items": _neighbour()}
    return published(f"{name}/1", f"{TITLES[name]}; {LEFT_OUT}", body)


def _fit() -> dict[str, Any]:
    return verdict(CHECKS, UNITS) | {"slack_mm": LENGTH, "adds_up": ADDS_UP, "evidence": EVIDENCE}


def _neighbour() -> Plain:
    sides = {"enum": [*get_args(Side), None], "description": "Which of the two joints, or the bush ends"}
    parts = {"strip": TEXT, "chains": CHAINS, "clip": TEXT_OR_NULL, "seals": SEALS}
    return closed(parts | verdict(CHECKS, UNITS) | {"decided_by": sides})
