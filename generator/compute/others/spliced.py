"""The splices of one chain with all ways to join each link to them, numbered alike on the chain's side and the strip's."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from generator.compute.fit.columns import Ints
from generator.compute.fit.evaluate import Rungs
from generator.compute.fit.judge import Judge
from generator.compute.fit.options import (
    NOTHING,
    Bench,
    Options,
    Way,
    bench,
    options_of,
    same_family,
    ways_to_close,
)
from generator.compute.fit.plans import Plans
from generator.compute.fit.refused import why_refused
from generator.compute.others.strip_as_chain import Splice, strips_as_chains
from generator.model.chain_parts import Link
from generator.model.dataset import Dataset, Part

# (clip, link) that can only be no-go
Hopeless = frozenset[tuple[str, str]]


@dataclass(frozen=True, slots=True)
class Spliced:
    """One entry a way to join; `pairs` are (splice, link) by position, `pair` the place of the way among them,
    `on_chain` its number on the chain's side."""

    pairs: Sequence[tuple[int, int]]
    chain_side: Judge
    strip_side: Judge
    pair: Ints
    on_chain: Ints
    best: Rungs
    worst: Rungs
    prefer: Ints
    contradicted: frozenset[int]


def spliced(dataset: Dataset, splices: Sequence[Splice], hopeless: Hopeless, plans: Plans) -> Spliced | None:
    """None where no link of the family can be judged; `plans` are those of the joints."""
    on = _bench_of(dataset, splices[0])
    if not on.links:
        return None
    ways = [_ways(link, on, hopeless) for link in on.links]
    pairs = [(splice, link) for splice in range(len(splices)) for link in range(len(on.links))]
    as_chains = strips_as_chains(dataset, splices)
    chain_options = _options([(0, link) for link in range(len(on.links))], ways)
    chain_side = Judge(dataset, on, chain_options, plans=plans)
    strip_bench = replace(on, chains=tuple(as_chains.chains.values()))
    strip_side = Judge(as_chains, strip_bench, _options(pairs, ways), plans=plans)
    pair = np.repeat(np.arange(len(pairs)), [len(ways[link]) for _, link in pairs])
    on_chain = np.tile(np.arange(len(chain_options)), len(splices))
    return _both(pairs, chain_side, strip_side, pair, on_chain)


def _bench_of(dataset: Dataset, splice: Splice) -> Bench:
    """The chain, and the links of its family that are not refused."""
    chain, on = splice.chain, bench(dataset)
    links = (
        link
        for link in on.links
        if same_family(dataset, chain, link) and why_refused(dataset, chain, link) is None
    )
    return replace(on, chains=(chain,), links=tuple(links))


def _ways(link: Part[Link], on: Bench, hopeless: Hopeless) -> tuple[Way, ...]:
    """A clip that is no-go on the link makes no joint better; where all are, the first stands for them."""
    every = tuple(ways_to_close(link, on))
    kept = tuple(way for way in every if way[0] == NOTHING or (on.clips[way[0]].id, link.id) not in hopeless)
    return kept or tuple(way for way in every if way[0] == every[0][0])


def _options(joints: Sequence[tuple[int, int]], ways: Sequence[tuple[Way, ...]]) -> Options:
    """Every way of each joint (chain, link); none is stopped, as all are of one family."""
    rows = [(chain, link, *way, 0) for chain, link in joints for way in ways[link]]
    return options_of(rows)


def _both(
    pairs: Sequence[tuple[int, int]], chain_side: Judge, strip_side: Judge, pair: Ints, on_chain: Ints
) -> Spliced:
    one, other = chain_side.verdicts(), strip_side.verdicts()
    return Spliced(
        pairs,
        chain_side,
        strip_side,
        pair,
        on_chain,
        np.maximum(one.best[on_chain], other.best),
        np.maximum(one.worst[on_chain], other.worst),
        np.minimum(one.prefer[on_chain], other.prefer),
        frozenset(pair[one.contradicted[on_chain]].tolist()),
    )
