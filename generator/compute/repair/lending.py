"""Mending with the clip or the link of another bike of the group."""

from collections.abc import Iterator, Sequence

from generator.compute.repair.bench import Loop, bag_of
from generator.compute.repair.result import Fitted, Job, Method, Range
from generator.compute.repair.task import Found, Task, own_joint_refused
from generator.compute.repair.verdict import lowered
from generator.compute.repair.workshop import first_missing
from generator.model.shipped import GET_HOME, NO_GO


def lent_clip(task: Task) -> Iterator[Found]:
    """The clip of another bike, which has been off once then."""
    if own_joint_refused(task.loop) is not None:
        return
    verdicts = {clip: (best, worst) for clip, best, worst, _ in _any_clip(task.loop)}
    for lender, link in _lenders(task):
        clip = task.bench.dataset.links[link].record.clip
        if clip in verdicts:
            found = _lent(task, verdicts[clip], task.needs(), 1)
            yield Method(task.way_id, 0, (Fitted(None, found),), (), task.needs(), lender=lender)


def _any_clip(loop: Loop) -> Iterator[tuple[str, int, int, bool]]:
    """As for clips in the bags, of clips on bikes too."""
    seen = set[str]()
    for way in sorted(loop.own_ways(), key=lambda way: (way.worst, way.best)):
        if way.clip is not None and way.clip not in seen:
            seen.add(way.clip)
            yield way.clip, way.best, way.worst, False


def _lenders(task: Task) -> Iterator[tuple[str, str]]:
    """Other bikes that run with a clip link, and the link."""
    for id_, bike in task.bench.dataset.bikes.items():
        link = task.bench.dataset.chains[bike.record.chain].record.own_link
        known = task.bench.dataset.links.get(link or "")
        if id_ != task.loop.bike.id and known is not None and known.record.closure == "clip":
            yield id_, known.id


def _lent(task: Task, rungs: tuple[int, int], jobs: Sequence[Job], take: int) -> Range:
    """What was opened once is get-home at best."""
    return lowered(*rungs, [*task.limits(jobs, take, take), (GET_HOME, "opened-once")])


def lent_link(task: Task) -> Iterator[Found]:
    """The whole link of another bike."""
    jobs = task.needs()
    if task.failure.damage == "outer":
        jobs = (*task.bench.workshop.opening(task.loop.chain.id), *jobs)
    for lender, link in _lenders(task):
        fit = task.loop.fits.get(link)
        bag = bag_of(fit) if fit is not None else None
        if fit is None or bag is None or fit.best is None or fit.worst is None or fit.worst == NO_GO:
            continue
        closing = task.bench.workshop.closing(link)
        if first_missing((*jobs, *closing)) is None:
            found = _lent(task, (fit.best, fit.worst), (*jobs, *closing), 1)
            yield Method(
                task.way_id,
                0,
                (Fitted(None, found),),
                (),
                tuple(dict.fromkeys((*jobs, *closing))),
                lender=lender,
            )
