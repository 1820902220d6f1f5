"""What the engine says of every option of every pair, and the same joint as the oracle takes it.

Goes in: a dataset.  Comes out: options with all their checks; dimensions and words by the oracle's symbols.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

import numpy as np

from generator.compute.fit.detail import option_fit
from generator.compute.fit.judge import Judge
from generator.compute.fit.options import bench, restricted
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
class Way:
    """One way to join a chain and a link; the seal set is the seals fitted or the washers packed."""

    chain: str
    link: str
    clip: str | None
    seals: str
    seal_set: str | None


@dataclass(frozen=True)
class Told:
    """One option of one pair as the engine sees it."""

    way: Way
    fit: OptionFit


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
            fit = option_fit(judge, closely, at)
            found[number] = Told(Way(chain, link, fit.clip, fit.seals, fit.seal_set), fit)
    return [found[number] for number in sorted(found)]


def interval(quantity: Quantity) -> oracle.Interval:
    """In mm, of a force in kN."""
    low, nominal, high = (Fraction(end, NM_PER_MM) for end in (quantity.low, quantity.nominal, quantity.high))
    return low, nominal, high


def dims_of(dataset: Dataset, way: Way) -> dict[str, oracle.Interval]:
    """The known dimensions of one option by the oracle's symbols."""
    chain, link = dataset.chains[way.chain], dataset.links[way.link]
    of_part = [("chain", chain.dims), ("link", link.dims)]
    if way.clip is not None:
        of_part.append(("clip", dataset.clips[way.clip].dims))
    if way.seal_set is not None:
        kind = "washers" if way.seals == "packed" else "seal"
        of_part.append((kind, dataset.seals[way.seal_set].dims))
    dims = {
        FIELDS[kind][field]: interval(q) for kind, known in of_part for field, q in known.items() if field in FIELDS[kind]
    }  # fmt: skip
    dims |= {name: interval(q) for name, q in _pitches(dataset, way)}
    dims.pop("C", None)
    if (stop := _clip_stop(dataset, way)) is not None:
        dims["C"] = interval(stop)
    dims |= _bike(dataset, way)
    return dims


def _pitches(dataset: Dataset, way: Way) -> Iterator[tuple[str, Quantity]]:
    sizes = dataset.shelf.sizes
    yield "p", sizes[dataset.chains[way.chain].record.size_code].dims["pitch"]
    yield "pl", sizes[dataset.links[way.link].record.size_code].dims["pitch"]


def _clip_stop(dataset: Dataset, way: Way) -> Quantity | None:
    """The clip stop was read with one clip; another one shifts it by the difference of thicknesses."""
    link = dataset.links[way.link]
    stop = link.dims.get("clip_stop")
    read_with = link.record.clip_stop_with or link.record.clip
    if stop is None or way.clip is None or read_with is None:
        return None
    if read_with == way.clip:
        return stop
    before, after = (dataset.clips[id_].dims.get("thickness") for id_ in (read_with, way.clip))
    return None if before is None or after is None else stop + before - after


def _bike(dataset: Dataset, way: Way) -> dict[str, oracle.Interval]:
    """The least room read on the bikes that run the chain, and the pins of the link they run with."""
    dims = {}
    rooms = [interval(room) for room in _rooms(dataset, way) if room is not None]
    if rooms:
        dims["clr"] = (min(r[0] for r in rooms), min(r[1] for r in rooms), min(r[2] for r in rooms))
    own = dataset.links.get(dataset.chains[way.chain].record.own_link or "")
    if own is not None and "pin_length" in own.dims:
        dims["oL"] = interval(own.dims["pin_length"])
    return dims


def _rooms(dataset: Dataset, way: Way) -> list[Quantity | None]:
    """By bike that runs the chain."""
    return [
        bike.dims.get("clearance_clip_side")
        for bike in dataset.bikes.values()
        if bike.record.chain == way.chain
    ]


# the limit of elongation by kind of chain, per cent (an owners' forum)
WEAR_LIMIT = {"sealed": Fraction("1.0"), "plain": Fraction("2.0")}


def _wear(elongation: str | None, kind: str) -> str:
    if elongation is None or elongation == "unknown":
        return "within" if elongation is None else "unknown"
    return "beyond" if Fraction(elongation) > WEAR_LIMIT[kind] else "within"


# what was seen, better first
TRIED = ("not-tried", "tried-in-part", "went-together", "stiff", "plate-moves", "did-not-go")


def _tried(dataset: Dataset, way: Way) -> str:
    """What trials of this clip and these seals saw; pins that do not enter, and a press fit that is lost, speak for
    every clip and seal."""
    found = ["not-tried"]
    pressed = dataset.links[way.link].record.plate_fit != "slip"
    for trial in (
        t.record for t in dataset.trials.values() if (t.record.chain, t.record.link) == (way.chain, way.link)
    ):
        clip = trial.clip or dataset.links[way.link].record.clip
        if trial.enters is False:
            found.append("did-not-go")
        if trial.plate_moves and pressed:
            found.append("plate-moves")
        if (clip, trial.seals) != (way.clip, way.seals):
            continue
        if trial.clip_on is False or trial.bends is False:
            found.append("did-not-go" if trial.clip_on is False else "stiff")
        elif trial.enters and trial.bends and (trial.clip_on or way.clip is None):
            found.append("went-together")
        else:
            found.append("tried-in-part")
    return max(found, key=TRIED.index)


def words_of(dataset: Dataset, way: Way) -> dict[str, str]:
    """The words of one option as the oracle takes them."""
    chain, link = dataset.chains[way.chain].record, dataset.links[way.link].record
    words = {
        "kind": chain.kind,
        "own_joint": chain.own_joint,
        "chain_seal": chain.seal,
        "chain_size": chain.size_code,
        "chain_state": chain.state,
        "runs_with": "yes" if chain.own_link == way.link else "no",
        "unread_room": "yes" if None in (_rooms(dataset, way) or [None]) else "no",
        "wear": _wear(chain.elongation, chain.kind),
        "tried": _tried(dataset, way),
        "link_size": link.size_code,
        "half_link": "yes" if link.half_link else "no",
    }
    words |= {
        name: getattr(link, name) for name in ("closure", "plate_fit", "made_for", "condition", "pin_kind")
    }
    words["condition"] = _condition(dataset, way)
    own = dataset.links.get(chain.own_link or "")
    if own is not None:
        words["own_link_seals"] = "no" if own.record.seals is None else "yes"
    if way.clip is not None:
        history = dataset.clips[way.clip].record.history
        # for any link but its own it has to come off first
        sits_elsewhere = history == "never-off" and link.clip != way.clip
        words["clip_history"] = "taken-off" if sits_elsewhere else history
    if way.seals == "fitted" and way.seal_set is not None:
        seal = dataset.seals[way.seal_set]
        words |= {"seal_shape": seal.record.shape, "covers_bush": seal.record.covers_bush}
        words["seal_evidence"] = seal.dims["thickness"].evidence if "thickness" in seal.dims else "unknown"
    return words


def _condition(dataset: Dataset, way: Way) -> str:
    """A step of 0.10 mm on a pin is wear, whatever a link is called that is not said to be worse."""
    link = dataset.links[way.link]
    step = link.dims.get("pin_step")
    if step is None or link.record.condition not in ("new", "fitted-once"):
        return link.record.condition
    low, _, high = interval(step)
    worn = Fraction(1, 10)
    return "worn" if low >= worn else "perhaps-worn" if high >= worn else link.record.condition


def reckoned(dataset: Dataset, way: Way) -> oracle.Joint:
    """The oracle's verdict on the same option."""
    return oracle.judge(dims_of(dataset, way), words_of(dataset, way), way.seals)
