"""Everything that pages and files say of how parts go together, computed once."""

from collections.abc import Callable
from dataclasses import dataclass

from generator.compute.fit.by_bike import Apart, ByBike, fits_by_bike, verdicts_apart
from generator.compute.fit.fits import fits_of
from generator.compute.fit.judge import Judge
from generator.compute.fit.options import bench
from generator.compute.fit.result import PairFit
from generator.compute.fit.ways import Ways, ways_by_pair
from generator.compute.grouped import grouped
from generator.compute.others.result import OtherFits
from generator.compute.others.table import other_fits
from generator.compute.repair.bench import RepairBench
from generator.compute.repair.planner import repairs_of
from generator.compute.repair.result import Repairs
from generator.compute.spares.planner import plans_of
from generator.compute.spares.result import Plans
from generator.compute.wear.wear import Wear, wear_of
from generator.model.dataset import Dataset


@dataclass(frozen=True, slots=True)
class AllFits:
    """`pairs` of chain and connecting link by id, `ways` to join each, how the `others` fit, what goes on each bike
    by its own room, the pairs that are not the same on all their bikes, how worn each chain is, what each failure of
    each bike is mended with, and who carries what."""

    pairs: tuple[PairFit, ...]
    ways: Ways
    others: OtherFits
    by_bike: ByBike
    apart: Apart
    wear: Wear
    repairs: Repairs
    plans: Plans


def all_fits(dataset: Dataset, planned: Callable[[Dataset, Repairs], Plans] = plans_of) -> AllFits:
    """`planned` says who carries what; `plans_of` does for every ride and the whole club."""
    judge = Judge(dataset, bench(dataset))
    verdicts = judge.verdicts()
    pairs = fits_of(judge, verdicts)
    of_chain = grouped(pairs, lambda fit: fit.chain)
    by_bike = fits_by_bike(dataset, of_chain, plans=judge.plans)
    apart = verdicts_apart(dataset, pairs, by_bike)
    ways, others, wear = ways_by_pair(judge, verdicts), other_fits(dataset, judge.plans), wear_of(dataset)
    repairs = repairs_of(RepairBench(dataset, by_bike, ways, others, wear))
    plans = planned(dataset, repairs)
    return AllFits(pairs, ways, others, by_bike, apart, wear, repairs, plans)
