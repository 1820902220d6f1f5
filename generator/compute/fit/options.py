"""Every way to join a link to a chain: which clip, which seals; and the case each falls into."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import product

import numpy as np

from generator.compute.fit.columns import Ints
from generator.compute.fit.refused import why_refused
from generator.compute.fit.sizes import size_relation
from generator.model.chain_parts import Chain, Clip, Link, SealSet
from generator.model.dataset import Dataset, Part
from generator.rules.joined import Joined

# as made first, makeshifts after; a link made without seals has none
SEALS: tuple[str, ...] = ("fitted", "none", "left-out", "packed")
AS_MADE = (SEALS.index("fitted"), SEALS.index("none"))
# where the side plate goes: where it stops by itself, or pressed level with its neighbours, or pressed to its clip
SEATS: tuple[str, ...] = ("made", "neighbours", "clip")
NOTHING = -1
# is everything asked of an option, only what its pitch leaves, or only what could still be no-go for certain?
GOES_ON, STOPPED, REFUSED = range(3)


@dataclass(frozen=True, slots=True)
class Bench:
    """The parts in array order: position i of every chain array is chains[i], and so on."""

    chains: Sequence[Part[Chain]]
    links: Sequence[Part[Link]]
    clips: Sequence[Part[Clip]]
    seals: Sequence[Part[SealSet]]
    # by clip the links that its packet rules out, whose own links have another pitch
    ruled_out: Mapping[str, frozenset[str]] = field(default_factory=dict)
    # by chain the dataset that its joints are judged in, where that is not the whole one
    seen: Sequence[Dataset] = ()

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
    """Index arrays of one length: chain, link, clip (-1: none, or the link's own that nobody recorded), seals word, seal
    set (-1: none, or not recorded), seat word, washers under the clip (-1: none), how much is asked."""

    chain: Ints
    link: Ints
    clip: Ints
    seals: Ints
    seal_set: Ints
    seat: Ints
    spacer: Ints
    stopped: Ints

    def __len__(self) -> int:
        return len(self.chain)

    def take(self, index: Ints) -> "Options":
        return Options(*(getattr(self, name)[index] for name in self.__slots__))


def bench(dataset: Dataset) -> Bench:
    return Bench(
        tuple(dataset.chains.values()),
        tuple(dataset.links.values()),
        tuple(dataset.clips.values()),
        tuple(dataset.seals.values()),
        dict(_ruled_out(dataset)),
    )


def _ruled_out(dataset: Dataset) -> Iterator[tuple[str, frozenset[str]]]:
    """A clip that lies with links of one pitch is nobody's idea for links of another; where the spacing of its seats
    was read, that is judged."""
    pitches = {id_: _pitch_of(dataset, link) for id_, link in dataset.links.items()}
    own: dict[str, set[int | None]] = {}
    for id_, link in dataset.links.items():
        own.setdefault(link.record.clip or "", set()).add(pitches[id_])
    for id_, clip in dataset.clips.items():
        known = own.get(id_, {None})
        if None not in known and "pin_spacing" not in clip.dims:
            yield id_, frozenset(link for link, pitch in pitches.items() if pitch not in {None, *known})


def _pitch_of(dataset: Dataset, link: Part[Link]) -> int | None:
    """By the code that it is stamped with."""
    size = dataset.shelf.sizes.get(link.record.size_code)
    return size.dims["pitch"].nominal if size is not None else None


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


def options_of(rows: Sequence[Sequence[int]]) -> Options:
    """One row an option, in the order of the fields."""
    width = len(Options.__slots__)
    table = np.array(rows, dtype=np.int64).reshape(len(rows), width)
    return Options(*(table[:, i].copy() for i in range(width)))


def all_options(dataset: Dataset, on: Bench) -> Options:
    """Options of every pair; one only where the pitch already stops the pair, or no verdict can be given."""
    ways = [tuple(ways_to_close(link, on)) for link in on.links]
    rows = [
        (c, li, *way, asked)
        for (c, chain), (li, link) in product(enumerate(on.chains), enumerate(on.links))
        for asked in (_asked(dataset, chain, link),)
        for way in (ways[li] if asked == GOES_ON else ways[li][:1])
    ]
    return options_of(rows)


def _asked(dataset: Dataset, chain: Part[Chain], link: Part[Link]) -> int:
    if why_refused(dataset, chain, link) is not None:
        return REFUSED
    return STOPPED if stopped_by_pitch(dataset, chain, link) else GOES_ON


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


# clip, seals, seal set, seat, spacer
Way = tuple[int, int, int, int, int]


def ways_to_close(link: Part[Link], on: Bench) -> Iterator[Way]:
    """In order of preference.  A plate pressed to the clip, and washers under it, are tried with the first clip only:
    they make up for the link's pins, whatever the clip."""
    clips = clips_for(link, on) if link.record.closure == "clip" else [NOTHING]
    seat = SEATS.index("neighbours" if link.record.plate_fit == "press" else "made")
    between = list(between_plates(link, on))
    yield from ((clip, *each, seat, NOTHING) for clip, each in product(clips, between))
    if link.record.closure == "clip":
        if link.record.plate_fit == "press":
            yield from ((clips[0], *each, SEATS.index("clip"), NOTHING) for each in between)
        unpacked = [each for each in between if each[0] != SEALS.index("packed")]
        yield from ((clips[0], *each, seat, spacer) for each in unpacked for spacer in on.washers)


def clips_for(link: Part[Link], on: Bench) -> list[int]:
    """Its own first, recorded or not; what is kept for trials is never ridden."""
    own = on.clip_at(link.record.clip)
    carried = [
        i
        for i, clip in enumerate(on.clips)
        if clip.record.count > 0
        and not clip.record.for_trials
        and link.id not in on.ruled_out.get(clip.id, ())
    ]
    ordered = [i for i in carried if i == own] + [i for i in carried if i != own]
    if link.record.clip in (None, "unknown"):
        return [NOTHING, *ordered]
    return ordered or [NOTHING]


def between_plates(link: Part[Link], on: Bench) -> Iterator[tuple[int, int]]:
    """What can lie between the plates: its own seals if there are any left, nothing, or packing washers."""
    own = on.seal_at(link.record.seals)
    not_recorded = link.record.seals in (None, "unknown") and link.record.made_for == "sealed"
    if not_recorded or (own != NOTHING and on.seals[own].record.shape != "washer"):
        if not_recorded or on.seals[own].record.count > 0:
            yield SEALS.index("fitted"), own
        yield SEALS.index("left-out"), NOTHING
    else:
        yield SEALS.index("none"), NOTHING
    yield from ((SEALS.index("packed"), i) for i in on.washers)


def joined(dataset: Dataset, on: Bench, options: Options, number: int) -> Joined:
    """The parts of option `number`."""
    clip, seal_set = int(options.clip[number]), int(options.seal_set[number])
    chain, spacer = int(options.chain[number]), int(options.spacer[number])
    return Joined(
        on.seen[chain] if on.seen else dataset,
        on.chains[chain],
        on.links[int(options.link[number])],
        None if clip == NOTHING else on.clips[clip],
        None if seal_set == NOTHING else on.seals[seal_set],
        SEALS[int(options.seals[number])],
        SEATS[int(options.seat[number])],
        None if spacer == NOTHING else on.seals[spacer],
    )
