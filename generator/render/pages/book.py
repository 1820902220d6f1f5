"""A club and its fits, arranged once the ways pages look them up."""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from generator.compute.all_fits import AllFits
from generator.compute.fit.by_bike import Apart, ByBike
from generator.compute.fit.result import PairFit
from generator.compute.fit.ways import Way, Ways
from generator.compute.grouped import grouped
from generator.compute.next_act import Acts
from generator.compute.others.result import OtherFits
from generator.compute.repair.result import Repairs
from generator.compute.spares.result import Plans
from generator.compute.wear.wear import Wear
from generator.model.dataset import Dataset
from generator.model.kinds import KEPT
from generator.model.many import many_pairs
from generator.model.shipped import GET_HOME
from generator.problems.catalogue import Catalogue
from generator.render.base.routes import part_route
from generator.render.base.verdicts import best_first
from generator.render.say.names import parts_of

MOST_BETTER = 3


@dataclass(frozen=True, slots=True)
class Book:
    """Fits stand in the order of ids; `bikes_of` names the bikes that run a chain; `elsewhere` are the
    addresses of pages made from something else, so that nothing leads to a page there is not.
    """

    dataset: Dataset
    fits: tuple[PairFit, ...]
    of_chain: Mapping[str, tuple[PairFit, ...]]
    of_link: Mapping[str, tuple[PairFit, ...]]
    ways: Ways
    bikes_of: Mapping[str, tuple[str, ...]]
    by_bike: ByBike
    apart: Apart
    others: OtherFits
    wear: Wear
    repairs: Repairs
    plans: Plans
    acts: Acts
    catalogue: Catalogue = field(default_factory=dict)
    elsewhere: frozenset[str] = frozenset()
    better: Mapping[str, tuple[PairFit, ...]] = field(default_factory=dict)  # by chain, what to use instead
    brief: bool = False  # so many pairs that each is said in few bytes

    def ways_of(self, fit: PairFit) -> tuple[Way, ...]:
        return self.ways.get((fit.chain, fit.link), ())


def book_of(dataset: Dataset, all_: AllFits, catalogue: Catalogue | None = None) -> Book:
    fits = all_.pairs
    of_chain = _of_each(fits, dataset.chains, lambda fit: fit.chain)
    return Book(
        dataset=dataset,
        fits=fits,
        of_chain=of_chain,
        of_link=_of_each(fits, dataset.links, lambda fit: fit.link),
        ways=all_.ways,
        by_bike=all_.by_bike,
        apart=all_.apart,
        others=all_.others,
        wear=all_.wear,
        repairs=all_.repairs,
        plans=all_.plans,
        acts=all_.acts,
        catalogue=catalogue or {},
        bikes_of={
            chain: tuple(id_ for id_, bike in dataset.bikes.items() if bike.record.chain == chain)
            for chain in dataset.chains
        },
        elsewhere=frozenset(_addresses(dataset)),
        better={chain: _better(dataset, group) for chain, group in of_chain.items()},
        brief=many_pairs(dataset),
    )


def _addresses(dataset: Dataset) -> Iterator[str]:
    """The pages of parts, sizes and ways to measure."""
    yield from (part_route(kind, id_) for kind in KEPT if kind != "link" for id_ in parts_of(dataset, kind))
    yield from (part_route("size", code) for code in dataset.shelf.sizes)
    yield from (f"measuring/{id_}/" for id_ in dataset.shelf.recipes)


def _better(dataset: Dataset, fits: Sequence[PairFit]) -> tuple[PairFit, ...]:
    """The few links in the bags that serve a chain best, none worse than get-home."""
    serving = (fit for fit in fits if fit.worst is not None and fit.worst <= GET_HOME)
    carried = (fit for fit in serving if dataset.links[fit.link].record.count > 0)
    return fits_best_first(carried)[:MOST_BETTER]


def _of_each(
    fits: Iterable[PairFit], ids: Iterable[str], key: Callable[[PairFit], str]
) -> Mapping[str, tuple[PairFit, ...]]:
    """Of every id, also of one without any fit."""
    groups = grouped(fits, key)
    return {id_: tuple(groups.get(id_, ())) for id_ in ids}


def fits_best_first(fits: Iterable[PairFit]) -> tuple[PairFit, ...]:
    """Of equals, by chain and link."""
    return tuple(sorted(fits, key=lambda fit: (best_first(fit.best, fit.worst), fit.chain, fit.link)))
