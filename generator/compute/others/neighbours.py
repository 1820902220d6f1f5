"""A connecting link with one pin in a chain and the other in a strip."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from generator.compute.fit.columns import Ints
from generator.compute.fit.detail import Look, check_fit, look_at
from generator.compute.fit.fits import DISAGREE
from generator.compute.fit.judge import Judge
from generator.compute.fit.next_reading import measure_next
from generator.compute.fit.options import NOTHING, SEALS, SEATS, same_family
from generator.compute.fit.plans import Plans, plans_of
from generator.compute.fit.refused import why_refused
from generator.compute.fit.result import CheckFit, MeasureNext
from generator.compute.grouped import grouped, some_at_a_time
from generator.compute.others.result import JointSide, NeighbourFit, PartFit, Side
from generator.compute.others.spliced import Spliced, spliced
from generator.compute.others.strip_as_chain import Splice, named_rightly, right_name
from generator.compute.others.strips import bush_end_fits
from generator.model.dataset import Dataset
from generator.model.shipped import NO_GO

# strips let into chains, times links
SPLICED_AT_A_TIME = 4000


@dataclass(frozen=True, slots=True)
class _Seen:
    """One way to join, looked at closely on both sides."""

    splice: Splice
    bushes: PartFit
    looks: Mapping[Side, Look]
    clip: str | None
    seals: str
    on_chain: JointSide
    on_strip: JointSide

    @property
    def bush_ends(self) -> CheckFit:
        return self.bushes.checks[0]

    @property
    def ranges(self) -> Mapping[Side, tuple[int, int]]:
        """Worst and best rung of each side, the worst side first."""
        found: dict[Side, tuple[int, int]] = {
            "joint on the chain": (self.on_chain.worst, self.on_chain.best),
            "joint on the strip": (self.on_strip.worst, self.on_strip.best),
            "bush ends": (self.bush_ends.worst, self.bush_ends.best),
        }
        return dict(sorted(found.items(), key=lambda item: item[1], reverse=True))


def neighbour_fits(
    dataset: Dataset,
    strips: Sequence[PartFit],
    clip_links: Iterable[PartFit],
    plans: Plans | None = None,
) -> tuple[NeighbourFit, ...]:
    """Strips that are refused in a chain, or no-go whatever is measured, have none there."""
    hopeless = frozenset((fit.id_of("clip"), fit.id_of("link")) for fit in clip_links if fit.best == NO_GO)
    plans = plans or plans_of(dataset)
    found: dict[tuple[str, str, str], NeighbourFit] = {}
    for chains in some_at_a_time(
        _by_chain(strips), SPLICED_AT_A_TIME, lambda of: len(of) * len(dataset.links)
    ):
        group = [fit for of_chain in chains for fit in of_chain]
        splices = [Splice(dataset.strips[f.id_of("strip")], dataset.chains[f.id_of("chain")]) for f in group]
        bush_ends = bush_end_fits(dataset, [(splice.strip, splice.chain) for splice in splices])
        judged = spliced(dataset, splices, hopeless, plans)
        found |= {_key(fit): fit for fit in _refused(dataset, splices)}
        if judged is not None:
            found |= {_key(fit): fit for fit in _fits(judged, splices, bush_ends)}
    return tuple(found[key] for key in sorted(found))


def _by_chain(strips: Iterable[PartFit]) -> Iterable[list[PartFit]]:
    """The strips that may be let into each chain."""
    able = [fit for fit in strips if fit.best is not None and fit.best < NO_GO]
    return grouped(able, lambda fit: fit.id_of("chain")).values()


def _key(fit: NeighbourFit) -> tuple[str, str, str]:
    return fit.strip, fit.chain, fit.link


def _refused(dataset: Dataset, splices: Sequence[Splice]) -> Iterator[NeighbourFit]:
    for splice in splices:
        for link in dataset.links.values():
            reason = why_refused(dataset, splice.chain, link)
            if reason is not None and same_family(dataset, splice.chain, link):
                yield NeighbourFit(splice.strip.id, splice.chain.id, link.id, refused=reason)


def _fits(judged: Spliced, splices: Sequence[Splice], bush_ends: Sequence[PartFit]) -> Iterator[NeighbourFit]:
    chosen, brightest = _choices(judged)
    seen = _look(judged, splices, bush_ends, np.unique([*chosen, *brightest]))
    for at, (number, link) in enumerate(judged.pairs):
        ends = (splices[number].strip.id, splices[number].chain.id, judged.chain_side.on.links[link].id)
        if at in judged.contradicted:
            yield NeighbourFit(*ends, refused=DISAGREE)
        else:
            best = int(judged.best[brightest[at]])
            yield _fit(ends, best, (seen[chosen[at]], seen[brightest[at]]))


def _choices(judged: Spliced) -> tuple[list[int], list[int]]:
    """By pair: the way that is chosen, as for any joint, and the way that could be best."""
    number, options = np.arange(len(judged.pair)), judged.strip_side.options
    makeshift = (options.seat == SEATS.index("clip")).astype(np.int8) + (options.spacer != NOTHING)
    keys = (number, -judged.prefer, makeshift, options.seals, judged.best, judged.worst, judged.pair)
    order = np.lexsort(keys)
    by_best = order[np.lexsort((number, judged.best[order], judged.pair[order]))]
    return _first(judged.pair, order), _first(judged.pair, by_best)


def _first(pair: Ints, order: Ints) -> list[int]:
    """The first of each pair; the order has the pairs one after the other."""
    _, places = np.unique(pair[order], return_index=True)
    return [int(number) for number in order[places]]


def _look(
    judged: Spliced, splices: Sequence[Splice], bush_ends: Sequence[PartFit], wanted: Ints
) -> Mapping[int, _Seen]:
    chain = dict(_closely(judged.chain_side, np.unique(judged.on_chain[wanted])))
    strip = dict(_closely(judged.strip_side, wanted))
    found = {}
    for number in wanted.tolist():
        at = judged.pairs[int(judged.pair[number])][0]
        one, other = chain[int(judged.on_chain[number])], strip[number]
        looks: dict[Side, Look] = {"joint on the chain": one, "joint on the strip": other}
        clip, seals = _closed_with(judged.strip_side, number)
        on_strip = _side(other)
        right = replace(on_strip, deciding=named_rightly(on_strip.deciding, splices[at]))
        found[number] = _Seen(splices[at], bush_ends[at], looks, clip, seals, _side(one), right)
    return found


def _closely(judge: Judge, wanted: Ints) -> Iterator[tuple[int, Look]]:
    for closely in judge.closely(wanted):
        for at, number in enumerate(closely.index.tolist()):
            yield number, look_at(judge, closely, at)


def _closed_with(judge: Judge, number: int) -> tuple[str | None, str]:
    clip = int(judge.options.clip[number])
    seals = SEALS[int(judge.options.seals[number])]
    return (None if clip == NOTHING else judge.on.clips[clip].id), seals


def _side(look: Look) -> JointSide:
    judged, at = look.closely.judged, look.at
    worst = int(judged.worst[at])
    adds_up = int(judged.check_worst[:, at].max()) < worst
    return JointSide(int(judged.best[at]), worst, check_fit(look, int(judged.deciding[at])), adds_up)


def _fit(ends: tuple[str, str, str], best: int, seen: tuple[_Seen, _Seen]) -> NeighbourFit:
    """From the chosen way; its best rung is that of the way that could be best."""
    chosen = seen[0]
    lowest = max(best, chosen.bush_ends.best)
    decided_by, (worst, _) = next(iter(chosen.ranges.items()))
    return NeighbourFit(
        *ends,
        best=lowest,
        worst=worst,
        decided_by=decided_by,
        clip=chosen.clip,
        seals=chosen.seals,
        on_chain=chosen.on_chain,
        on_strip=chosen.on_strip,
        bush_ends=chosen.bush_ends,
        measure_next=_next(seen) if lowest < worst else None,
    )


def _next(seen: tuple[_Seen, _Seen]) -> MeasureNext | None:
    """From the side that decides, else from any that is open; of the chosen way, else of the one that
    might be better.  That side only is settled: the other one may stay open."""
    for each in seen:
        open_sides = [side for side, (worst, best) in each.ranges.items() if best < worst]
        for side in open_sides:
            found = each.bushes.measure_next if side == "bush ends" else measure_next(each.looks[side])
            if found is not None:
                return _named_rightly(replace(found, settles_pair=False), each.splice)
    return None


def _named_rightly(found: MeasureNext, splice: Splice) -> MeasureNext:
    return replace(
        found,
        reading=right_name(found.reading, splice),
        also=tuple((right_name(reading, splice), within) for reading, within in found.also),
        then=right_name(found.then, splice) if found.then else None,
    )
