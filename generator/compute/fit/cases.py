"""Which rules speak of which option: the case of each."""

from collections.abc import Iterator, Mapping

import numpy as np

from generator.compute.fit.columns import Coded, Ints, Mask, Spread, coded
from generator.compute.fit.measured import Combined
from generator.compute.fit.options import AS_MADE, NOTHING, SEALS, SEATS, Bench, Options
from generator.model.chain_parts import Chain
from generator.model.dataset import Dataset, Part
from generator.rules.joined import Joined
from generator.rules.kin import in_use
from generator.rules.place import placed
from generator.rules.plan import Case
from generator.rules.rooms import ROOMS, Side, some_room_unread
from generator.rules.vocabulary import LIES


def cases(combined: Combined, columns: Mapping[str, Spread]) -> Iterator[tuple[Case, Ints]]:
    """Each case that occurs, with the positions of its options."""
    keys = case_keys(combined, columns)
    number = np.zeros(len(combined.options), dtype=np.int64)
    for codes, words in keys.values():
        number = number * len(words) + codes
    kinds, first, which = np.unique(number, return_index=True, return_inverse=True)
    for kind in range(len(kinds)):
        case = tuple((name, words[codes[first[kind]]]) for name, (codes, words) in keys.items())
        yield case, np.flatnonzero(which.reshape(-1) == kind)


def case_keys(combined: Combined, columns: Mapping[str, Spread]) -> dict[str, Coded]:
    """Name of each condition -> (code per option, words)."""
    dataset, on, options = combined.dataset, combined.on, combined.options

    def known(*symbols: str) -> Coded:
        missing = np.logical_or.reduce([columns[symbol].missing for symbol in symbols])
        return missing.astype(np.int8), ("known", "unknown")

    def of_link(field: str) -> Coded:
        return coded([getattr(link.record, field) for link in on.links], options.link)

    return {
        "stopped": (options.stopped.astype(np.int8), ("no", "yes", "refused")),
        "closure": of_link("closure"),
        "plate_fit": of_link("plate_fit"),
        "seat": combined.words(("chain", "link", "seals", "seat"), _seat_word),
        "lies": _lies(on, options),
        "spacers": ((options.spacer != NOTHING).astype(np.int8), ("no", "yes")),
        "pin_kind": of_link("pin_kind"),
        "chain_kind": coded([chain.record.kind for chain in on.chains], options.chain),
        "chain_seal": coded([chain.record.seal for chain in on.chains], options.chain),
        "seals": (options.seals.astype(np.int8), SEALS),
        "room_read": (columns["C"].missing.astype(np.int8), ("some", "none")),
        "other_read": (columns["Co"].missing.astype(np.int8), ("some", "none")),
        "room_unread": _room_unread(dataset, on, options, "clip"),
        "other_unread": _room_unread(dataset, on, options, "other"),
        "some_room_unread": _any_unread(dataset, on, options),
        "tensile": known("Fl", "Fc"),
        "heights": combined.words(("chain", "link"), heights_word),
    }


def _seat_word(joined: Joined) -> str:
    return "tried" if placed(joined) is not None else joined.seat


def heights_word(joined: Joined) -> str:
    """Both read, or seen beside its neighbours, in a dry fit or on the bike."""
    chain, link = joined.chain, joined.link
    if "side_plate_height" in link.dims and "plate_height" in chain.dims:
        return "known"
    seen = [
        trial.record.plates_no_higher
        for trial in joined.dataset.trials.values()
        if (trial.record.chain, trial.record.link) == (chain.id, link.id)
    ]
    if in_use(chain, link):
        seen.append(chain.record.plates_no_higher)
    if False in seen:
        return "taller"
    return "seen" if True in seen else "unknown"


def _lies(on: Bench, options: Options) -> Coded:
    """How the joint lies between its bushes."""
    sealed = np.array([chain.record.kind == "sealed" for chain in on.chains], dtype=bool)[options.chain]
    held = (options.seals == SEALS.index("fitted")) & (options.seat != SEATS.index("clip"))
    codes = np.where(sealed, LIES.index("shifts"), LIES.index("plain"))
    codes = np.where(held, LIES.index("centred"), codes)
    codes = np.where(options.seat == SEATS.index("clip"), LIES.index("shifts"), codes)
    codes = np.where(options.seals == SEALS.index("packed"), LIES.index("packed"), codes)
    return codes.astype(np.int8), LIES


def _room_unread(dataset: Dataset, on: Bench, options: Options, side: Side) -> Coded:
    """none: the room of every bike on the chain is read; own-link: not so, but this is the joint they run with, its
    seals as it was made; without them it stands further out than it ever did."""
    unread = np.array(_each_unread(dataset, on, side), dtype=bool)
    codes = np.where(unread[options.chain], np.where(_as_it_runs(on, options), 1, 2), 0)
    return codes.astype(np.int8), ("none", "own-link", "other-link")


def _as_it_runs(on: Bench, options: Options) -> Mask:
    own = np.array([_own_position(chain, on) for chain in on.chains], dtype=np.int64)
    as_made = np.isin(options.seals, AS_MADE) & (options.seat != SEATS.index("clip"))
    mask: Mask = (own[options.chain] == options.link) & as_made & (options.spacer == NOTHING)
    return mask


def _any_unread(dataset: Dataset, on: Bench, options: Options) -> Coded:
    by_side = [_each_unread(dataset, on, side) for side in ROOMS]
    return coded(["yes" if any(sides) else "no" for sides in zip(*by_side, strict=True)], options.chain)


def _each_unread(dataset: Dataset, on: Bench, side: Side) -> list[bool]:
    seen = on.seen or [dataset] * len(on.chains)
    return [some_room_unread(each, chain.id, side) for each, chain in zip(seen, on.chains, strict=True)]


def _own_position(chain: Part[Chain], on: Bench) -> int:
    """Of the link it runs with, unless it is said to run with another."""
    return next(
        (
            i
            for i, link in enumerate(on.links)
            if link.id == chain.record.own_link and chain.record.in_use is not False
        ),
        -1,
    )
