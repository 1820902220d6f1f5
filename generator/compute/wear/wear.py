"""The wear of every chain and every bike of a club."""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from generator.compute.grouped import grouped
from generator.compute.wear.limits import Limit, limit_of_chain, limit_on_bike
from generator.compute.wear.outlook import Outlook, outlook
from generator.compute.wear.series import Point, points_of
from generator.model.chain_parts import Chain
from generator.model.dataset import Dataset, Part
from generator.model.elongation import Elongation, pitch_of_size


@dataclass(frozen=True, slots=True)
class ChainWear:
    """`elongation` is that of the newest reading's worst place, else what its record says; None where neither is."""

    chain: str
    elongation: Elongation | None
    points: tuple[Point, ...]
    limit: Limit
    outlook: Outlook


@dataclass(frozen=True, slots=True)
class BikeWear:
    """A chain against the limit on one bike, which sprocket and adjuster can lower."""

    bike: str
    chain: str
    elongation: Elongation | None
    limit: Limit
    outlook: Outlook


@dataclass(frozen=True, slots=True)
class Wear:
    """By id, of every chain and every bike."""

    chains: Mapping[str, ChainWear]
    bikes: Mapping[str, BikeWear]


def wear_of(dataset: Dataset) -> Wear:
    logs = grouped(dataset.wear_log, lambda reading: reading.chain)
    chains: dict[str, ChainWear] = {}
    for id_, chain in dataset.chains.items():
        pitch = pitch_of_size(dataset.shelf.sizes, chain.record.size_code)
        points = points_of(logs.get(id_, ()), pitch) if pitch is not None else ()
        now = points[-1].elongation if points else _of_record(chain)
        limit = limit_of_chain(dataset, chain)
        seen = outlook(points, now, limit.percent, seals_fail(chain))
        chains[id_] = ChainWear(id_, now, points, limit, seen)
    bikes = {id_: _on_bike(dataset, id_, chains[bike.record.chain]) for id_, bike in dataset.bikes.items()}
    return Wear(chains, bikes)


def _on_bike(dataset: Dataset, bike: str, wear: ChainWear) -> BikeWear:
    chain = dataset.chains[wear.chain]
    limit = limit_on_bike(dataset, chain, dataset.bikes[bike], wear.elongation)
    seen = outlook(wear.points, wear.elongation, limit.percent, seals_fail(chain))
    return BikeWear(bike, wear.chain, wear.elongation, limit, seen)


def _of_record(chain: Part[Chain]) -> Elongation | None:
    written = chain.record.elongation
    if written in (None, "unknown"):
        return None
    return Elongation(*(Fraction(str(written)),) * 3)


def seals_fail(chain: Part[Chain]) -> bool:
    """Was one of its seals seen gone or torn?  Then it wears as no line foretells."""
    return chain.record.seals_seen == "some-gone"
