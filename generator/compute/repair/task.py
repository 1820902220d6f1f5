"""One failure on one bike and one way to mend it: what it needs, what lowers it, and what could go into the gap."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from generator.compute.fit.result import PairFit
from generator.compute.geometry.axle import AxleMove, axle_move
from generator.compute.repair.bench import Loop, RepairBench, bag_of, made_up
from generator.compute.repair.counting import PITCHES_OUT
from generator.compute.repair.result import Bag, Fitted, Job, Lack, Method
from generator.compute.repair.verdict import Limit, loop_limits, lowered, tool_limits, unread_axle
from generator.compute.repair.workshop import first_missing
from generator.model.mending import Failure, RepairWay
from generator.model.shipped import LAST_RESORT, NO_GO, PROPER, RUNGS

Found = Method | Lack


@dataclass(frozen=True)
class Task:
    """One failure on one bike, and one way to mend it."""

    loop: Loop
    failure: Failure
    way_id: str
    way: RepairWay

    @property
    def bench(self) -> RepairBench:
        return self.loop.bench

    @property
    def gap(self) -> int:
        return PITCHES_OUT.get(self.failure.damage, 1)

    @property
    def own_stays(self) -> bool:
        """Whether the joint it ran with is still in the loop afterwards."""
        return self.failure.joint is None

    def needs(self) -> tuple[Job, ...]:
        """Tools of the way itself."""
        return tuple(job for word in self.way.needs for job in self._job(word))

    def _job(self, word: str) -> tuple[Job, ...]:
        if word == "open":
            return self.bench.workshop.opening(self.loop.chain.id)
        if word == "press" and self.loop.own_link is not None:
            link = self.loop.own_link
            return (self.bench.workshop.presses(link.id),) if link.record.plate_fit != "slip" else ()
        return (self.bench.workshop.plain(word),)

    def limits(self, jobs: Sequence[Job] = (), new_clips: int = 0, new_links: int = 0) -> list[Limit]:
        """All that lowers it, whatever is fitted."""
        loop, stays = self.loop, self.own_stays
        found = loop_limits(loop.clip_joints(stays) + new_clips, loop.links_in(stays) + new_links)
        found += [(RUNGS.index(self.failure.at_best), "failure"), (RUNGS.index(self.way.at_best), "way")]
        if loop.bike.record.clip_missing and self.failure.damage not in ("clip", "plate", "joint"):
            found.append((LAST_RESORT, "missing-clip"))
        worn = loop.worn[1]
        found.append((worn, "worn-out" if worn == LAST_RESORT else "worn"))
        return [(rung, cap) for rung, cap in (*found, *tool_limits(jobs)) if rung > PROPER]

    def untried(self, tried: bool) -> int:
        """What a proper joint counts as where nobody has tried it."""
        return PROPER if tried else RUNGS.index(self.bench.dataset.club.untried_counts_as)


def own_joint_refused(loop: Loop) -> Lack | None:
    if loop.own_link is None:
        return Lack("S008", "word", "the link it runs with is not written down")
    fit = loop.own_fit
    if fit is None or fit.refused is not None or fit.worst is None:
        return Lack("S008", "word", fit.refused if fit is not None and fit.refused else "its own joint")
    return None


def or_lack(methods: Iterable[Method], lack: Lack) -> Iterator[Found]:
    """What is not hopeless; where all of it is, or there is none, the reason."""
    kept = [method for method in methods if any(each.range.best < NO_GO for each in method.fitted)]
    yield from kept
    if not kept:
        yield lack
    elif all(each.range.counts == NO_GO for method in kept for each in method.fitted):
        yield Lack("S009", lack.kind, lack.about)


def axle_of(loop: Loop, change: int) -> AxleMove | bool | None:
    """None where nothing moves; False where there is no room, or the drive is not known at all."""
    if change == 0:
        return None
    if loop.drive is None:
        return False
    try:
        move = axle_move(loop.drive, change, loop.room)
    except ValueError:
        return False
    return False if move.fits is False else move


def on_axle(method: Method) -> Method:
    """Where nobody has read the room, none of it can be counted on."""
    if method.axle is None or method.axle.fits:
        return method
    return replace(
        method, fitted=tuple(replace(each, range=unread_axle(each.range)) for each in method.fitted)
    )


def bags_for(
    task: Task, fits: Iterable[PairFit], jobs: Sequence[Job], take: int
) -> tuple[tuple[Fitted, ...], Lack | None]:
    """The links that could go on, best first; and why none can be counted on, if so."""
    found, lacks = list[Fitted](), list[Lack]()
    for fit in fits:
        bag = bag_of(fit)
        if bag is None or fit.best is None or fit.worst is None or fit.best == NO_GO:
            continue
        each = fitted_with(task, bag, (fit.best, fit.worst), fit.strength == "dry-fitted", jobs, take)
        (lacks if isinstance(each, Lack) else found).append(each)  # type: ignore[arg-type]
    return in_order(found), _why_none(task, found, lacks)


def fitted_with(
    task: Task, bag: Bag, rungs: tuple[int, int], tried: bool, jobs: Sequence[Job], take: int
) -> Fitted | Lack:
    """One link in the gap; a Lack where none is left or no tool closes it."""
    if made_up(task.bench.dataset, bag) == 0:
        return Lack("S010", "link", bag.link)
    closing = task.bench.workshop.closing(bag.link)
    missing = first_missing(closing)
    if missing is not None:
        return task.bench.workshop.lack(missing)
    clips = take if task.bench.dataset.links[bag.link].record.closure == "clip" else 0
    limits = task.limits((*jobs, *closing), clips, take)
    return Fitted(bag, lowered(*rungs, limits, task.untried(tried)), closing)


def in_order(fitted: Iterable[Fitted]) -> tuple[Fitted, ...]:
    """The better verdict first, then the better joint where the loop makes them alike."""
    return tuple(sorted(fitted, key=_order))


def _order(each: Fitted) -> tuple[int, int, int, str]:
    return each.range.counts, each.range.joint, each.range.best, each.bag.link if each.bag is not None else ""


def _why_none(task: Task, found: Sequence[Fitted], lacks: Sequence[Lack]) -> Lack | None:
    if any(each.range.counts < NO_GO for each in found):
        return None
    if found:
        return Lack("S009", "chain", task.loop.chain.id)
    refused = next((fit.refused for fit in task.loop.fits.values() if fit.refused), None)
    all_refused = refused is not None and all(fit.refused for fit in task.loop.fits.values())
    if all_refused:
        return Lack("S008", "word", str(refused))
    return lacks[0] if lacks else Lack("S001", "chain", task.loop.chain.id)
