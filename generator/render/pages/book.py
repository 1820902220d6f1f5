"""A club and its fits, arranged once the ways pages look them up.

Goes in: a dataset and all its fits.  Comes out: a Book that every page function is handed.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from generator.compute.fit.result import PairFit
from generator.compute.fit.ways import Way, Ways
from generator.model.dataset import Dataset
from generator.model.shipped import RUNGS
from generator.render.many import many_pairs

GET_HOME = RUNGS.index("get-home")
MOST_BETTER = 3
GOES_ON = ("proper", "get-home", "last-resort")


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
    elsewhere: frozenset[str] = frozenset()
    better: Mapping[str, tuple[PairFit, ...]] = field(default_factory=dict)  # by chain, what to use instead
    brief: bool = False  # so many pairs that each is said in few bytes

    def ways_of(self, fit: PairFit) -> tuple[Way, ...]:
        return self.ways.get((fit.chain, fit.link), ())


def book_of(dataset: Dataset, fits: tuple[PairFit, ...], ways: Ways, elsewhere: Iterable[str] = ()) -> Book:
    of_chain = _grouped(fits, dataset.chains, lambda fit: fit.chain)
    return Book(
        dataset=dataset,
        fits=fits,
        of_chain=of_chain,
        of_link=_grouped(fits, dataset.links, lambda fit: fit.link),
        ways=ways,
        bikes_of={
            chain: tuple(id_ for id_, bike in dataset.bikes.items() if bike.record.chain == chain)
            for chain in dataset.chains
        },
        elsewhere=frozenset(elsewhere),
        better={chain: _better(dataset, group) for chain, group in of_chain.items()},
        brief=many_pairs(dataset),
    )


def _better(dataset: Dataset, fits: Sequence[PairFit]) -> tuple[PairFit, ...]:
    """The few links in the bags that serve a chain best, none worse than get-home."""
    serving = (fit for fit in fits if fit.worst is not None and fit.worst <= GET_HOME)
    return best_first(tuple(fit for fit in serving if dataset.links[fit.link].record.count > 0))[:MOST_BETTER]


def _grouped(
    fits: Iterable[PairFit], ids: Iterable[str], key: Callable[[PairFit], str]
) -> Mapping[str, tuple[PairFit, ...]]:
    groups: dict[str, list[PairFit]] = {id_: [] for id_ in ids}
    for fit in fits:
        groups[key(fit)].append(fit)
    return {id_: tuple(group) for id_, group in groups.items()}


@dataclass(frozen=True, slots=True)
class Sorted:
    """Fits by what a rider may do with them, best first in each."""

    goes_on: tuple[PairFit, ...]
    not_tested: tuple[PairFit, ...]
    not_judged: tuple[PairFit, ...]
    no_go: tuple[PairFit, ...]


def sorted_out(fits: Iterable[PairFit]) -> Sorted:
    """Without what pitch or roller rule out at a glance."""
    near = best_first(tuple(fit for fit in fits if fit.own_page))
    return Sorted(
        goes_on=tuple(fit for fit in near if fit.word in GOES_ON),
        not_tested=tuple(fit for fit in near if fit.word == "measure-first"),
        not_judged=tuple(fit for fit in near if fit.word == "cannot-judge"),
        no_go=tuple(fit for fit in near if fit.word == "no-go"),
    )


def best_first(fits: Sequence[PairFit]) -> tuple[PairFit, ...]:
    """By the worst that is possible, then by the best; what cannot be judged stands between the open and the no-go."""
    return tuple(sorted(fits, key=lambda fit: (_rank(fit), fit.chain, fit.link)))


def _rank(fit: PairFit) -> tuple[int, int]:
    if fit.worst is None or fit.best is None:
        return (len(RUNGS), 0)
    return (len(RUNGS), 1) if fit.word == "no-go" else (fit.worst, fit.best)
