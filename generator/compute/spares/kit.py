"""The kit of the trade beside the plan: what it leaves worse, what of it there is not, what it carries for nothing."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from generator.compute.repair.result import Bag, Case
from generator.compute.spares.catalogue import Carry, Catalogue
from generator.compute.spares.result import Bearer, KitView, Served
from generator.compute.spares.serve import best_with
from generator.model.mending import Kit, KitLine
from generator.model.shipped import NO_GO


@dataclass(frozen=True, slots=True)
class _Packed:
    """Everything of the kits that the club has, on bikes and in the van, and what it has not."""

    group: dict[Carry, int]
    van: dict[Carry, int]
    lacks: list[tuple[str, str]]


def kit_view(
    catalogue: Catalogue,
    cases: Sequence[Case],
    served: Sequence[Served],
    bearers: Sequence[Bearer],
    van: frozenset[str],
) -> KitView:
    """None of it is planned: every rider takes what the trade says, for the own bike."""
    packed = _packed(catalogue, cases, bearers)
    every = {
        thing: packed.group.get(thing, 0) + packed.van.get(thing, 0)
        for thing in {**packed.group, **packed.van}
    }
    with_kit = [best_with(case, every if case.bike in van else packed.group) for case in cases]
    worse = tuple(
        (case.bike, case.failure, NO_GO if done is None else done.rung, plan.rung)
        for case, done, plan in zip(cases, with_kit, served, strict=True)
        if (NO_GO if done is None else done.rung) > plan.rung
    )
    used = {take[:2] for done in with_kit if done is not None for take in done.takes(catalogue.dataset)}
    parts = {part for thing in packed.group for part, _ in catalogue.parts(thing)}
    mass = sum(
        catalogue.mass(part) * n * uses
        for thing, n in packed.group.items()
        for part, uses in catalogue.parts(thing)
    )
    return KitView(mass, worse, tuple(dict.fromkeys(packed.lacks)), tuple(sorted(parts - used)))


def _packed(catalogue: Catalogue, cases: Sequence[Case], bearers: Sequence[Bearer]) -> _Packed:
    packed = _Packed({}, {}, [])
    bikes = list(dict.fromkeys(case.bike for case in cases))
    for id_, kit in catalogue.dataset.shelf.mending.kits.items():
        for bike in _carriers(kit, bearers, bikes):
            for line in kit.lines:
                things = list(_things(catalogue, line, cases, bike, bikes))
                place = packed.van if kit.bearer == "van" else packed.group
                for thing in things:
                    place[thing] = place.get(thing, 0) + line.count
                if not things and not _needless(line, cases, bike):
                    packed.lacks.append((id_, line.does or line.what))
    return packed


def _needless(line: KitLine, cases: Sequence[Case], bike: str) -> bool:
    """A joint without a clip, or without seals, asks for none."""
    bag = _own_bag(cases, bike) if line.what in ("own-clip", "own-seals") else None
    return bag is not None and (bag.clip if line.what == "own-clip" else bag.seal_set) is None


def _carriers(kit: Kit, bearers: Sequence[Bearer], bikes: Sequence[str]) -> Sequence[str]:
    """The bikes whose riders carry it; the van and the sweep once, for all."""
    if kit.bearer == "rider":
        return bikes[:: kit.each]
    there = any(bearer.kind == kit.bearer for bearer in bearers) or kit.bearer == "sweep"
    return bikes[:1] if there else ()


def _things(
    catalogue: Catalogue, line: KitLine, cases: Sequence[Case], bike: str, bikes: Sequence[str]
) -> Iterator[Carry]:
    """What the line means for this bike; nothing where the club has none of it."""
    if line.what == "tool":
        yield from _tools(catalogue, str(line.does))
    elif line.what in ("own-link", "links-of-size"):
        of = [bike] if line.what == "own-link" else bikes
        yield from dict.fromkeys(bag for each in of if (bag := _own_bag(cases, each)) is not None)
    elif line.what in ("own-clip", "own-seals"):
        bag = _own_bag(cases, bike)
        part = None if bag is None else bag.clip if line.what == "own-clip" else bag.seal_set
        if part is not None:
            yield ("clip" if line.what == "own-clip" else "seal", part)
    else:
        yield from _strips(catalogue, cases, whole=line.what == "chain-of-size")


def _own_bag(cases: Sequence[Case], bike: str) -> Bag | None:
    """The best link for the bike as a rider would have bought it: by its verdict."""
    found = (
        fitted
        for case in cases
        if case.bike == bike
        for method in case.methods
        if method.take == 1 and method.change == 0
        for fitted in method.fitted
        if fitted.range.counts < NO_GO and fitted.bag is not None
    )
    best = min(
        found,
        key=lambda each: (each.range.joint, each.range.best, each.bag.link if each.bag else ""),
        default=None,
    )
    return best.bag if best is not None else None


def _tools(catalogue: Catalogue, does: str) -> Iterator[Carry]:
    """The first that is there, with its key."""
    for id_, tool in catalogue.dataset.tools.items():
        if tool.record.does == does and tool.record.count:
            yield ("tool", id_)
            if tool.record.key is not None:
                yield ("tool", tool.record.key)
            return


def _strips(catalogue: Catalogue, cases: Sequence[Case], whole: bool) -> Iterator[Carry]:
    """Strips of three pitches, or whole chains, that go into a chain of the group."""
    strips = catalogue.dataset.strips
    wanted = dict.fromkeys(
        part.id for case in cases for method in case.methods for part in method.parts if part.kind == "strip"
    )
    for id_ in wanted:
        pitches = strips[id_].record.pitches
        if (pitches > 20) if whole else (3 <= pitches <= 7):
            yield ("strip", id_)
