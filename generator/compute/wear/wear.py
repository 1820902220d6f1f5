"""The wear of every chain and every bike of a club."""

from collections.abc import Mapping
from dataclasses import dataclass

from generator.compute.grouped import grouped
from generator.compute.wear.limits import Limit, limit_of_chain, limit_on_bike
from generator.compute.wear.outlook import Outlook, Signs, outlook
from generator.compute.wear.series import Point, points_of
from generator.model.chain_parts import Chain
from generator.model.dataset import Dataset, Part
from generator.model.elongation import Elongation, in_per_cent, pitch_of_size


@dataclass(frozen=True, slots=True)
class ChainWear:
    """`elongation` is the dataset's: the newest reading's worst place, else its record, else a look; None where nothing is."""

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
        now = in_per_cent(chain.dims["elongation"]) if "elongation" in chain.dims else None
        limit = limit_of_chain(dataset, chain)
        seen = outlook(points, now, limit.percent, signs_of(chain))
        chains[id_] = ChainWear(id_, now, points, limit, seen)
    bikes = {id_: _on_bike(dataset, id_, chains[bike.record.chain]) for id_, bike in dataset.bikes.items()}
    return Wear(chains, bikes)


def _on_bike(dataset: Dataset, bike: str, wear: ChainWear) -> BikeWear:
    chain = dataset.chains[wear.chain]
    limit = limit_on_bike(dataset, chain, dataset.bikes[bike], wear.elongation)
    seen = outlook(wear.points, wear.elongation, limit.percent, signs_of(chain))
    return BikeWear(bike, wear.chain, wear.elongation, limit, seen)


def signs_of(chain: Part[Chain]) -> Signs:
    """What a look says beside the length, and whether the length itself is no more than a look."""
    read = chain.dims.get("elongation")
    return Signs(
        seals_gone=chain.record.seals_seen == "some-gone",
        side_bow=chain.record.side_play == "much",
        only_looked=read is not None and read.evidence == "common-practice",
    )
