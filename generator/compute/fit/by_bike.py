"""What goes on each bike, judged by its own room beside the chain.

A pair speaks of every bike that runs the chain, so the least room counts there; a bike with more of it, or
whose room is read, need not wait.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import islice

from generator.compute.fit.fits import fits_of
from generator.compute.fit.judge import Judge
from generator.compute.fit.options import bench, restricted
from generator.compute.fit.plans import Plans, plans_of
from generator.compute.fit.result import PairFit, Word, word_of
from generator.model.dataset import Dataset, Part
from generator.model.tools_and_bikes import Bike
from generator.rules.rooms import bikes_with, rooms_differ

ByBike = Mapping[str, tuple[PairFit, ...]]


@dataclass(frozen=True, slots=True)
class OnBike:
    """The verdict on a pair by the room of one bike alone."""

    bike: str
    best: int | None
    worst: int | None

    @property
    def word(self) -> Word:
        return word_of(self.best, self.worst)


# (chain, link) -> every bike that runs the chain, by id; only pairs whose own verdict some bike does not share
Apart = Mapping[tuple[str, str], tuple[OnBike, ...]]


def fits_by_bike(
    dataset: Dataset,
    of_chain: Mapping[str, Sequence[PairFit]],
    links: Sequence[str] | None = None,
    plans: Plans | None = None,
) -> ByBike:
    """Bikes alike in room are judged alike; the fits of a chain stand for its only bike."""
    differ = [bike for bike in dataset.bikes.values() if rooms_differ(dataset, bike.record.chain)]
    own = _each_apart(dataset, differ, links, plans or plans_of(dataset)) if differ else {}
    return {
        id_: own[id_] if id_ in own else tuple(of_chain.get(bike.record.chain, ()))
        for id_, bike in dataset.bikes.items()
    }


def _each_apart(
    dataset: Dataset, bikes: Sequence[Part[Bike]], links: Sequence[str] | None, plans: Plans
) -> ByBike:
    """A chain lies on the bench once for each of its bikes, seen as if it ran on that one alone."""
    on = replace(
        restricted(bench(dataset), [], links),
        chains=tuple(dataset.chains[bike.record.chain] for bike in bikes),
        seen=tuple(replace(dataset, bikes={bike.id: bike}) for bike in bikes),
    )
    judge = Judge(dataset, on, plans=plans)
    fits = iter(fits_of(judge, judge.verdicts()))
    return {bike.id: tuple(islice(fits, len(on.links))) for bike in bikes}


def verdicts_apart(dataset: Dataset, pairs: Iterable[PairFit], by_bike: ByBike) -> Apart:
    """What the pair itself does not say of each of its bikes."""
    shared = {chain for chain in dataset.chains if rooms_differ(dataset, chain)}
    own = {
        (bike.id, fit.link): OnBike(bike.id, fit.best, fit.worst)
        for chain in shared
        for bike in bikes_with(dataset, chain)
        for fit in by_bike[bike.id]
    }
    return dict(_apart(dataset, (fit for fit in pairs if fit.chain in shared), own))


def _apart(
    dataset: Dataset, pairs: Iterable[PairFit], own: Mapping[tuple[str, str], OnBike]
) -> Iterator[tuple[tuple[str, str], tuple[OnBike, ...]]]:
    for fit in pairs:
        found = tuple(own[bike.id, fit.link] for bike in bikes_with(dataset, fit.chain))
        if any((each.best, each.worst) != (fit.best, fit.worst) for each in found):
            yield (fit.chain, fit.link), found


def apart_on(dataset: Dataset, fit: PairFit) -> tuple[OnBike, ...]:
    """The same for one pair alone; empty where every bike has the verdict of the pair."""
    alone = replace(dataset, bikes={bike.id: bike for bike in bikes_with(dataset, fit.chain)})
    by_bike = fits_by_bike(alone, {fit.chain: (fit,)}, [fit.link])
    return verdicts_apart(alone, [fit], by_bike).get((fit.chain, fit.link), ())
