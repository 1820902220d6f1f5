"""Everything that pages and files say of how parts go together, computed once."""

from collections.abc import Callable
from dataclasses import dataclass, replace

from generator.compute.fit.by_bike import Apart, ByBike, fits_by_bike, verdicts_apart
from generator.compute.fit.fits import fits_of
from generator.compute.fit.judge import Judge
from generator.compute.fit.options import bench
from generator.compute.fit.plans import Plans as RulesOfJoints
from generator.compute.fit.plans import plans_of as rules_of_joints
from generator.compute.fit.result import PairFit
from generator.compute.fit.ways import Way, Ways, ways_by_pair
from generator.compute.grouped import grouped, some_at_a_time
from generator.compute.next_act import Acts, acts_of
from generator.compute.others.result import OtherFits
from generator.compute.others.table import other_fits
from generator.compute.repair.bench import RepairBench
from generator.compute.repair.planner import repairs_of
from generator.compute.repair.result import Repairs
from generator.compute.spares.planner import plans_of
from generator.compute.spares.result import Plans
from generator.compute.wear.wear import Wear, wear_of
from generator.model.dataset import Dataset

PAIRS_AT_A_TIME = 4000


@dataclass(frozen=True, slots=True)
class AllFits:
    """`pairs` of chain and connecting link by id, `ways` to join each, how the `others` fit, what goes on each bike
    by its own room, the pairs that are not the same on all their bikes, how worn each chain is, what each failure of
    each bike is mended with, who carries what, and what to do next about each pair that is open."""

    pairs: tuple[PairFit, ...]
    ways: Ways
    others: OtherFits
    by_bike: ByBike
    apart: Apart
    wear: Wear
    repairs: Repairs
    plans: Plans
    acts: Acts


def all_fits(dataset: Dataset, planned: Callable[[Dataset, Repairs], Plans] = plans_of) -> AllFits:
    """`planned` says who carries what; `plans_of` does for every ride and the whole club."""
    rules = rules_of_joints(dataset)
    pairs, ways = _pairs_and_ways(dataset, rules)
    by_bike = fits_by_bike(dataset, grouped(pairs, lambda fit: fit.chain), plans=rules)
    apart = verdicts_apart(dataset, pairs, by_bike)
    others, wear = other_fits(dataset, rules), wear_of(dataset)
    repairs = repairs_of(RepairBench(dataset, by_bike, ways, others, wear))
    plans = planned(dataset, repairs)
    return AllFits(pairs, ways, others, by_bike, apart, wear, repairs, plans, acts_of(dataset, pairs))


def _pairs_and_ways(dataset: Dataset, rules: RulesOfJoints) -> tuple[tuple[PairFit, ...], Ways]:
    """Some chains at a time, so that a large club's millions of options need not all be held at once."""
    on = bench(dataset)
    pairs: list[PairFit] = []
    ways: dict[tuple[str, str], tuple[Way, ...]] = {}
    for chains in some_at_a_time(on.chains, PAIRS_AT_A_TIME, lambda _: len(on.links)):
        judge = Judge(dataset, replace(on, chains=chains), plans=rules)
        verdicts = judge.verdicts()
        pairs += fits_of(judge, verdicts)
        ways |= ways_by_pair(judge, verdicts)
    return tuple(pairs), ways
