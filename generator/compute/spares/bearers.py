"""Who carries on a ride, and how the load is shared out."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from generator.compute.repair.result import Bag
from generator.compute.spares.catalogue import Carry, Catalogue
from generator.compute.spares.result import Bearer, BearerKind
from generator.model.dataset import Dataset
from generator.model.trials_and_rides import Ride
from generator.model.written import Written

# lies with the sweep, who comes past whatever broke (common practice of the trade)
SWEEPS = ("breaker", "press", "riveter", "file", "tip", "strap", "ties", "wire", "washers", "oil")


def bearers_of(dataset: Dataset, ride: Ride | None) -> tuple[Bearer, ...]:
    """Leader, sweep, the other riders by bike, the van last."""
    bikes = list(ride.bikes) if ride is not None else list(dataset.bikes)
    roles = {bike: _role(dataset, ride, bike) for bike in bikes}
    order: tuple[BearerKind, ...] = ("leader", "sweep", "rider")
    found = [
        Bearer(bike, kind, _limit(dataset, bike, kind), bike)
        for kind in order
        for bike in bikes
        if roles[bike] == kind
    ]
    if ride is not None and ride.van:
        found.append(Bearer("van", "van", _grams(dataset.club.van_carries) or _kit_limit(dataset, "van")))
    return tuple(found)


def _role(dataset: Dataset, ride: Ride | None, bike: str) -> BearerKind:
    if ride is not None:
        return "leader" if bike == ride.leader else "sweep" if bike == ride.sweep else "rider"
    role = dataset.bikes[bike].record.role
    return role if role in ("leader", "sweep") else "rider"


def _limit(dataset: Dataset, bike: str, kind: BearerKind) -> int:
    own = dataset.bikes[bike].dims.get("carries")
    if own is not None:
        return own.low
    club = dataset.club.sweep_carries if kind == "sweep" else dataset.club.rider_carries
    return _grams(club) or _kit_limit(dataset, "sweep" if kind == "sweep" else "rider")


def _grams(written: Written | None) -> int | None:
    """In mg; the least of what was written."""
    return int(min(written.readings)) if written is not None and not written.is_unknown else None


def _kit_limit(dataset: Dataset, bearer: str) -> int:
    """What the trade's kits let such a bearer carry; without any, 500 g."""
    limits = [_grams(kit.limit) or 0 for kit in dataset.shelf.mending.kits.values() if kit.bearer == bearer]
    return max(limits, default=500_000)


@dataclass(frozen=True, slots=True)
class Unit:
    """What must lie together: one piece, or a key with all tools it turns."""

    things: tuple[int, ...]
    mass: int
    wishes: tuple[str, ...]


def shared_out(
    catalogue: Catalogue,
    bearers: Sequence[Bearer],
    amounts: Sequence[int],
    users: Mapping[int, frozenset[str]],
) -> dict[str, dict[Carry, int]] | None:
    """By bearer what lies where; None where first come, first served finds no room.

    `users` are the bikes that an item would serve: what serves one chain rides with it, shared tools with the sweep.
    """
    room = {bearer.id: bearer.limit for bearer in bearers}
    loads: dict[str, dict[Carry, int]] = {bearer.id: {} for bearer in bearers}
    for unit in sorted(
        _units(catalogue, bearers, amounts, users), key=lambda unit: (-unit.mass, unit.things)
    ):
        place = next((id_ for id_ in unit.wishes if room[id_] >= unit.mass), None)
        if place is None:
            return None
        room[place] -= unit.mass
        for thing in unit.things:
            what = catalogue.things[thing]
            loads[place][what] = loads[place].get(what, 0) + 1
    return loads


def _units(
    catalogue: Catalogue,
    bearers: Sequence[Bearer],
    amounts: Sequence[int],
    users: Mapping[int, frozenset[str]],
) -> Iterator[Unit]:
    items = catalogue.items()
    keys: dict[int, list[int]] = {}
    for at, amount in enumerate(amounts):
        key = items[at].key
        if amount and key is not None:
            keys.setdefault(key, []).append(at)
    turned = {at for tools in keys.values() for at in tools}
    for at, amount in enumerate(amounts):
        if at in keys:
            together = (at, *keys[at])
            yield Unit(
                together,
                sum(items[each].mass for each in together),
                _wishes(catalogue, bearers, keys[at][0], users),
            )
        elif at not in turned:
            for _ in range(amount):
                yield Unit((at,), items[at].mass, _wishes(catalogue, bearers, at, users))


def _wishes(
    catalogue: Catalogue, bearers: Sequence[Bearer], at: int, users: Mapping[int, frozenset[str]]
) -> tuple[str, ...]:
    """Bearers in the order of who should have it."""
    thing = catalogue.things[at]
    sweep = [bearer.id for bearer in bearers if bearer.kind == "sweep"]
    leader = [bearer.id for bearer in bearers if bearer.kind == "leader"]
    riders = [bearer.id for bearer in bearers if bearer.kind == "rider"]
    if isinstance(thing, Bag) or thing[0] in ("clip", "seal", "plate"):
        served = users.get(at, frozenset())
        own = [bearer.id for bearer in bearers if bearer.id in served] if len(served) < len(bearers) else []
        first: Iterable[str] = (*own, *leader)
    elif thing[0] == "strip" or catalogue.dataset.tools[thing[1]].record.does in SWEEPS:
        first = sweep
    else:
        first = (*leader, *sweep)
    return tuple(dict.fromkeys((*first, *sweep, *leader, *riders, *(bearer.id for bearer in bearers))))
