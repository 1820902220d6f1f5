"""Every failure on every bike of a club: what it can be mended with, or why it cannot."""

from collections.abc import Callable, Iterator, Sequence
from typing import Any

from generator.compute.repair.bench import Loop, RepairBench, made_up
from generator.compute.repair.methods import methods_of, plate_word
from generator.compute.repair.result import Bag, Case, Fitted, Lack, Method, PartUse, Repair, Repairs
from generator.model.dataset import Dataset
from generator.model.mending import Failure


def repairs_of(bench: RepairBench) -> Repairs:
    """By (bike, failure), in the order of bikes and failures."""
    failures = bench.dataset.shelf.mending.failures
    found: dict[tuple[str, str], Case] = {}
    for bike in bench.dataset.bikes:
        loop = bench.loop(bike)
        for id_, failure in failures.items():
            found[bike, id_] = case_of(loop, id_, failure)
    return found


def case_of(loop: Loop, id_: str, failure: Failure) -> Case:
    """What happens to joints only happens to bikes that have them."""
    if not _can_happen(loop, failure):
        return Case(loop.bike.id, id_, happens=False)
    found = list(methods_of(loop, failure))
    methods = tuple(each for each in found if isinstance(each, Method))
    lacks = tuple(dict.fromkeys(each for each in found if isinstance(each, Lack)))
    every = sorted(
        (repair for method in methods for repair in _repairs(loop.bench.dataset, method)),
        key=_preference(failure),
    )
    own = [repair for repair in every if repair.lender is None]
    return Case(
        loop.bike.id,
        id_,
        happens=True,
        repairs=tuple(repair for repair in own if repair.usable),
        untested=tuple(repair for repair in own if not repair.usable),
        lent=tuple(repair for repair in every if repair.lender is not None and repair.usable),
        methods=tuple(method for method in methods if method.lender is None),
        lacks=lacks,
    )


def _can_happen(loop: Loop, failure: Failure) -> bool:
    """Where the joint, the plate or the kind of chain is not known, it can."""
    other_joint = failure.joint is not None and loop.joined_by not in (failure.joint, "unknown")
    other_plate = failure.plate is not None and plate_word(loop) not in (failure.plate, "unknown")
    return not (other_joint or other_plate or (failure.sealed and loop.chain.record.kind == "plain"))


def _preference(failure: Failure) -> Callable[[Repair], tuple[Any, ...]]:
    """Better verdict, then the order of ways, then the old length, then the labels."""
    place = {way: number for number, way in enumerate(failure.ways)}

    def key(repair: Repair) -> tuple[Any, ...]:
        labels = (
            *(bag.link for bag in repair.bags),
            *(part.id for part in repair.parts),
            repair.lender or "",
        )
        found, change = repair.range, repair.change
        return found.counts, place[repair.way], abs(change), change, found.joint, found.best, labels

    return key


def _repairs(dataset: Dataset, method: Method) -> Iterator[Repair]:
    """A repair for each single bag; where two links go in, the best two that the stock gives."""
    if method.take <= 1:
        yield from (_repair(method, (fitted,)) for fitted in method.fitted)
        return
    pair = _best_two(dataset, method.fitted)
    if pair is not None:
        yield _repair(method, pair)


def _best_two(dataset: Dataset, fitted: Sequence[Fitted]) -> tuple[Fitted, Fitted] | None:
    """Twice the same where there are two of it, else the next one."""
    usable = [each for each in fitted if each.bag is not None]
    for at, one in enumerate(usable):
        if one.bag is not None and made_up(dataset, one.bag) >= 2:
            return one, one
        for other in usable[at + 1 :]:
            if other.bag is not None and one.bag is not None and both_made_up(dataset, one.bag, other.bag):
                return one, other
    return None


def both_made_up(dataset: Dataset, one: Bag, other: Bag) -> bool:
    """Whether the stock gives both at once: they may share a clip or seals."""
    shared_clip = one.clip is not None and one.clip == other.clip
    shared_seals = one.seal_set is not None and one.seal_set == other.seal_set
    clips = dataset.clips[one.clip].record.count if one.clip and shared_clip else 2
    seals = dataset.seals[one.seal_set].record.count if one.seal_set and shared_seals else 2
    return clips >= 2 and seals >= 2 and one.link != other.link


def _repair(method: Method, fitted: Sequence[Fitted]) -> Repair:
    """The worse of its joints; every tool once."""
    worst = max((each.range for each in fitted), key=lambda each: (each.counts, each.worst, each.best))
    bags = tuple(each.bag for each in fitted if each.bag is not None)
    jobs = tuple(dict.fromkeys(job for each in fitted for job in (*method.jobs, *each.jobs)))
    return Repair(method.way, worst, bags, method.parts, jobs, method.change, method.axle, method.lender)


def parts_of_bag(bag: Bag) -> Iterator[PartUse]:
    """Its link, its clip and its seals."""
    yield PartUse("link", bag.link)
    if bag.clip is not None:
        yield PartUse("clip", bag.clip)
    if bag.seal_set is not None:
        yield PartUse("seal", bag.seal_set)
    if bag.spacer is not None:
        yield PartUse("seal", bag.spacer)


def all_parts(repair: Repair) -> tuple[PartUse, ...]:
    """Every part it uses up, each named once with its count."""
    counts: dict[tuple[str, str], int] = {}
    for part in (*(each for bag in repair.bags for each in parts_of_bag(bag)), *repair.parts):
        counts[part.kind, part.id] = counts.get((part.kind, part.id), 0) + part.count
    return tuple(PartUse(kind, id_, count) for (kind, id_), count in counts.items())  # type: ignore[arg-type]
