"""Which rules speak of which option: the case of each, and its category values.

Goes in: a dataset and its options.  Comes out: options grouped by case, and closed values per
option for the rules that are not about numbers.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from itertools import product

import numpy as np
from numpy.typing import NDArray

from generator.compute.fit.columns import Ints, Spread
from generator.compute.fit.evaluate import Categories, Category
from generator.compute.fit.joint import clip_side_room
from generator.compute.fit.options import SEALS, Bench, Options
from generator.compute.fit.rules import Case
from generator.compute.fit.sizes import SIZE_RELATIONS, size_relation
from generator.compute.fit.trials import tried_word
from generator.compute.fit.wear_state import wear_state
from generator.model.dataset import Dataset, Part
from generator.model.records import Chain, Link, SealSet, Trial

# without any of these a part is not measured, and only rules of thumb speak
CHAIN_READINGS = ("bush_bore", "over_inner_plates", "over_bush_ends", "between_outer_plates")
LINK_READINGS = ("pin_diameter", "pin_reach", "clip_stop", "pin_length", "side_plate_thickness")


def cases(
    dataset: Dataset, on: Bench, options: Options, columns: Mapping[str, Spread]
) -> Iterator[tuple[Case, Ints]]:
    """Each case that occurs, with the positions of its options."""
    keys = case_keys(dataset, on, options, columns)
    number = np.zeros(len(options), dtype=np.int64)
    for codes, words in keys.values():
        number = number * len(words) + codes
    kinds, first, which = np.unique(number, return_index=True, return_inverse=True)
    for kind in range(len(kinds)):
        case = tuple((name, words[codes[first[kind]]]) for name, (codes, words) in keys.items())
        yield case, np.flatnonzero(which.reshape(-1) == kind)


Coded = tuple[NDArray[np.int8], Sequence[str]]


def case_keys(
    dataset: Dataset, on: Bench, options: Options, columns: Mapping[str, Spread]
) -> dict[str, Coded]:
    """Name of each condition -> (code per option, words)."""

    def known(*symbols: str) -> Coded:
        missing = np.logical_or.reduce([columns[symbol].missing for symbol in symbols])
        return missing.astype(np.int8), ("known", "unknown")

    def of_link(field: str) -> Coded:
        return _coded([getattr(link.record, field) for link in on.links], options.link)

    return {
        "stopped": (options.stopped.astype(np.int8), ("no", "yes")),
        "closure": of_link("closure"),
        "plate_fit": of_link("plate_fit"),
        "pin_kind": of_link("pin_kind"),
        "chain_kind": _coded([chain.record.kind for chain in on.chains], options.chain),
        "seals": (options.seals.astype(np.int8), SEALS),
        "clearance": _clearance(dataset, on, options),
        "tensile": known("Fl", "Fc"),
        "heights": known("h", "h2"),
        "bow": (columns["bow"].missing.astype(np.int8), ("bowed", "flat")),
    }


def _coded(values: Sequence[str], index: Ints) -> Coded:
    words = tuple(sorted(set(values)))
    codes = np.array([words.index(value) for value in values], dtype=np.int8)
    return codes[index], words


def _clearance(dataset: Dataset, on: Bench, options: Options) -> Coded:
    """known: room measured; own: not measured, but this is the joint the bike runs with."""
    known = np.array([clip_side_room(dataset, chain.id) is not None for chain in on.chains])
    own = np.array([_own_position(chain, on) for chain in on.chains], dtype=np.int64)
    runs_with = own[options.chain] == options.link
    codes = np.where(known[options.chain], 0, np.where(runs_with, 1, 2))
    return codes.astype(np.int8), ("known", "own", "unknown")


def _own_position(chain: Part[Chain], on: Bench) -> int:
    return next((i for i, link in enumerate(on.links) if link.id == chain.record.own_link), -1)


def categories(dataset: Dataset, on: Bench, options: Options) -> Categories:
    """Name of each category -> value per option."""
    histories = [*(clip.record.history for clip in on.clips), "unknown"]
    return {
        "size": _by_pair(on, options, lambda c, li: _size(dataset, c, li), SIZE_RELATIONS),
        "thumb": _by_pair(on, options, lambda c, li: _thumb(dataset, c, li), THUMBS),
        "kind": _by_pair(on, options, _kind, ("same", "differs", "unknown")),
        "seal": _seal_kind(on, options),
        "joint": _by_pair(on, options, _joint, ("as-strong", "weaker", "unknown")),
        "half": _by_link(on, options, lambda li: "half" if li.record.half_link else "whole"),
        "condition": _by_link(on, options, lambda li: li.record.condition),
        "clip-history": _category(histories, options.clip),
        "wear": _category([wear_state(dataset, chain) for chain in on.chains], options.chain),
        "always": _category(["always"], np.zeros_like(options.link)),
        "screw": _category(["own"], np.zeros_like(options.link)),
        "tried": _tried(dataset, on, options),
    }


def _category(values: Sequence[str], index: Ints) -> Category:
    codes, words = _coded(values, index)
    return Category(codes, tuple(words))


def _by_link(on: Bench, options: Options, word: Callable[[Part[Link]], str]) -> Category:
    return _category([word(link) for link in on.links], options.link)


def _by_pair(
    on: Bench, options: Options, word: Callable[[Part[Chain], Part[Link]], str], words: Sequence[str]
) -> Category:
    pairs = [words.index(word(chain, link)) for chain, link in product(on.chains, on.links)]
    codes = np.array(pairs, dtype=np.int8)[options.chain * len(on.links) + options.link]
    return Category(codes, tuple(words))


def _size(dataset: Dataset, chain: Part[Chain], link: Part[Link]) -> str:
    sizes = dataset.shelf.sizes
    if chain.record.size_code not in sizes or link.record.size_code not in sizes:
        return "same"  # refused elsewhere; never evaluated
    return size_relation(sizes[link.record.size_code], sizes[chain.record.size_code])


THUMBS = ("measured", "possible", "makeshift", "hopeless")


def _thumb(dataset: Dataset, chain: Part[Chain], link: Part[Link]) -> str:
    """What the size codes and kinds alone allow, where either part has no readings."""
    if _measured(chain.dims, CHAIN_READINGS) and _measured(link.dims, LINK_READINGS):
        return "measured"
    size = _size(dataset, chain, link)
    if size in ("other-pitch", "narrower-on-wider", "other-roller"):
        return "hopeless"
    return "possible" if size == "same" and _kind(chain, link) == "same" else "makeshift"


def _measured(dims: Mapping[str, object], fields: Sequence[str]) -> bool:
    return any(field in dims for field in fields)


def _kind(chain: Part[Chain], link: Part[Link]) -> str:
    return "same" if chain.record.kind == link.record.made_for else "differs"


def _joint(chain: Part[Chain], link: Part[Link]) -> str:
    """A plate that slides on is weaker than a pressed or riveted joint of the chain itself."""
    if link.record.plate_fit != "slip" or chain.record.own_joint == "clip-slip":
        return "as-strong"
    return "unknown" if chain.record.own_joint == "unknown" else "weaker"


def _seal_kind(on: Bench, options: Options) -> Category:
    words = ("same", "as-squeezed", "differs", "unknown")
    table = [
        words.index(
            _seal_word(chain.record.seal, seal.record.shape, seal.record.covers_bush, _is_measured(seal))
        )
        for chain, seal in product(on.chains, on.seals)
    ]
    width = max(len(on.seals), 1)
    codes = np.array([*table, *([0] if not table else [])], dtype=np.int8)
    return Category(codes[(options.chain * width + np.maximum(options.seal_set, 0)) % len(codes)], words)


def _is_measured(seal: Part[SealSet]) -> bool:
    """A remembered thickness is no reason to trust another section."""
    thickness = seal.dims.get("thickness")
    return thickness is not None and thickness.evidence == "measured"


def _seal_word(chain_seal: str, shape: str, covers: str, measured: bool) -> str:
    if "unknown" in (chain_seal, shape):
        return "unknown"
    if chain_seal == shape:
        return "same"
    return "as-squeezed" if covers == "yes" and measured else "differs"


TRIED = ("not-tried", "went-together", "stiff", "plate-moves", "did-not-go")


def _tried(dataset: Dataset, on: Bench, options: Options) -> Category:
    """What was seen with this clip and these seals; pins that do not enter speak for every option."""
    codes = np.zeros(len(options), dtype=np.int8)
    for trial in dataset.trials.values():
        speaks_of = pair_positions if trial.record.enters is False else trial_positions
        at = speaks_of(trial.record, on, options)
        codes[at] = np.maximum(codes[at], TRIED.index(tried_word(trial, dataset)))
    return Category(codes, TRIED)


def pair_positions(trial: Trial, on: Bench, options: Options) -> Ints:
    """Every option of the chain and the link of a trial."""
    chain_at = next((i for i, chain in enumerate(on.chains) if chain.id == trial.chain), NOWHERE)
    link_at = next((i for i, link in enumerate(on.links) if link.id == trial.link), NOWHERE)
    return np.flatnonzero((options.chain == chain_at) & (options.link == link_at))


def trial_positions(trial: Trial, on: Bench, options: Options) -> Ints:
    """The options with the clip and the seals of a trial; without a clip named it was the link's own."""
    at = pair_positions(trial, on, options)
    own = next((link.record.clip for link in on.links if link.id == trial.link), None)
    clip_at = on.clip_at(trial.clip or own)
    same_clip, same_seals = options.clip[at] == clip_at, options.seals[at] == SEALS.index(trial.seals)
    found: Ints = at[same_clip & same_seals]
    return found


# no part has this position
NOWHERE = -2
