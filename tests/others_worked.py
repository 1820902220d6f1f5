"""The worked cases of the rules for other parts, and what the engine says of them."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace
from functools import cache
from itertools import chain
from pathlib import Path
from typing import Any

import yaml

from generator.compute.fit.clip_lost import makeshifts
from generator.compute.fit.fits import fit_table
from generator.compute.others.clip_links import clip_link_fits
from generator.compute.others.plates import plate_fits
from generator.compute.others.result import PartFit
from generator.compute.others.seals import seal_fits
from generator.compute.others.strips import strip_fits
from generator.compute.others.tools import key_fits, tool_fits
from generator.model.dataset import Dataset
from generator.model.quantity import NM_PER_MM
from generator.model.shipped import PROPER, RUNGS, Rule
from tests.clubs import shelf
from tests.joints import nm
from tests.others_club import RUNS, exact_club

WORKED = Path(__file__).with_suffix(".yaml")
# rule -> best and worst rung of each that is asked
Said = Mapping[str, tuple[int, int]]
Rungs = tuple[int, int] | None
# nanometres inside the limit
SIDES = (1, 0, -1)


@dataclass(frozen=True)
class Case:
    """`expected` is None where the rule must not be asked."""

    rule: str
    label: str
    dataset: Dataset
    expected: Rungs


@dataclass(frozen=True)
class Limit:
    """A limit as worked: the better and the worse rung, and whether more of the dimension is inside."""

    rule: str
    cases: tuple[Case, ...]


@cache
def limits() -> tuple[Limit, ...]:
    return tuple(_limit(raw) for raw in _read()["limits"])


@cache
def cases() -> tuple[Case, ...]:
    """All of them, those on a limit too."""
    worded = (_case(raw) for raw in _read()["cases"])
    return (*chain.from_iterable(limit.cases for limit in limits()), *worded)


def file_of(rule: str) -> str:
    return next(file for file, rules in shelf().other_rules.items() if rule in rules)


def said(file: str, dataset: Dataset, rules: Mapping[str, Rule] | None = None) -> Said:
    """By rule, under the shipped table of that file or another one.  Raises what the rule table raises."""
    if rules is not None:
        others = {**dataset.shelf.other_rules, file: rules}
        dataset = replace(dataset, shelf=replace(dataset.shelf, other_rules=others))
    return ASKED[file](dataset)


def _read() -> dict[str, list[dict[str, Any]]]:
    read: dict[str, list[dict[str, Any]]] = yaml.load(WORKED.read_text(encoding="utf-8"), yaml.BaseLoader)
    return read


def _limit(raw: Mapping[str, Any]) -> Limit:
    kind, field = raw["move"].split()
    inward = {"up": 1, "down": -1}[raw["inside"]]
    better, worse = (RUNGS.index(word) for word in raw["says"])
    found = []
    for side in SIDES:
        value = _mm(nm(raw["at"]) + side * inward)
        rung = worse if side < 0 else better
        found.append(_of(raw, f"{kind} {field} {value}", {kind: {field: value}}, (rung, rung)))
    return Limit(raw["rule"], tuple(found))


def _mm(length: int) -> str:
    return f"{length // NM_PER_MM}.{length % NM_PER_MM:06d}"


def _case(raw: Mapping[str, Any]) -> Case:
    says = raw["says"]
    if says == "not asked":
        return _of(raw, says, {}, None)
    words = [says] if isinstance(says, str) else says
    rungs = [RUNGS.index(word) for word in words]
    return _of(raw, " to ".join(words), {}, (min(rungs), max(rungs)))


def _of(raw: Mapping[str, Any], label: str, more: Mapping[str, Any], expected: Rungs) -> Case:
    written = raw.get("with", {})
    if file_of(raw["rule"]) == "in_use":
        written = {
            "chain": RUNS | written.get("chain", {}),
            "link": {"came_with": "base"} | written.get("link", {}),
        }
    changes = {
        kind: {field: value or None for field, value in (written.get(kind, {}) | more.get(kind, {})).items()}
        for kind in (*written, *more)
    }
    return Case(raw["rule"], f"{raw['rule']}: {label} {written or ''}", exact_club(**changes), expected)


def _of_parts(fits: Callable[[Dataset], Iterable[PartFit]]) -> Callable[[Dataset], Said]:
    def found(dataset: Dataset) -> Said:
        checks = (check for fit in fits(dataset) for check in fit.checks)
        return {check.rule_id: (check.best, check.worst) for check in checks}

    return found


def _lost(dataset: Dataset) -> Said:
    """The joint itself stands back, so that the makeshift alone speaks."""
    (joint,) = fit_table(dataset)
    speaks = replace(joint, without_clip=(PROPER, PROPER))
    return {found.rule_id: (found.best, found.worst) for found in makeshifts(dataset, speaks)}


def _running(dataset: Dataset) -> Said:
    """Everything else about the joint is proper, so that the verdict is that of the rule of the look."""
    (joint,) = fit_table(dataset)
    assert joint.runs_now is not None
    return dict.fromkeys(dataset.shelf.other_rules["in_use"], (joint.runs_now.best, joint.runs_now.worst))


# file of rules -> what asks them, in a club of one part of each kind
ASKED: Mapping[str, Callable[[Dataset], Said]] = {
    "clip_link": _of_parts(clip_link_fits),
    "clip_lost": _lost,
    "in_use": _running,
    # what is held in the hand is asked for its key only as a tool
    "key": _of_parts(lambda dataset: (*tool_fits(dataset), *key_fits(dataset))),
    "neighbours": _of_parts(strip_fits),
    "plate": _of_parts(plate_fits),
    "seal": _of_parts(seal_fits),
    "strip": _of_parts(strip_fits),
    "tool": _of_parts(tool_fits),
}


def cases_of(rule: str) -> tuple[Case, ...]:
    return tuple(case for case in cases() if case.rule == rule)
