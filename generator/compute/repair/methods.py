"""Every way to mend one failure on one bike, with all it could be done with, or why it is closed."""

from collections.abc import Callable, Iterator, Mapping

from generator.compute.fit.ways import Way
from generator.compute.geometry.axle import AxleMove
from generator.compute.repair.bench import Loop
from generator.compute.repair.counting import filling
from generator.compute.repair.lending import lent_clip, lent_link
from generator.compute.repair.result import Fitted, Job, Lack, Method, PartUse
from generator.compute.repair.strips import with_chain, with_strip
from generator.compute.repair.task import Found, Task, axle_of, bags_for, on_axle, or_lack, own_joint_refused
from generator.compute.repair.verdict import lowered
from generator.compute.repair.workshop import first_missing
from generator.model.mending import Failure
from generator.model.shipped import GET_HOME, LAST_RESORT, PROPER


def methods_of(loop: Loop, failure: Failure) -> Iterator[Found]:
    """In the order the failure names its ways."""
    ways = loop.bench.dataset.shelf.mending.ways
    for id_ in failure.ways:
        task = Task(loop, failure, id_, ways[id_])
        if task.way.asks_plate is None or plate_word(loop) in (task.way.asks_plate, "unknown"):
            yield from HOW[task.way.how](task)


def plate_word(loop: Loop) -> str:
    """How the side plate of its own joint goes on: slip, press or unknown."""
    fit = loop.own_link.record.plate_fit if loop.own_link is not None else "unknown"
    return "press" if fit == "press-to-shoulder" else fit


def _clip(task: Task) -> Iterator[Found]:
    """Another clip on the joint it has."""
    loop = task.loop
    refused = own_joint_refused(loop)
    if refused is not None:
        yield refused
        return
    jobs = task.needs()
    missing = first_missing(jobs)
    if missing is not None:
        yield task.bench.workshop.lack(missing)
        return
    yield from or_lack(
        (_with_clip(task, way, tried, jobs) for way, tried in _clips(loop, task.way.seat)),
        Lack("S002", "link", loop.own_link.id if loop.own_link else ""),
    )


def _clips(loop: Loop, seat: str | None = None) -> Iterator[tuple[Way, bool]]:
    """The best way on the own link with each clip that is there, its plate where it belongs or pressed to the clip,
    and whether that was tried."""
    dataset, option, seen = loop.bench.dataset, loop.own_fit.option if loop.own_fit else None, set[str]()
    for way in sorted(loop.own_ways(), key=lambda way: (way.worst, way.best)):
        if way.clip is None or way.clip in seen or (way.seat == "clip") != (seat == "clip"):
            continue
        counts = [dataset.clips[way.clip].record.count]
        counts.extend([dataset.seals[way.spacer].record.count] if way.spacer else [])
        if min(counts) == 0:
            continue
        seen.add(way.clip)
        chosen = option is not None and (option.clip, option.seat, option.spacer) == (
            way.clip,
            way.seat,
            way.spacer,
        )
        yield way, chosen and loop.own_fit is not None and loop.own_fit.strength == "dry-fitted"


def _with_clip(task: Task, way: Way, tried: bool, jobs: tuple[Job, ...]) -> Method:
    found = lowered(way.best, way.worst, task.limits(jobs, 1, 1), task.untried(tried))
    parts = [PartUse("clip", way.clip or ""), *([PartUse("seal", way.spacer)] if way.spacer else [])]
    return Method(task.way_id, 0, (Fitted(None, found),), tuple(parts), jobs)


def _makeshift(task: Task) -> Iterator[Found]:
    """Wire, washers or the bare plate, as the joint without its clip allows."""
    refused = own_joint_refused(task.loop)
    jobs = task.needs()
    missing = first_missing(jobs)
    if refused is not None or missing is not None:
        yield refused or task.bench.workshop.lack(missing)  # type: ignore[arg-type]
        return
    fit = task.loop.own_fit
    assert fit is not None
    found = [each for each in task.bench.makeshifts(fit) if each.rule_id in task.way.makeshift]
    ranges = [lowered(each.best, each.worst, task.limits(jobs, 0, 1)) for each in found]
    methods = [Method(task.way_id, 0, (Fitted(None, each),), jobs=jobs) for each in ranges]
    yield from or_lack(methods, Lack("S001", "chain", task.loop.chain.id))


def _plate(task: Task) -> Iterator[Found]:
    """A side plate and a clip onto the pins that are left."""
    loop = task.loop
    refused = own_joint_refused(loop)
    if refused is not None or loop.own_link is None:
        yield refused or Lack("S008", "word", "its own joint")
        return
    jobs = (*task.needs(), *task.bench.workshop.closing(loop.own_link.id))
    jobs = tuple(dict.fromkeys(jobs))
    missing = first_missing(jobs)
    if missing is not None:
        yield task.bench.workshop.lack(missing)
        return
    yield from or_lack(_with_plates(task, loop.own_link.id, jobs), Lack("S018", "link", loop.own_link.id))


def _with_plates(task: Task, link: str, jobs: tuple[Job, ...]) -> Iterator[Method]:
    """The best clip with each plate."""
    clips = list(_clips(task.loop))
    seal_set = task.loop.own_fit.option.seal_set if task.loop.own_fit and task.loop.own_fit.option else None
    for fit in task.bench.plates_on.get(link, ()):
        plate = fit.id_of("plate")
        if fit.worst is None or fit.best is None or not clips or not _left(task, "plates", plate):
            continue
        way, _ = clips[0]
        limits = task.limits(jobs, 1, 1)
        found = lowered(max(way.best, fit.best), max(way.worst, fit.worst), limits, task.untried(False))
        parts = [PartUse("plate", plate), PartUse("clip", way.clip or "")]
        parts.extend([PartUse("seal", seal_set)] if seal_set else [])
        yield Method(task.way_id, 0, (Fitted(None, found),), tuple(parts), jobs)


def _left(task: Task, kind: str, id_: str) -> bool:
    part = getattr(task.bench.dataset, kind).get(id_)
    return part is not None and part.record.count > 0


def _seals(task: Task) -> Iterator[Found]:
    """The joint it has, opened and sealed anew."""
    loop = task.loop
    refused = own_joint_refused(loop)
    if refused is not None or loop.own_link is None:
        yield refused or Lack("S008", "word", "its own joint")
        return
    if loop.chain.record.kind == "plain":
        yield Lack("S008", "word", "a plain chain has no seals")
        return
    jobs = tuple(dict.fromkeys((*task.needs(), *task.bench.workshop.closing(loop.own_link.id))))
    missing = first_missing(jobs)
    if missing is not None:
        yield task.bench.workshop.lack(missing)
        return
    yield from or_lack(_with_seals(task, jobs), Lack("S017", "link", loop.own_link.id))


def _with_seals(task: Task, jobs: tuple[Job, ...]) -> Iterator[Method]:
    fit, seen = task.loop.own_fit, set[str]()
    for way in sorted(task.loop.own_ways(), key=lambda way: (way.worst, way.best)):
        there = way.seal_set and way.clip and way.seals == "fitted"
        if not there or way.seal_set in seen or way.seal_set is None or way.clip is None:
            continue
        if not (_left(task, "seals", way.seal_set) and _left(task, "clips", way.clip)):
            continue
        seen.add(way.seal_set)
        option = fit.option if fit is not None else None
        tried = option is not None and (option.clip, option.seal_set) == (way.clip, way.seal_set)
        tried = tried and fit is not None and fit.strength == "dry-fitted"
        found = lowered(way.best, way.worst, task.limits(jobs, 1, 1), task.untried(tried))
        parts = (PartUse("seal", way.seal_set), PartUse("clip", way.clip))
        yield Method(task.way_id, 0, (Fitted(None, found),), parts, jobs)


def _link(task: Task) -> Iterator[Found]:
    """One connecting link in the gap; a shorter loop where more than one pitch came out."""
    change = filling(task.gap, 1).change
    axle = axle_of(task.loop, change)
    if axle is False:
        yield Lack("S007", "bike", task.loop.bike.id)
        return
    jobs = task.needs()
    missing = first_missing(jobs)
    if missing is not None:
        yield task.bench.workshop.lack(missing)
        return
    fitted, lack = bags_for(task, task.loop.fits.values(), jobs, 1)
    if fitted:
        moved = axle if isinstance(axle, AxleMove) else None
        yield on_axle(Method(task.way_id, 1, fitted, (), jobs, change, moved))
    if lack is not None:
        yield lack


def _own_outer(task: Task) -> Iterator[Found]:
    """The next outer link of the chain is used again, two pitches shorter; a re-pressed sealed pin has lost its head."""
    jobs = task.needs()
    missing = first_missing(jobs)
    axle = axle_of(task.loop, -2)
    if axle is False or missing is not None:
        yield task.bench.workshop.lack(missing) if missing else Lack("S007", "bike", task.loop.bike.id)
        return
    least = GET_HOME if task.loop.chain.record.kind == "plain" else LAST_RESORT
    found = lowered(least, least, task.limits(jobs))
    moved = axle if isinstance(axle, AxleMove) else None
    yield on_axle(Method(task.way_id, 0, (Fitted(None, found),), (), jobs, -2, moved))


def _work(task: Task) -> Iterator[Found]:
    """Hand work: its verdict stands in the data."""
    if task.way.at_best == "no-go":
        yield Lack("S013", "word", "")
        return
    jobs = task.needs()
    missing = first_missing(jobs)
    if missing is not None:
        yield task.bench.workshop.lack(missing)
        return
    yield Method(task.way_id, 0, (Fitted(None, lowered(PROPER, PROPER, task.limits(jobs))),), (), jobs)


HOW: Mapping[str, Callable[[Task], Iterator[Found]]] = {
    "clip": _clip,
    "makeshift": _makeshift,
    "plate": _plate,
    "seals": _seals,
    "link": _link,
    "strip": with_strip,
    "chain": with_chain,
    "own-outer": _own_outer,
    "work": _work,
    "lend-clip": lent_clip,
    "lend-link": lent_link,
}
