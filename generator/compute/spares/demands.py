"""The failures of the bikes that go, as demands over numbered items."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations_with_replacement, product

from generator.compute.repair.result import Case, Fitted, Job, Method
from generator.compute.spares.catalogue import Catalogue
from generator.compute.spares.problem import RUNGS_A_LEVEL, Demand, Option, Want, pruned
from generator.model.shipped import NO_GO

# the tools that will do, job by job
Tools = tuple[tuple[int, ...], ...]


@dataclass(frozen=True, slots=True)
class Asked:
    """A case that can happen, with its demand."""

    case: Case
    demand: Demand


def asked_of(cases: Iterable[Case], catalogue: Catalogue, van: frozenset[str]) -> tuple[Asked, ...]:
    """In the order of the cases; `van` are the bikes it reaches."""
    failures = catalogue.dataset.shelf.mending.failures
    found = []
    for case in cases:
        failure = failures[case.failure]
        options = pruned(option for method in case.methods for option in options_of(method, catalogue))
        demand = Demand(failure.often * failure.strands, case.bike in van, options)
        found.append(Asked(case, demand))
    return tuple(found)


def options_of(method: Method, catalogue: Catalogue) -> Iterator[Option]:
    """The same way at every level it can be done at: at a worse one more bags and more tools will do."""
    parts = [Want((catalogue.number((part.kind, part.id)),), part.count) for part in method.parts]
    joints = sorted({each.range.joint for each in method.fitted if each.range.counts < NO_GO})
    for rung, joint in product(range(NO_GO), joints):
        able = [each for each in method.fitted if each.range.counts <= rung and each.range.joint <= joint]
        level = rung * RUNGS_A_LEVEL + joint
        own = _tools(rung, method.jobs, catalogue)
        if able and own is not None:
            yield from _with_bags(level, method.take, own, able, parts, catalogue)


def _with_bags(
    level: int, take: int, own: Tools, able: Sequence[Fitted], parts: Sequence[Want], catalogue: Catalogue
) -> Iterator[Option]:
    """Bags that the same tools close stand for each other."""
    if take == 0:
        yield _option(level, parts, (own,))
        return
    alike: dict[Tools, list[int]] = {}
    for each in able:
        tools = _tools(level // RUNGS_A_LEVEL, each.jobs, catalogue)
        if each.bag is not None and tools is not None:
            alike.setdefault(tools, []).append(catalogue.number(each.bag))
    for groups in combinations_with_replacement(alike, take):
        wants = [Want(tuple(sorted(alike[group])), groups.count(group)) for group in dict.fromkeys(groups)]
        yield _option(level, [*parts, *wants], (own, *groups))


def _tools(rung: int, jobs: Iterable[Job], catalogue: Catalogue) -> Tools | None:
    """The tools that do each job at the rung; None where one has none."""
    asked = [tuple(sorted(catalogue.tool(id_) for id_ in job.tools(rung))) for job in dict.fromkeys(jobs)]
    return tuple(dict.fromkeys(asked)) if all(asked) else None


def _option(level: int, wants: Sequence[Want], tools: Iterable[Tools]) -> Option:
    asked = dict.fromkeys(items for each in tools for items in each)
    return Option(level, tuple(sorted((*wants, *(Want(items, 1) for items in asked)))))
