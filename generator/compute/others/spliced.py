"""Splices with all ways to join each link to them, numbered alike on the chain's side and on the strip's.

Goes in: a dataset and splices.  Comes out: both sides judged, the worse of both for each way.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import product

import numpy as np

from generator.compute.fit.columns import Ints
from generator.compute.fit.evaluate import Rungs
from generator.compute.fit.judge import Judge
from generator.compute.fit.options import Bench, Options, bench, same_family, ways_to_close, why_refused
from generator.compute.others.strip_as_chain import Splice, strips_as_chains
from generator.model.dataset import Dataset

Way = tuple[int, int, int]


@dataclass(frozen=True, slots=True)
class Spliced:
    """One entry a way to join; `pair` is its place in `pairs`, `on_chain` its number on the chain's side."""

    pairs: Sequence[tuple[int, int]]
    chain_side: Judge
    strip_side: Judge
    pair: Ints
    on_chain: Ints
    best: Rungs
    worst: Rungs
    prefer: Ints
    contradicted: frozenset[int]


def all_spliced(dataset: Dataset, splices: Sequence[Splice]) -> Spliced | None:
    """Pairs are (splice, link) by position; only links of the family that are not refused.  None: no pair."""
    on = bench(dataset)
    ways = [tuple(ways_to_close(link, on)) for link in on.links]
    pairs = _pairs(dataset, on, splices)
    if not pairs:
        return None
    chain_of = {number: on.chains.index(splice.chain) for number, splice in enumerate(splices)}
    on_chain = list(dict.fromkeys((chain_of[splice], link) for splice, link in pairs))
    starts = dict(zip(on_chain, np.cumsum([0, *(len(ways[link]) for _, link in on_chain)]), strict=False))
    numbers = [
        int(starts[chain_of[splice], link]) + way for splice, link in pairs for way in range(len(ways[link]))
    ]
    as_chains = strips_as_chains(dataset, splices)
    chain_side = Judge(dataset, on, _options(on_chain, ways))
    strip_side = Judge(as_chains, bench(as_chains), _options(pairs, ways), plans=chain_side.plans)
    pair = np.repeat(np.arange(len(pairs)), [len(ways[link]) for _, link in pairs])
    return _both(pairs, chain_side, strip_side, pair, np.array(numbers, dtype=np.int64))


def _pairs(dataset: Dataset, on: Bench, splices: Sequence[Splice]) -> list[tuple[int, int]]:
    return [
        (s, li)
        for (s, splice), (li, link) in product(enumerate(splices), enumerate(on.links))
        if same_family(dataset, splice.chain, link) and why_refused(splice.chain, link) is None
    ]


def _options(joints: Sequence[tuple[int, int]], ways: Sequence[tuple[Way, ...]]) -> Options:
    """Every way of each joint (chain, link); none is stopped, as all are of one family."""
    rows = [(chain, link, *way, 0) for chain, link in joints for way in ways[link]]
    table = np.array(rows, dtype=np.int64).reshape(len(rows), 6)
    return Options(*(table[:, i].copy() for i in range(6)))


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
