"""Plans of who carries what: for every ride, and for the whole club."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from generator.compute.repair.result import Bag, Case, Lack, Repairs
from generator.compute.spares.age import aged
from generator.compute.spares.bearers import bearers_of, shared_out
from generator.compute.spares.catalogue import FOLDERS, Carry, Catalogue
from generator.compute.spares.demands import Asked, asked_of
from generator.compute.spares.kit import kit_view
from generator.compute.spares.next_item import NextPiece
from generator.compute.spares.problem import Demand, Pool, Problem, merged
from generator.compute.spares.prove import Proven, bought, proven
from generator.compute.spares.result import Bearer, Carried, Load, Plan, Plans, Proof, Served, Tell, unheard
from generator.compute.spares.serve import best_with
from generator.model.dataset import Dataset
from generator.model.shipped import NO_GO
from generator.model.trials_and_rides import Ride


def plans_of(dataset: Dataset, repairs: Repairs) -> Plans:
    """The club's own list lets parts be bought; a ride takes what there is."""
    rides = {id_: plan_of(dataset, repairs, id_) for id_ in dataset.rides}
    return Plans(plan_of(dataset, repairs), rides)


def plan_of(
    dataset: Dataset,
    repairs: Repairs,
    ride: str | None = None,
    bikes: Sequence[str] | None = None,
    tell: Tell = unheard,
) -> Plan:
    """For a ride of the club, for some bikes, or for all.  A large club takes a while: `tell` hears of each goal."""
    record = dataset.rides[ride] if ride is not None else _ride_of(dataset, bikes)
    going = record.bikes if record is not None else tuple(dataset.bikes)
    depth = (record.failures_at_once if record is not None else None) or dataset.club.failures_at_once or 1
    catalogue = Catalogue(dataset, buying=record is None)
    van = _van_reaches(record)
    cases = [case for bike in going for case in _cases(repairs, bike)]
    asked = asked_of(cases, catalogue, van)
    draft = _Draft(dataset, catalogue, asked, bearers_of(dataset, record), van, depth, tell)
    return draft.plan(ride, tuple(going))


def _ride_of(dataset: Dataset, bikes: Sequence[str] | None) -> Ride | None:
    """A ride nobody wrote down: these bikes, no van."""
    if bikes is None:
        return None
    roles = {dataset.bikes[bike].record.role: bike for bike in reversed(bikes)}
    return Ride(on=dataset.as_of, bikes=tuple(bikes), leader=roles.get("leader"), sweep=roles.get("sweep"))


def _van_reaches(ride: Ride | None) -> frozenset[str]:
    if ride is None or not ride.van:
        return frozenset()
    return frozenset(ride.van_reaches or ride.bikes)


def _cases(repairs: Repairs, bike: str) -> Iterator[Case]:
    yield from (case for (of, _), case in repairs.items() if of == bike and case.happens)


@dataclass(frozen=True)
class _Draft:
    """One plan in the making."""

    dataset: Dataset
    catalogue: Catalogue
    asked: tuple[Asked, ...]
    bearers: tuple[Bearer, ...]
    van: frozenset[str]
    depth: int
    tell: Tell = unheard

    def plan(self, ride: str | None, bikes: tuple[str, ...]) -> Plan:
        loads, found, problem = self._loaded()
        served = tuple(self._served(loads, found))
        proof = replace(found.proof, rechecked=found.proof.rechecked and self._meets(served, found.proof))
        carried = tuple(self._load(bearer, loads[bearer.id], served) for bearer in self.bearers)
        more = bought(problem, found.amounts)
        return Plan(
            ride,
            bikes,
            self.depth,
            tuple(load for load in carried if load.items or load.bearer.kind != "rider"),
            served,
            proof,
            buy=tuple((kind, id_, n) for (kind, id_), n in sorted(more.items())),
            serves_nothing=tuple(self._idle()),
            dry_fit=tuple(self._untried(served)),
            next_items=NextPiece(self.catalogue, self.asked, _summed(loads.values())).found(),
            kit=kit_view(self.catalogue, [each.case for each in self.asked], served, self.bearers, self.van),
            aged=tuple(aged(self.dataset)),
        )

    def _problem(self, pools: tuple[Pool, ...]) -> Problem:
        alone = (each.demand for each in self.asked)
        demands = merged(alone) if self.depth == 1 else tuple(alone)
        return Problem(self.catalogue.items(), demands, pools, self.catalogue.stock(), self.depth)

    def _loaded(self) -> tuple[dict[str, dict[Carry, int]], Proven, Problem]:
        """Riders taken together first; where their bags have no room for what that gives, each by himself."""
        riders = [bearer for bearer in self.bearers if bearer.kind != "van"]
        vans = [bearer for bearer in self.bearers if bearer.kind == "van"]
        pools = (Pool(sum(bearer.limit for bearer in riders)), *(Pool(van.limit, True) for van in vans))
        problem = self._problem(pools)
        found = proven(problem, self.tell)
        shared = shared_out(self.catalogue, riders, found.amounts[0], self._users())
        if shared is None:
            problem = self._problem(
                tuple(Pool(bearer.limit, bearer.kind == "van") for bearer in self.bearers)
            )
            found = proven(problem, self.tell)
            return (
                {b.id: self._of(row) for b, row in zip(self.bearers, found.amounts, strict=True)},
                found,
                problem,
            )
        in_vans = {van.id: self._of(row) for van, row in zip(vans, found.amounts[1:], strict=True)}
        return shared | in_vans, found, problem

    def _of(self, row: Sequence[int]) -> dict[Carry, int]:
        return {self.catalogue.things[at]: n for at, n in enumerate(row) if n}

    def _users(self) -> Mapping[int, frozenset[str]]:
        """The bikes that each item would serve."""
        users: dict[int, set[str]] = {}
        for each in self.asked:
            for at in _wanted(each.demand):
                users.setdefault(at, set()).add(each.case.bike)
        return {at: frozenset(bikes) for at, bikes in users.items()}

    def _served(self, loads: Mapping[str, Mapping[Carry, int]], found: Proven) -> Iterator[Served]:
        group = _summed(loads[bearer.id] for bearer in self.bearers if bearer.kind != "van")
        every = _summed(loads.values())
        for number, each in enumerate(self.asked):
            there: Mapping[Carry, int] = every if each.demand.van else group
            if self.depth > 1:
                there = self._set_aside(there, found.uses[number])
            done = best_with(each.case, there)
            case, weight = each.case, each.demand.weight
            if done is None:
                yield Served(case.bike, case.failure, weight, NO_GO, reason=self._why_not(each))
            else:
                takes = done.takes(self.dataset)
                yield Served(case.bike, case.failure, weight, done.rung, done.repair, takes=takes)

    def _set_aside(self, there: Mapping[Carry, int], uses: Mapping[int, int]) -> Mapping[Carry, int]:
        """Tools, and of what is used up only what is meant for this failure."""
        tools = {thing: n for thing, n in there.items() if not isinstance(thing, Bag) and thing[0] == "tool"}
        return tools | {self.catalogue.things[at]: n for at, n in uses.items() if n}

    def _why_not(self, each: Asked) -> Lack:
        if not each.demand.options:
            return each.case.reason or Lack("S001", "bike", each.case.bike)
        if any(bearer.kind == "van" for bearer in self.bearers) and not each.demand.van:
            return Lack("S012", "bike", each.case.bike)
        return Lack("S011", "bike", each.case.bike)

    def _meets(self, served: Sequence[Served], proof: Proof) -> bool:
        """The repairs that are printed weigh what the solver says."""
        values = {goal: value for goal, value, _ in proof.goals}
        rungs = {"worse-than-last-resort": 3, "last-resort": 2, "get-home": 1}
        return all(
            sum(each.weight for each in served if each.rung == rung) == values[goal]  # type: ignore[index]
            for goal, rung in rungs.items()
        )

    def _load(self, bearer: Bearer, things: Mapping[Carry, int], served: Sequence[Served]) -> Load:
        counts: dict[tuple[str, str], int] = {}
        for thing, n in things.items():
            for part, uses in self.catalogue.parts(thing):
                counts[part] = counts.get(part, 0) + n * uses
        order = list(FOLDERS)
        items = [
            Carried(kind, id_, n, n * self.catalogue.mass((kind, id_)), _uses(served, kind, id_))
            for (kind, id_), n in sorted(counts.items(), key=lambda one: (order.index(one[0][0]), one[0][1]))
        ]
        return Load(bearer, tuple(items))

    def _idle(self) -> Iterator[tuple[str, str]]:
        """Parts in stock that would serve none of these failures."""
        used = {part for thing in self.catalogue.things for part, _ in self.catalogue.parts(thing)}
        for kind, folder in FOLDERS.items():
            for id_, part in getattr(self.dataset, folder).items():
                if part.record.count and (kind, id_) not in used:
                    yield kind, id_

    def _untried(self, served: Iterable[Served]) -> Iterator[tuple[str, str]]:
        """Joints that count as get-home only because nobody has tried them."""
        found = {
            (self.dataset.bikes[each.bike].record.chain, bag.link)
            for each in served
            if each.repair is not None and "untried" in each.repair.range.caps
            for bag in each.repair.bags
        }
        yield from sorted(found)


def _wanted(demand: Demand) -> set[int]:
    return {item for option in demand.options for want in option.wants for item in want.items}


def _summed(loads: Iterable[Mapping[Carry, int]]) -> dict[Carry, int]:
    total: dict[Carry, int] = {}
    for load in loads:
        for thing, n in load.items():
            total[thing] = total.get(thing, 0) + n
    return total


def _uses(served: Iterable[Served], kind: str, id_: str) -> int:
    return sum(any((kind, id_) == take[:2] for take in each.takes) for each in served)
