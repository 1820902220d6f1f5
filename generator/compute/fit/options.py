"""Every way to join a link to a chain: which clip, which seals; and the case each falls into.

Goes in: a dataset.  Comes out: index arrays, one entry an option, ordered by pair and then by
preference (own clip first; seals fitted, left out, packed, none).
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import product

import numpy as np

from generator.compute.fit.columns import Ints
from generator.compute.fit.sizes import size_relation
from generator.model.chain_parts import Chain, Clip, Link, SealSet
from generator.model.dataset import Dataset, Part
from generator.rules.joined import Joined

# as made first, makeshifts after; a link made without seals has none
SEALS: tuple[str, ...] = ("fitted", "none", "left-out", "packed")
AS_MADE = (SEALS.index("fitted"), SEALS.index("none"))
NOTHING = -1


@dataclass(frozen=True, slots=True)
class Bench:
    """The parts in array order: position i of every chain array is chains[i], and so on."""

    chains: Sequence[Part[Chain]]
    links: Sequence[Part[Link]]
    clips: Sequence[Part[Clip]]
    seals: Sequence[Part[SealSet]]

    def clip_at(self, id_: str | None) -> int:
        return next((i for i, clip in enumerate(self.clips) if clip.id == id_), NOTHING)

    @property
    def washers(self) -> list[int]:
        """Positions of the packing washers of which there are any left."""
        return [i for i, s in enumerate(self.seals) if s.record.shape == "washer" and s.record.count > 0]

    def seal_at(self, id_: str | None) -> int:
        return next((i for i, seal in enumerate(self.seals) if seal.id == id_), NOTHING)


@dataclass(frozen=True, slots=True)
class Options:
    """Index arrays of one length: chain, link, clip (-1: none), seals word, seal set (-1: none)."""

    chain: Ints
    link: Ints
    clip: Ints
    seals: Ints
    seal_set: Ints
    stopped: Ints

    def __len__(self) -> int:
        return len(self.chain)

    def take(self, index: Ints) -> "Options":
        return Options(*(getattr(self, name)[index] for name in self.__slots__))


def bench(dataset: Dataset) -> Bench:
    return Bench(*(tuple(getattr(dataset, kind).values()) for kind in ("chains", "links", "clips", "seals")))


def restricted(on: Bench, chains: Sequence[str] | None, links: Sequence[str] | None) -> Bench:
    """The same bench with only the named chains and links; every clip and seal stays an option."""
    return replace(
        on,
        chains=tuple(c for c in on.chains if chains is None or c.id in chains),
        links=tuple(li for li in on.links if links is None or li.id in links),
    )


def pair_numbers(on: Bench, options: Options) -> Ints:
    """By option, the number of its pair: position of the chain x how many links + position of the link."""
    return options.chain * len(on.links) + options.link


def why_refused(chain: Part[Chain], link: Part[Link]) -> str | None:
    """Why no verdict can be given for these two parts, or None."""
    reasons = (
        (chain.record.size_code == "unknown", "the size code of the chain is not known"),
        (chain.record.kind == "unknown", "it is not known whether the chain is plain or sealed"),
        (chain.record.state == "modified", "the chain was modified"),
        (link.record.size_code == "unknown", "the size code of the link is not known"),
        (link.record.made_for == "unknown", "it is not known what kind of chain the link was made for"),
        (
            link.record.plate_fit == "unknown",
            "it is not known whether the side plate slides on or needs a press",
        ),
        (link.record.condition == "unknown", "the condition of the link is not known"),
        (link.record.condition == "modified", "the link was modified"),
    )
    return next((reason for wrong, reason in reasons if wrong), None)


def all_options(dataset: Dataset, on: Bench) -> Options:
    """Options of every pair that is not refused; one only where the pitch already stops the pair."""
    ways = [tuple(ways_to_close(link, on)) for link in on.links]
    rows = [
        (c, li, *way, int(stops))
        for (c, chain), (li, link) in product(enumerate(on.chains), enumerate(on.links))
        if why_refused(chain, link) is None
        for stops in (stopped_by_pitch(dataset, chain, link),)
        for way in (ways[li][:1] if stops else ways[li])
    ]
    table = np.array(rows, dtype=np.int64).reshape(len(rows), 6)
    return Options(*(table[:, i].copy() for i in range(6)))


def stopped_by_pitch(dataset: Dataset, chain: Part[Chain], link: Part[Link]) -> bool:
    sizes = dataset.shelf.sizes
    return size_relation(sizes[link.record.size_code], sizes[chain.record.size_code]) == "other-pitch"


def same_family(dataset: Dataset, chain: Part[Chain], link: Part[Link]) -> bool:
    """Do pitch and roller leave anything to look at?  Yes where a size code is not known."""
    sizes = dataset.shelf.sizes
    codes = (link.record.size_code, chain.record.size_code)
    if any(code not in sizes for code in codes):
        return True
    return size_relation(sizes[codes[0]], sizes[codes[1]]) not in ("other-pitch", "other-roller")


def ways_to_close(link: Part[Link], on: Bench) -> Iterator[tuple[int, int, int]]:
    """(clip, seals, seal set) in order of preference; a clip link without any clip has clip -1."""
    clips = clips_for(link, on) if link.record.closure == "clip" else [NOTHING]
    yield from ((clip, *between) for clip, between in product(clips, between_plates(link, on)))


def clips_for(link: Part[Link], on: Bench) -> list[int]:
    own = on.clip_at(link.record.clip)
    carried = [i for i, clip in enumerate(on.clips) if clip.record.count > 0]
    ordered = [i for i in carried if i == own] + [i for i in carried if i != own]
    return ordered or [NOTHING]


def between_plates(link: Part[Link], on: Bench) -> Iterator[tuple[int, int]]:
    """What can lie between the plates: its own seals if there are any left, nothing, or packing washers."""
    own = on.seal_at(link.record.seals)
    if own != NOTHING and on.seals[own].record.shape != "washer":
        if on.seals[own].record.count > 0:
            yield SEALS.index("fitted"), own
        yield SEALS.index("left-out"), NOTHING
    else:
        yield SEALS.index("none"), NOTHING
    yield from ((SEALS.index("packed"), i) for i in on.washers)


def joined(dataset: Dataset, on: Bench, options: Options, number: int) -> Joined:
    """The parts of option `number`."""
    clip, seal_set = int(options.clip[number]), int(options.seal_set[number])
    return Joined(
        dataset,
        on.chains[int(options.chain[number])],
        on.links[int(options.link[number])],
        None if clip == NOTHING else on.clips[clip],
        None if seal_set == NOTHING else on.seals[seal_set],
    )
