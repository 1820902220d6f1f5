"""Everything that pages and files say of how parts go together, computed once.

Goes in: a dataset.  Comes out: the fits of all pairs, all their ways, and those of the other parts.
"""

from dataclasses import dataclass

from generator.compute.fit.fits import fits_of
from generator.compute.fit.judge import Judge
from generator.compute.fit.options import bench
from generator.compute.fit.result import PairFit
from generator.compute.fit.ways import Ways, ways_by_pair
from generator.compute.others.result import OtherFits
from generator.compute.others.table import other_fits
from generator.model.dataset import Dataset


@dataclass(frozen=True, slots=True)
class AllFits:
    """`pairs` of chain and connecting link by id, `ways` to join each, and how the `others` fit."""

    pairs: tuple[PairFit, ...]
    ways: Ways
    others: OtherFits


def all_fits(dataset: Dataset) -> AllFits:
    judge = Judge(dataset, bench(dataset))
    verdicts = judge.verdicts()
    return AllFits(fits_of(judge, verdicts), ways_by_pair(judge, verdicts), other_fits(dataset))
