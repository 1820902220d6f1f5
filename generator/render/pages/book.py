"""A club and its fits, arranged once the ways pages look them up.

Goes in: a dataset and all its fits.  Comes out: a Book that every page function is handed.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass

from generator.compute.fit.result import PairFit
from generator.compute.fit.ways import Way, ways_by_pair
from generator.model.dataset import Dataset
from generator.render.many import many_pairs


@dataclass(frozen=True, slots=True)
class Book:
    """Fits stand in the order of ids; `bikes_of` names the bikes that run a chain; `others` are the
    addresses of pages made elsewhere, so that nothing leads to a page there is not.
    """

    dataset: Dataset
    fits: tuple[PairFit, ...]
    of_chain: Mapping[str, tuple[PairFit, ...]]
    of_link: Mapping[str, tuple[PairFit, ...]]
    ways: Mapping[tuple[str, str], tuple[Way, ...]]
    bikes_of: Mapping[str, tuple[str, ...]]
    others: frozenset[str] = frozenset()
    brief: bool = False  # so many pairs that each is said in few bytes

    def ways_of(self, fit: PairFit) -> tuple[Way, ...]:
        return self.ways.get((fit.chain, fit.link), ())


def book_of(dataset: Dataset, fits: tuple[PairFit, ...], others: Iterable[str] = ()) -> Book:
    return Book(
        dataset=dataset,
        fits=fits,
        of_chain=_grouped(fits, dataset.chains, lambda fit: fit.chain),
        of_link=_grouped(fits, dataset.links, lambda fit: fit.link),
        ways=ways_by_pair(dataset),
        bikes_of={
            chain: tuple(id_ for id_, bike in dataset.bikes.items() if bike.record.chain == chain)
            for chain in dataset.chains
        },
        others=frozenset(others),
        brief=many_pairs(dataset),
    )


def _grouped(
    fits: Iterable[PairFit], ids: Iterable[str], key: Callable[[PairFit], str]
) -> Mapping[str, tuple[PairFit, ...]]:
    groups: dict[str, list[PairFit]] = {id_: [] for id_ in ids}
    for fit in fits:
        groups[key(fit)].append(fit)
    return {id_: tuple(group) for id_, group in groups.items()}


def worth_listing(book: Book, fits: Sequence[PairFit]) -> tuple[PairFit, ...]:
    """Best first, without what pitch or roller rule out; and without any no-go where there are many pairs."""
    listed = (fit for fit in fits if fit.own_page and not (book.brief and fit.word == "no-go"))
    return best_first(tuple(listed))


def best_first(fits: Sequence[PairFit]) -> tuple[PairFit, ...]:
    """What can be counted on comes first; what cannot be judged comes before what is no-go."""
    return tuple(sorted(fits, key=lambda fit: (_rank(fit), fit.chain, fit.link)))


def _rank(fit: PairFit) -> tuple[int, int]:
    if fit.worst is None or fit.best is None:
        return (3, -1)
    return (fit.worst, fit.best)
