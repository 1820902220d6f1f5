"""What a club has to mend with, looked up once: fits by bike, ways by clip, strips, plates and tools."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property

from generator.compute.fit.by_bike import ByBike
from generator.compute.fit.clip_lost import Makeshift, makeshifts
from generator.compute.fit.result import PairFit
from generator.compute.fit.ways import Way, Ways
from generator.compute.geometry.axle import Drive, Room
from generator.compute.grouped import grouped
from generator.compute.others.result import NeighbourFit, OtherFits, PartFit
from generator.compute.repair.result import Bag
from generator.compute.repair.workshop import Workshop
from generator.compute.wear.wear import Wear
from generator.model.chain_parts import Chain, Link
from generator.model.dataset import Dataset, Part
from generator.model.quantity import PPM_OF_PERCENT
from generator.model.shipped import GET_HOME, LAST_RESORT, PROPER
from generator.model.tools_and_bikes import Bike


@dataclass(frozen=True)
class RepairBench:
    """One club's fits, as the planner of repairs asks for them."""

    dataset: Dataset
    by_bike: ByBike
    ways: Ways
    others: OtherFits
    wear: Wear

    @cached_property
    def workshop(self) -> Workshop:
        return Workshop(self.dataset, self.others)

    @cached_property
    def strips_in(self) -> Mapping[str, list[PartFit]]:
        return grouped(self.others.strips, lambda fit: fit.id_of("chain"))

    @cached_property
    def joints_of(self) -> Mapping[tuple[str, str], list[NeighbourFit]]:
        """Links with one pin in a strip and the other in a chain."""
        return grouped(self.others.neighbours, lambda fit: (fit.strip, fit.chain))

    @cached_property
    def plates_on(self) -> Mapping[str, list[PartFit]]:
        return grouped(self.others.plates, lambda fit: fit.id_of("link"))

    @cached_property
    def _makeshifts(self) -> dict[tuple[str, str], tuple[Makeshift, ...]]:
        return {}

    def makeshifts(self, fit: PairFit) -> tuple[Makeshift, ...]:
        key = (fit.chain, fit.link)
        if key not in self._makeshifts:
            self._makeshifts[key] = makeshifts(self.dataset, fit)
        return self._makeshifts[key]

    def loop(self, bike: str) -> "Loop":
        return Loop(self, self.dataset.bikes[bike])


@dataclass(frozen=True)
class Loop:
    """One bike: its chain, the joint it runs with, and how far its axle may go."""

    bench: RepairBench
    bike: Part[Bike]

    @cached_property
    def chain(self) -> Part[Chain]:
        return self.bench.dataset.chains[self.bike.record.chain]

    @cached_property
    def own_link(self) -> Part[Link] | None:
        return self.bench.dataset.links.get(self.chain.record.own_link or "")

    @cached_property
    def joined_by(self) -> str:
        """clip, rivet, screw, endless or unknown."""
        if self.own_link is not None:
            return self.own_link.record.closure
        own = self.chain.record.own_joint
        return "clip" if own.startswith("clip") else own

    @cached_property
    def fits(self) -> Mapping[str, PairFit]:
        return {fit.link: fit for fit in self.bench.by_bike.get(self.bike.id, ())}

    @property
    def own_fit(self) -> PairFit | None:
        return self.fits.get(self.own_link.id) if self.own_link is not None else None

    def own_ways(self) -> Sequence[Way]:
        """Ways to close its own link, with what lies between its plates as the link is made."""
        link, fit = self.own_link, self.own_fit
        if link is None or fit is None or fit.option is None:
            return ()
        every = self.bench.ways.get((self.chain.id, link.id), ())
        return [way for way in every if way.seals == fit.option.seals]

    def clip_joints(self, own_stays: bool) -> int:
        """Joints closed by a clip that stay in the loop."""
        links = self.bench.dataset.links
        more = sum(links[id_].record.closure == "clip" for id_ in self.bike.record.more_joints)
        return more + int(own_stays and self.joined_by == "clip")

    def links_in(self, own_stays: bool) -> int:
        """Connecting links that stay in the loop."""
        own = own_stays and self.joined_by in ("clip", "screw", "rivet")
        return len(self.bike.record.more_joints) + int(own)

    @cached_property
    def worn(self) -> tuple[int, int]:
        """Rungs that its wear leaves at best and at worst."""
        seen = self.bench.wear.bikes[self.bike.id]
        if seen.elongation is None:
            return PROPER, PROPER
        ends = (seen.elongation.low, seen.elongation.high)
        far = self._far_worn
        low, high = (
            LAST_RESORT if end > far else GET_HOME if end > seen.limit.percent else PROPER for end in ends
        )
        return low, high

    @cached_property
    def drive(self) -> Drive | None:
        """None where the pitch is not known."""
        size = self.bench.dataset.shelf.sizes.get(self.chain.record.size_code)
        pitch = size.dims.get("pitch") if size is not None else None
        record = self.bike.record
        if pitch is None or not record.front_teeth or not record.rear_teeth:
            return None
        seen = self.bench.wear.bikes[self.bike.id].elongation
        long = (
            (float(seen.low) / 100, float(seen.high) / 100)
            if seen is not None
            else (0.0, float(self._far_worn) / 100)
        )
        return Drive(record.pitches, record.front_teeth, record.rear_teeth, pitch.nominal, long)

    @property
    def room(self) -> Room:
        dims = self.bike.dims
        keeps = self.bench.dataset.shelf.allowances["tyre-keeps"].nm
        return Room(
            dims.get("adjuster_forward"), dims.get("adjuster_back"), dims.get("tyre_clearance"), keeps
        )

    @property
    def _far_worn(self) -> Fraction:
        """Per cent beyond which nothing on the chain is better than last-resort."""
        return Fraction(self.bench.dataset.shelf.allowances["worn-far"].ppm, PPM_OF_PERCENT)


def bag_of(fit: PairFit) -> Bag | None:
    """The link as its best option has it made up; None where the pair is refused."""
    option = fit.option
    if option is None or fit.worst is None:
        return None
    return Bag(fit.link, option.clip, option.seals, option.seal_set, option.spacer)


def made_up(dataset: Dataset, bag: Bag) -> int:
    """How many such bags the stock gives by itself."""
    counts = [dataset.links[bag.link].record.count]
    counts.extend([dataset.clips[bag.clip].record.count] if bag.clip else [])
    counts.extend(dataset.seals[id_].record.count for id_ in (bag.seal_set, bag.spacer) if id_)
    return min(counts)
