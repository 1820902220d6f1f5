"""Every way to mend one failure on one bike, with all it could be done with, or why it is closed."""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from generator.compute.fit.result import PairFit
from generator.compute.fit.ways import Way
from generator.compute.geometry.axle import AxleMove, axle_move
from generator.compute.repair.bench import Loop, RepairBench, bag_of, made_up
from generator.compute.repair.counting import PITCHES_OUT, filling, fillings
from generator.compute.repair.result import Bag, Fitted, Job, Lack, Method, PartUse, Range
from generator.compute.repair.verdict import Limit, loop_limits, lowered, tool_limits, unread_axle
from generator.compute.repair.workshop import first_missing
from generator.model.mending import Failure, RepairWay
from generator.model.shipped import GET_HOME, LAST_RESORT, NO_GO, PROPER, RUNGS

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
    refused = _own_joint_refused(loop)
    if refused is not None:
        yield refused
        return
    jobs = task.needs()
    missing = first_missing(jobs)
    if missing is not None:
        yield task.bench.workshop.lack(missing)
        return
    yield from _or_lack(
        (_with_clip(task, way, tried, jobs) for way, tried in _clips(loop, task.way.seat)),
        Lack("S002", "link", loop.own_link.id if loop.own_link else ""),
    )


def _own_joint_refused(loop: Loop) -> Lack | None:
    if loop.own_link is None:
        return Lack("S008", "word", "the link it runs with is not written down")
    fit = loop.own_fit
    if fit is None or fit.refused is not None or fit.worst is None:
        return Lack("S008", "word", fit.refused if fit is not None and fit.refused else "its own joint")
    return None


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


def _or_lack(methods: Iterable[Method], lack: Lack) -> Iterator[Found]:
    """What is not hopeless; where all of it is, or there is none, the reason."""
    kept = [method for method in methods if any(each.range.best < NO_GO for each in method.fitted)]
    yield from kept
    if not kept:
        yield lack
    elif all(each.range.counts == NO_GO for method in kept for each in method.fitted):
        yield Lack("S009", lack.kind, lack.about)


def _makeshift(task: Task) -> Iterator[Found]:
    """Wire, washers or the bare plate, as the joint without its clip allows."""
    refused = _own_joint_refused(task.loop)
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
    yield from _or_lack(methods, Lack("S001", "chain", task.loop.chain.id))


def _plate(task: Task) -> Iterator[Found]:
    """A side plate and a clip onto the pins that are left."""
    loop = task.loop
    refused = _own_joint_refused(loop)
    if refused is not None or loop.own_link is None:
        yield refused or Lack("S008", "word", "its own joint")
        return
    jobs = (*task.needs(), *task.bench.workshop.closing(loop.own_link.id))
    jobs = tuple(dict.fromkeys(jobs))
    missing = first_missing(jobs)
    if missing is not None:
        yield task.bench.workshop.lack(missing)
        return
    yield from _or_lack(_with_plates(task, loop.own_link.id, jobs), Lack("S018", "link", loop.own_link.id))


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
    refused = _own_joint_refused(loop)
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
    yield from _or_lack(_with_seals(task, jobs), Lack("S017", "link", loop.own_link.id))


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
    axle = _axle(task.loop, change)
    if axle is False:
        yield Lack("S007", "bike", task.loop.bike.id)
        return
    jobs = task.needs()
    missing = first_missing(jobs)
    if missing is not None:
        yield task.bench.workshop.lack(missing)
        return
    fitted, lack = _bags(task, task.loop.fits.values(), jobs, 1)
    if fitted:
        moved = axle if isinstance(axle, AxleMove) else None
        yield _on_axle(Method(task.way_id, 1, fitted, (), jobs, change, moved))
    if lack is not None:
        yield lack


def _axle(loop: Loop, change: int) -> AxleMove | bool | None:
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


def _on_axle(method: Method) -> Method:
    """Where nobody has read the room, none of it can be counted on."""
    if method.axle is None or method.axle.fits:
        return method
    return replace(
        method, fitted=tuple(replace(each, range=unread_axle(each.range)) for each in method.fitted)
    )


def _bags(
    task: Task, fits: Iterable[PairFit], jobs: Sequence[Job], take: int
) -> tuple[tuple[Fitted, ...], Lack | None]:
    """The links that could go on, best first; and why none can be counted on, if so."""
    found, lacks = list[Fitted](), list[Lack]()
    for fit in fits:
        bag = bag_of(fit)
        if bag is None or fit.best is None or fit.worst is None or fit.best == NO_GO:
            continue
        each = _fitted(task, bag, (fit.best, fit.worst), fit.strength == "dry-fitted", jobs, take)
        (lacks if isinstance(each, Lack) else found).append(each)  # type: ignore[arg-type]
    return _in_order(found), _why_none(task, found, lacks)


def _fitted(
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


def _in_order(fitted: Iterable[Fitted]) -> tuple[Fitted, ...]:
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


def _strip(task: Task) -> Iterator[Found]:
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
    yield from _or_lack(found, Lack("S006", "chain", task.loop.chain.id))


def _of_strip(task: Task, strip: str, jobs: tuple[Job, ...]) -> Iterator[Method]:
    """Every piece that can be cut from the strip and that the axle allows; joints worst of chain and strip."""
    record = task.bench.dataset.strips[strip].record
    fit = next(each for each in task.bench.strips_in[task.loop.chain.id] if each.id_of("strip") == strip)
    if record.count == 0 or fit.best is None or fit.worst is None or fit.best == NO_GO:
        return
    fitted = _on_both(task, strip, (fit.best, fit.worst), jobs)
    for one in fillings(task.gap, record.pitches) if fitted else ():
        axle = _axle(task.loop, one.change)
        if one.strip and one.change <= 2 and axle is not False:
            moved = axle if isinstance(axle, AxleMove) else None
            whole = jobs if one.strip == record.pitches else _with_opening(task, jobs)
            parts = (PartUse("strip", strip),)
            yield _on_axle(Method(task.way_id, 2, fitted, parts, whole, one.change, moved))


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
        each = _fitted(task, bag, both, False, jobs, 2)
        if isinstance(each, Fitted) and each.range.best < NO_GO:
            found.append(each)
    return _in_order(found)


def _chain(task: Task) -> Iterator[Found]:
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
    yield from _or_lack(found, Lack("S016", "bike", task.loop.bike.id))


def _on_strip(task: Task, strip: str, rungs: tuple[int, int], jobs: Sequence[Job]) -> tuple[Fitted, ...]:
    """Both pins of the link stand in the strip then."""
    found = []
    for joint in task.bench.joints_of.get((strip, task.loop.chain.id), ()):
        fit = task.loop.fits.get(joint.link)
        if joint.on_strip is None or joint.seals is None or fit is None or fit.option is None:
            continue
        seal_set = fit.option.seal_set if fit.option.seals == joint.seals else None
        both = (max(joint.on_strip.best, rungs[0]), max(joint.on_strip.worst, rungs[1]))
        each = _fitted(task, Bag(joint.link, joint.clip, joint.seals, seal_set), both, False, jobs, 1)
        if isinstance(each, Fitted) and each.range.best < NO_GO:
            found.append(each)
    return _in_order(found)


def _own_outer(task: Task) -> Iterator[Found]:
    """The next outer link of the chain is used again, two pitches shorter; a re-pressed sealed pin has lost its head."""
    jobs = task.needs()
    missing = first_missing(jobs)
    axle = _axle(task.loop, -2)
    if axle is False or missing is not None:
        yield task.bench.workshop.lack(missing) if missing else Lack("S007", "bike", task.loop.bike.id)
        return
    least = GET_HOME if task.loop.chain.record.kind == "plain" else LAST_RESORT
    found = lowered(least, least, task.limits(jobs))
    moved = axle if isinstance(axle, AxleMove) else None
    yield _on_axle(Method(task.way_id, 0, (Fitted(None, found),), (), jobs, -2, moved))


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


def _lend_clip(task: Task) -> Iterator[Found]:
    """The clip of another bike, which has been off once then."""
    if _own_joint_refused(task.loop) is not None:
        return
    verdicts = {clip: (best, worst) for clip, best, worst, _ in _any_clip(task.loop)}
    for lender, link in _lenders(task):
        clip = task.bench.dataset.links[link].record.clip
        if clip in verdicts:
            found = _lent(task, verdicts[clip], task.needs(), 1)
            yield Method(task.way_id, 0, (Fitted(None, found),), (), task.needs(), lender=lender)


def _any_clip(loop: Loop) -> Iterator[tuple[str, int, int, bool]]:
    """The same as `_clips`, of clips on bikes too."""
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


def _lend_link(task: Task) -> Iterator[Found]:
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


HOW: Mapping[str, Callable[[Task], Iterator[Found]]] = {
    "clip": _clip,
    "makeshift": _makeshift,
    "plate": _plate,
    "seals": _seals,
    "link": _link,
    "strip": _strip,
    "chain": _chain,
    "own-outer": _own_outer,
    "work": _work,
    "lend-clip": _lend_clip,
    "lend-link": _lend_link,
}
