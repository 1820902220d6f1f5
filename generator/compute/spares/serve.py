"""Which repair serves a failure with just what is carried."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import combinations_with_replacement

from generator.compute.repair.planner import all_parts
from generator.compute.repair.result import Bag, Case, Fitted, Job, Method, Repair
from generator.compute.spares.catalogue import Carry
from generator.model.dataset import Dataset
from generator.model.shipped import NO_GO

# what there is, with its count
Carried = Mapping[Carry, int]


@dataclass(frozen=True, slots=True)
class Done:
    """A repair with the tools that are there, each with its key."""

    repair: Repair
    rung: int
    tools: tuple[str, ...]

    def takes(self, dataset: Dataset) -> tuple[tuple[str, str, int], ...]:
        """(kind, id, count) of all it needs."""
        parts = [(part.kind, part.id, part.count) for part in all_parts(self.repair)]
        keys = (dataset.tools[tool].record.key for tool in self.tools)
        tools = dict.fromkeys((*self.tools, *(key for key in keys if key is not None)))
        return (*parts, *(("tool", tool, 1) for tool in tools))


def best_with(case: Case, carried: Carried) -> Done | None:
    """The one with the least rung and the best joint; of several the first of the planner's order."""
    found = [
        (done.rung, done.repair.range.joint, number, done)
        for number, done in enumerate(_all_with(case, carried))
    ]
    return min(found, key=lambda each: each[:3])[3] if found else None


def _all_with(case: Case, carried: Carried) -> Iterator[Done]:
    for method in case.methods:
        if all(carried.get((part.kind, part.id), 0) >= part.count for part in method.parts):
            for fitted in _made_with(method, carried):
                yield from _done(method, fitted, carried)


def _made_with(method: Method, carried: Carried) -> Iterator[Sequence[Fitted]]:
    if method.take == 0:
        yield from ((each,) for each in method.fitted)
        return
    there = [each for each in method.fitted if each.bag is not None and carried.get(each.bag, 0)]
    for chosen in combinations_with_replacement(there, method.take):
        if all(carried.get(bag, 0) >= n for bag, n in _counted(chosen)):
            yield chosen


def _counted(chosen: Iterable[Fitted]) -> Iterator[tuple[Bag, int]]:
    bags = [each.bag for each in chosen if each.bag is not None]
    yield from ((bag, bags.count(bag)) for bag in dict.fromkeys(bags))


def _done(method: Method, fitted: Sequence[Fitted], carried: Carried) -> Iterator[Done]:
    """Nothing where a tool is not there; a lesser tool brings its own rung."""
    jobs = tuple(dict.fromkeys(job for each in fitted for job in (*method.jobs, *each.jobs)))
    chosen = [_tool(job, carried) for job in jobs]
    worst = max((each.range for each in fitted), key=lambda each: (each.counts, each.joint, each.best))
    worst = replace(worst, joint=max(each.range.joint for each in fitted))
    rung = max([worst.counts, *(brings for tool in chosen if tool is not None for _, brings in (tool,))])
    if None in chosen or rung >= NO_GO:
        return
    bags = tuple(each.bag for each in fitted if each.bag is not None)
    found = replace(worst, counts=rung, worst=max(worst.worst, rung)) if rung > worst.counts else worst
    repair = Repair(method.way, found, bags, method.parts, jobs, method.change, method.axle)
    yield Done(repair, rung, tuple(dict.fromkeys(tool[0] for tool in chosen if tool is not None)))


def _tool(job: Job, carried: Carried) -> tuple[str, int] | None:
    return next(((id_, brings) for id_, brings in job.able if carried.get(("tool", id_), 0)), None)
