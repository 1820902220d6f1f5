"""Which rules speak of which option: the case of each.

Goes in: a dataset and its options.  Comes out: options grouped by case.
"""

from collections.abc import Iterator, Mapping

import numpy as np

from generator.compute.fit.columns import Coded, Ints, Spread, coded
from generator.compute.fit.options import AS_MADE, SEALS, Bench, Options
from generator.model.chain_parts import Chain
from generator.model.dataset import Dataset, Part
from generator.rules.plan import Case
from generator.rules.rooms import some_room_unread


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


def case_keys(
    dataset: Dataset, on: Bench, options: Options, columns: Mapping[str, Spread]
) -> dict[str, Coded]:
    """Name of each condition -> (code per option, words)."""

    def known(*symbols: str) -> Coded:
        missing = np.logical_or.reduce([columns[symbol].missing for symbol in symbols])
        return missing.astype(np.int8), ("known", "unknown")

    def of_link(field: str) -> Coded:
        return coded([getattr(link.record, field) for link in on.links], options.link)

    return {
        "stopped": (options.stopped.astype(np.int8), ("no", "yes")),
        "closure": of_link("closure"),
        "plate_fit": of_link("plate_fit"),
        "pin_kind": of_link("pin_kind"),
        "chain_kind": coded([chain.record.kind for chain in on.chains], options.chain),
        "seals": (options.seals.astype(np.int8), SEALS),
        "room_read": (columns["C"].missing.astype(np.int8), ("some", "none")),
        "room_unread": _room_unread(dataset, on, options),
        "tensile": known("Fl", "Fc"),
        "heights": known("h", "h2"),
        "bow": (columns["bow"].missing.astype(np.int8), ("bowed", "flat")),
    }


def _room_unread(dataset: Dataset, on: Bench, options: Options) -> Coded:
    """none: the room of every bike on the chain is read; own-link: not so, but this is the joint they run with, its
    seals as it was made; without them it stands further out than it ever did."""
    unread = np.array([some_room_unread(dataset, chain.id) for chain in on.chains])
    own = np.array([_own_position(chain, on) for chain in on.chains], dtype=np.int64)
    runs_with = (own[options.chain] == options.link) & np.isin(options.seals, AS_MADE)
    codes = np.where(unread[options.chain], np.where(runs_with, 1, 2), 0)
    return codes.astype(np.int8), ("none", "own-link", "other-link")


def _own_position(chain: Part[Chain], on: Bench) -> int:
    return next((i for i, link in enumerate(on.links) if link.id == chain.record.own_link), -1)
