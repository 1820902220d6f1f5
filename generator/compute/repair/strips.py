"""Mending with a piece of strip, or with a strip as long as the loop."""

from collections.abc import Iterator, Sequence

from generator.compute.geometry.axle import AxleMove
from generator.compute.repair.counting import fillings
from generator.compute.repair.result import Bag, Fitted, Job, Lack, Method, PartUse
from generator.compute.repair.task import Found, Task, axle_of, fitted_with, in_order, on_axle, or_lack
from generator.compute.repair.workshop import first_missing
from generator.model.shipped import NO_GO


def with_strip(task: Task) -> Iterator[Found]:
    """Two connecting links and a piece of strip between them."""
    jobs = task.needs()
    missing = first_missing(jobs)
    if missing is not None:
        yield task.bench.workshop.lack(missing)
        return
    found = [
        each
        for fit in task.bench.strips_in.get(task.loop.chain.id, ())
        for each in _of_strip(task, fit.id_of("strip"), jobs)
    ]
    yield from or_lack(found, Lack("S006", "chain", task.loop.chain.id))


def _of_strip(task: Task, strip: str, jobs: tuple[Job, ...]) -> Iterator[Method]:
    """Every piece that can be cut from the strip and that the axle allows; joints worst of chain and strip."""
    record = task.bench.dataset.strips[strip].record
    fit = next(each for each in task.bench.strips_in[task.loop.chain.id] if each.id_of("strip") == strip)
    if record.count == 0 or fit.best is None or fit.worst is None or fit.best == NO_GO:
        return
    fitted = _on_both(task, strip, (fit.best, fit.worst), jobs)
    for one in fillings(task.gap, record.pitches) if fitted else ():
        axle = axle_of(task.loop, one.change)
        if one.strip and one.change <= 2 and axle is not False:
            moved = axle if isinstance(axle, AxleMove) else None
            whole = jobs if one.strip == record.pitches else _with_opening(task, jobs)
            parts = (PartUse("strip", strip),)
            yield on_axle(Method(task.way_id, 2, fitted, parts, whole, one.change, moved))


def _with_opening(task: Task, jobs: tuple[Job, ...]) -> tuple[Job, ...]:
    """A strip that is cut is opened like the chain it is of."""
    return tuple(dict.fromkeys((*jobs, *task.bench.workshop.opening(task.loop.chain.id))))


def _on_both(task: Task, strip: str, rungs: tuple[int, int], jobs: Sequence[Job]) -> tuple[Fitted, ...]:
    found = []
    for joint in task.bench.joints_of.get((strip, task.loop.chain.id), ()):
        fit = task.loop.fits.get(joint.link)
        if (
            joint.best is None
            or joint.worst is None
            or joint.seals is None
            or fit is None
            or fit.option is None
        ):
            continue
        seal_set = fit.option.seal_set if fit.option.seals == joint.seals else None
        bag = Bag(joint.link, joint.clip, joint.seals, seal_set)
        both = (max(joint.best, rungs[0]), max(joint.worst, rungs[1]))
        each = fitted_with(task, bag, both, False, jobs, 2)
        if isinstance(each, Fitted) and each.range.best < NO_GO:
            found.append(each)
    return in_order(found)


def with_chain(task: Task) -> Iterator[Found]:
    """A strip as long as the whole loop less one pitch, closed with one link."""
    chain, pitches = task.loop.chain.id, task.loop.bike.record.pitches
    jobs = task.needs()
    missing = first_missing(jobs)
    if missing is not None:
        yield task.bench.workshop.lack(missing)
        return
    found = []
    for fit in task.bench.strips_in.get(chain, ()):
        strip = task.bench.dataset.strips[fit.id_of("strip")]
        if (
            strip.record.pitches >= pitches - 1
            and strip.record.count
            and fit.best is not None
            and fit.worst is not None
        ):
            fitted = _on_strip(task, strip.id, (fit.best, fit.worst), jobs)
            found.extend(
                [Method(task.way_id, 1, fitted, (PartUse("strip", strip.id),), jobs)] if fitted else []
            )
    yield from or_lack(found, Lack("S016", "bike", task.loop.bike.id))


def _on_strip(task: Task, strip: str, rungs: tuple[int, int], jobs: Sequence[Job]) -> tuple[Fitted, ...]:
    """Both pins of the link stand in the strip then."""
    found = []
    for joint in task.bench.joints_of.get((strip, task.loop.chain.id), ()):
        fit = task.loop.fits.get(joint.link)
        if joint.on_strip is None or joint.seals is None or fit is None or fit.option is None:
            continue
        seal_set = fit.option.seal_set if fit.option.seals == joint.seals else None
        both = (max(joint.on_strip.best, rungs[0]), max(joint.on_strip.worst, rungs[1]))
        each = fitted_with(task, Bag(joint.link, joint.clip, joint.seals, seal_set), both, False, jobs, 1)
        if isinstance(each, Fitted) and each.range.best < NO_GO:
            found.append(each)
    return in_order(found)
