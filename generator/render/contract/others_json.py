"""Fits of clips, seals, side plates, strips and tools as published below data/v1/.

Goes in: a dataset and its OtherFits.  Comes out: one document a kind.
"""

from collections.abc import Iterable, Mapping
from dataclasses import replace

from generator.compute.fit.result import CheckFit, EdgeFit
from generator.compute.others.result import NeighbourFit, OtherFits, PartFit
from generator.model.dataset import Dataset
from generator.model.shipped import RUNGS
from generator.render.contract.envelope import Plain, document, in_mm
from generator.render.contract.fits_json import check_json, next_json, span_json


def other_documents(dataset: Dataset, others: OtherFits) -> dict[str, Plain]:
    """The records of these parts have the plain names, so their fits are called fits."""
    bodies: dict[str, Mapping[str, list[Plain]]] = {
        "clip_links": {"pairs": _fits(others.clip_links)},
        "seal_fits": {"joints": _joints(others.seals)},
        "plate_fits": {"pairs": _fits(others.plates)},
        "strip_fits": {
            "pairs": _fits(others.strips),
            "neighbours": [neighbour_json(fit) for fit in others.neighbours],
        },
        "tool_fits": {"pairs": _fits(others.tools), "keys": _fits(others.keys)},
    }
    shared = {"club": dataset.club.id, "rungs": list(RUNGS)}
    return {name: document(f"{name}/1", dataset, {**shared, **body}) for name, body in bodies.items()}


def _fits(fits: Iterable[PartFit]) -> list[Plain]:
    """Sorted by the ids of the parts that meet."""
    ordered = sorted(fits, key=lambda fit: [(part.kind, part.id) for part in fit.parts])
    return [part_fit_json(fit) for fit in ordered]


def _joints(fits: Iterable[PartFit]) -> list[Plain]:
    """Links that come out alike in every check share an entry: where the plate is pressed the chain alone decides."""
    groups: dict[tuple[str, str, PartFit], list[str]] = {}
    for fit in fits:
        alike = replace(fit, parts=())
        groups.setdefault((fit.id_of("seal"), fit.id_of("chain"), alike), []).append(fit.id_of("link"))
    found = [
        {"seal": seal, "chain": chain, "links": sorted(links)} | part_fit_json(fit)
        for (seal, chain, fit), links in groups.items()
    ]
    return sorted(found, key=lambda joint: (joint["seal"], joint["chain"], joint["links"]))


def part_fit_json(fit: PartFit) -> Plain:
    """Each part that meets stands under the word for its kind."""
    check = fit.deciding_check
    in_lengths = check is not None and check.unit == "mm"
    return {part.kind: part.id for part in fit.parts} | {
        "word": fit.word,
        "best": fit.best,
        "worst": fit.worst,
        "refused": fit.refused,
        "deciding": fit.deciding,
        "slack_mm": in_mm(fit.slack) if in_lengths else None,
        "adds_up": fit.adds_up,
        "checks": [part_check_json(each) for each in fit.checks],
        "measure_next": next_json(fit.measure_next),
        "evidence": fit.evidence,
    }


def part_check_json(check: CheckFit) -> Plain:
    """As in fits/1; a difference of elongation has its numbers in per cent, its lengths are null."""
    if check.unit != "%":
        return check_json(check)
    plain = check_json(check)
    plain["clearance_percent"] = span_json(check.clearance)
    plain["edges"] = [_percent_edge(edge) for edge in check.edges]
    return plain


def _percent_edge(edge: EdgeFit) -> Plain:
    return {
        "rung": RUNGS[edge.rung],
        "side": edge.side,
        "at_percent": in_mm(edge.at),
        "slack_percent": span_json(edge.slack),
    }


def neighbour_json(fit: NeighbourFit) -> Plain:
    """The worse of both joints and the bush ends, and which of them it is."""
    check = fit.deciding_check
    return {
        "strip": fit.strip,
        "chain": fit.chain,
        "link": fit.link,
        "word": fit.word,
        "best": fit.best,
        "worst": fit.worst,
        "refused": fit.refused,
        "clip": fit.clip,
        "seals": fit.seals,
        "decided_by": fit.decided_by,
        "deciding": check.id if check is not None else None,
        "checks": [part_check_json(check)] if check is not None else [],
        "measure_next": next_json(fit.measure_next),
    }
