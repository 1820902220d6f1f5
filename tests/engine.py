"""What the engine says of every option of every pair, and the same joint as the oracle takes it.

Goes in: a dataset.  Comes out: options with all their checks; dimensions and words by the oracle's symbols.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

import numpy as np

from generator.compute.fit.detail import option_fit
from generator.compute.fit.judge import Judge, restricted
from generator.compute.fit.options import bench
from generator.compute.fit.result import OptionFit
from generator.model.dataset import Dataset
from generator.model.quantity import NM_PER_MM, Quantity
from tests import oracle

# field of the record -> symbol of the oracle
FIELDS: dict[str, dict[str, str]] = {
    "chain": {
        "bush_bore": "d3", "over_inner_plates": "b2p", "over_bush_ends": "b2b", "between_outer_plates": "b3",
        "over_riveted_pins": "b4", "plate_thickness": "tc", "plate_height": "h2", "tensile": "Fc",
    },
    "link": {
        "pin_diameter": "d", "pin_reach": "G", "clip_stop": "C", "pin_length": "L", "groove_width": "gw",
        "groove_diameter": "gd", "side_plate_thickness": "t", "side_plate_height": "h", "shoulder_depth": "M",
        "hollow_depth": "hd", "tensile": "Fl",
    },
    "clip": {
        "thickness": "k", "thickness_new": "k0", "seat_width": "cs", "mouth": "cm", "pin_spacing": "csp", "bow": "bow",
    },
    "seal": {"thickness": "s"},
    "washers": {"thickness": "w"},
}  # fmt: skip


@dataclass(frozen=True)
class Told:
    """One option of one pair as the engine sees it."""

    chain: str
    link: str
    fit: OptionFit

    def __str__(self) -> str:
        return f"{self.chain} {self.link} {self.fit.clip} {self.fit.seals} {self.fit.seal_set}"


def every_option(
    dataset: Dataset, chains: Sequence[str] | None = None, links: Sequence[str] | None = None
) -> list[Told]:
    """In order of pair and preference."""
    judge = Judge(dataset, restricted(bench(dataset), chains, links))
    found: dict[int, Told] = {}
    for closely in judge.closely(np.arange(len(judge.options))):
        for at, number in enumerate(closely.index.tolist()):
            chain = judge.on.chains[int(judge.options.chain[number])].id
            link = judge.on.links[int(judge.options.link[number])].id
            found[number] = Told(chain, link, option_fit(judge, closely, at))
    return [found[number] for number in sorted(found)]


def interval(quantity: Quantity) -> oracle.Interval:
    """In mm, of a force in kN."""
    low, nominal, high = (Fraction(end, NM_PER_MM) for end in (quantity.low, quantity.nominal, quantity.high))
    return low, nominal, high


def dims_of(dataset: Dataset, told: Told) -> dict[str, oracle.Interval]:
    """The known dimensions of one option by the oracle's symbols."""
    chain, link = dataset.chains[told.chain], dataset.links[told.link]
    of_part = [("chain", chain.dims), ("link", link.dims)]
    if told.fit.clip is not None:
        of_part.append(("clip", dataset.clips[told.fit.clip].dims))
    if told.fit.seal_set is not None:
        kind = "washers" if told.fit.seals == "packed" else "seal"
        of_part.append((kind, dataset.seals[told.fit.seal_set].dims))
    dims = {
        FIELDS[kind][field]: interval(q) for kind, known in of_part for field, q in known.items() if field in FIELDS[kind]
    }  # fmt: skip
    dims |= {name: interval(q) for name, q in _pitches(dataset, told)}
    dims.pop("C", None)
    if (stop := _clip_stop(dataset, told)) is not None:
        dims["C"] = interval(stop)
    dims |= _bike(dataset, told)
    return dims


def _pitches(dataset: Dataset, told: Told) -> Iterator[tuple[str, Quantity]]:
    sizes = dataset.shelf.sizes
    yield "p", sizes[dataset.chains[told.chain].record.size_code].dims["pitch"]
    yield "pl", sizes[dataset.links[told.link].record.size_code].dims["pitch"]


def _clip_stop(dataset: Dataset, told: Told) -> Quantity | None:
    """The clip stop was read with one clip; another one shifts it by the difference of thicknesses."""
    link = dataset.links[told.link]
    stop = link.dims.get("clip_stop")
    read_with = link.record.clip_stop_with or link.record.clip
    if stop is None or told.fit.clip is None or read_with is None:
        return None
    if read_with == told.fit.clip:
        return stop
    before, after = (dataset.clips[id_].dims.get("thickness") for id_ in (read_with, told.fit.clip))
    return None if before is None or after is None else stop + before - after


def _bike(dataset: Dataset, told: Told) -> dict[str, oracle.Interval]:
    """The least room of the bikes that run the chain, and the pins of the link they run with."""
    dims = {}
    bikes = [bike for bike in dataset.bikes.values() if bike.record.chain == told.chain]
    rooms = [interval(b.dims["clearance_clip_side"]) for b in bikes if "clearance_clip_side" in b.dims]
    if rooms and len(rooms) == len(bikes):
        dims["clr"] = (min(r[0] for r in rooms), min(r[1] for r in rooms), min(r[2] for r in rooms))
    own = dataset.links.get(dataset.chains[told.chain].record.own_link or "")
    if own is not None and "pin_length" in own.dims:
        dims["oL"] = interval(own.dims["pin_length"])
    return dims


def words_of(dataset: Dataset, told: Told, wear: str = "within") -> dict[str, str]:
    """The words of one option as the oracle takes them."""
    chain, link = dataset.chains[told.chain].record, dataset.links[told.link].record
    words = {
        "kind": chain.kind,
        "own_joint": chain.own_joint,
        "chain_seal": chain.seal,
        "chain_size": chain.size_code,
        "chain_state": chain.state,
        "runs_with": "yes" if chain.own_link == told.link else "no",
        "link_size": link.size_code,
        "closure": link.closure,
        "plate_fit": link.plate_fit,
        "made_for": link.made_for,
        "condition": link.condition,
        "half_link": "yes" if link.half_link else "no",
        "pin_kind": link.pin_kind,
        "wear": wear,
    }
    own = dataset.links.get(chain.own_link or "")
    if own is not None:
        words["own_link_seals"] = "no" if own.record.seals is None else "yes"
    if told.fit.clip is not None:
        words["clip_history"] = dataset.clips[told.fit.clip].record.history
    if told.fit.seals == "fitted" and told.fit.seal_set is not None:
        seal = dataset.seals[told.fit.seal_set]
        words |= {"seal_shape": seal.record.shape, "covers_bush": seal.record.covers_bush}
        words["seal_evidence"] = seal.dims["thickness"].evidence if "thickness" in seal.dims else "unknown"
    return words


def reckoned(dataset: Dataset, told: Told, wear: str = "within") -> oracle.Joint:
    """The oracle's verdict on the same option."""
    return oracle.judge(dims_of(dataset, told), words_of(dataset, told, wear), told.fit.seals)
