"""What goes on each bike, judged by its own room beside the chain.

Goes in: a dataset and the fits of its pairs.  Comes out: by bike the fits of its chain.  A pair speaks of every bike
that runs the chain, so the least room counts there; a bike with more of it, or whose room is read, need not wait.
"""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from generator.compute.fit.fits import fit_table
from generator.compute.fit.result import PairFit
from generator.compute.fit.rooms import rooms_differ
from generator.model.dataset import Dataset, Part
from generator.model.tools_and_bikes import Bike


def fits_by_bike(
    dataset: Dataset, of_chain: Mapping[str, Sequence[PairFit]]
) -> Mapping[str, tuple[PairFit, ...]]:
    """Bikes alike in room are judged alike; the fits of a chain stand for its only bike."""
    return {
        id_: _of_bike(dataset, bike, of_chain.get(bike.record.chain, ()))
        for id_, bike in dataset.bikes.items()
    }


def _of_bike(dataset: Dataset, bike: Part[Bike], of_chain: Sequence[PairFit]) -> tuple[PairFit, ...]:
    if not rooms_differ(dataset, bike.record.chain):
        return tuple(of_chain)
    return fit_table(replace(dataset, bikes={bike.id: bike}), [bike.record.chain])
