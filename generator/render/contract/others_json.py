"""Fits of clips, seals, side plates, strips and tools as published below data/v1/."""

from collections.abc import Iterable, Mapping
from typing import Any, TypeVar

from generator.compute.fit.result import Fit
from generator.compute.grouped import grouped
from generator.compute.others.result import NeighbourFit, OtherFits, PartFit
from generator.model.dataset import Dataset
from generator.model.many import many_pairs
from generator.model.shipped import RUNGS
from generator.render.contract.envelope import Plain, compact_text, document, in_mm
from generator.render.contract.fits_json import check_json, fit_json

NO_GO = RUNGS.index("no-go")
Meets = TypeVar("Meets", bound=Fit)


def other_documents(dataset: Dataset, others: OtherFits) -> dict[str, Plain]:
    """The records of these parts have the plain names, so their fits are called fits."""
    brief = many_pairs(dataset)
    neighbours = (neighbour_json(fit, brief) for fit in _told(others.neighbours, brief))
    bodies: dict[str, Mapping[str, list[Plain] | bool]] = {
        "clip_links": {"pairs": _together(_fits(others.clip_links, brief), "clip")},
        "seal_fits": {
            "joints": _together(_fits(others.seals, brief), "seal"),
            "own_sets_only": others.own_seals_only,
        },
        "plate_fits": {"pairs": _fits(others.plates, brief)},
        "strip_fits": {
            "pairs": _fits(others.strips, brief),
            "neighbours": _together(neighbours, "strip"),
        },
        "tool_fits": {"pairs": _fits(others.tools, brief), "keys": _fits(others.keys, brief)},
    }
    shared = {"club": dataset.club.id, "rungs": list(RUNGS)}
    return {name: document(f"{name}/1", dataset, {**shared, **body}) for name, body in bodies.items()}


def _fits(fits: Iterable[PartFit], brief: bool) -> list[Plain]:
    """Sorted by the ids of the parts that meet."""
    ordered = sorted(_told(fits, brief), key=lambda fit: [(part.kind, part.id) for part in fit.parts])
    return [part_fit_json(fit, brief) for fit in ordered]


def _together(entries: Iterable[Plain], kind: str) -> list[Plain]:
    """Entries of one part of the kind that read alike but for the link, or for chain and link, are one: a club with
    many pairs would publish the same words tens of thousands of times."""
    found = [_joined(alike) for alike in grouped(entries, _all_but_the_joint).values()]
    return sorted(found, key=lambda entry: (entry[kind], entry.get("links") or list(entry["chains"].items())))


def _all_but_the_joint(entry: Plain) -> str:
    return compact_text({name: value for name, value in entry.items() if name not in ("chain", "link")})


def _joined(alike: list[Plain]) -> Plain:
    """With its `links`, or where chains are met its `chains`, each with its links."""
    said: dict[str, Any] = {name: alike[0][name] for name in alike[0] if name not in ("chain", "link")}
    if "chain" not in alike[0]:
        return said | {"links": sorted(entry["link"] for entry in alike)}
    by_chain = grouped(alike, lambda entry: str(entry["chain"]))
    return said | {"chains": {id_: sorted(e["link"] for e in by_chain[id_]) for id_ in sorted(by_chain)}}


def _told(fits: Iterable[Meets], brief: bool) -> Iterable[Meets]:
    """Where it must be brief, what may go together; a meeting that is not in the file is no-go."""
    return (fit for fit in fits if fit.best != NO_GO) if brief else fits


def part_fit_json(fit: PartFit, brief: bool) -> Plain:
    """Where it must be brief, with the deciding check only and without its limits, which stand in the rules."""
    check = fit.deciding_check
    told = [check] if brief and check is not None else fit.checks
    in_lengths = check is not None and check.unit == "mm"
    return fit_json(fit) | {
        "slack_mm": in_mm(fit.slack) if in_lengths else None,
        "adds_up": fit.adds_up,
        "checks": [check_json(each, brief) for each in told],
        "evidence": fit.evidence,
    }


def neighbour_json(fit: NeighbourFit, brief: bool) -> Plain:
    """The worse of both joints and the bush ends, and which of them it is."""
    check = fit.deciding_check
    return fit_json(fit) | {
        "clip": fit.clip,
        "seals": fit.seals,
        "decided_by": fit.decided_by,
        "checks": [check_json(check, brief)] if check is not None else [],
    }
