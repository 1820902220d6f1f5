"""Splices with all ways to join each link to them, the chain's side and the strip's numbered each by its own joints."""

from collections.abc import Mapping, Sequence
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
from generator.model.chain_parts import Chain, Link
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
    every = bench(dataset)
    chains = list({splice.chain.id: splice.chain for splice in splices}.values())
    fitting = [_fitting(dataset, chain, every) for chain in chains]
    used = sorted({link for links in fitting for link in links})
    if not used:
        return None
    ways = {link: _ways(every.links[link], every, hopeless) for link in used}
    of_chain = {chain.id: at for at, chain in enumerate(chains)}
    pairs = [
        (number, link) for number, splice in enumerate(splices) for link in fitting[of_chain[splice.chain.id]]
    ]
    joints = [(at, link) for at, links in enumerate(fitting) for link in links]
    seen, as_chains = strips_as_chains(dataset, splices)
    chain_side = Judge(dataset, replace(every, chains=tuple(chains)), _options(joints, ways), plans=plans)
    strip_side = Judge(seen, replace(every, chains=as_chains), _options(pairs, ways), plans=plans)
    counts = [len(ways[link]) for _, link in joints]
    first = dict(zip(joints, np.cumsum([0, *counts[:-1]]).tolist(), strict=True))
    met = [(first[of_chain[splices[number].chain.id], link], len(ways[link])) for number, link in pairs]
    pair = np.repeat(np.arange(len(pairs)), [count for _, count in met])
    on_chain = np.concatenate([np.arange(start, start + count) for start, count in met])
    return _both(pairs, chain_side, strip_side, pair, on_chain)


def _fitting(dataset: Dataset, chain: Part[Chain], on: Bench) -> list[int]:
    """Positions of the links of its family that are not refused."""
    return [
        at
        for at, link in enumerate(on.links)
        if same_family(dataset, chain, link) and why_refused(dataset, chain, link) is None
    ]


def _ways(link: Part[Link], on: Bench, hopeless: Hopeless) -> tuple[Way, ...]:
    """A clip that is no-go on the link makes no joint better; where all are, the first stands for them."""
    every = tuple(ways_to_close(link, on))
    kept = tuple(way for way in every if way[0] == NOTHING or (on.clips[way[0]].id, link.id) not in hopeless)
    return kept or tuple(way for way in every if way[0] == every[0][0])


def _options(joints: Sequence[tuple[int, int]], ways: Mapping[int, tuple[Way, ...]]) -> Options:
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
