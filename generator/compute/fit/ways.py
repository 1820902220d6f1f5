"""All ways to join each pair, each with its range and what decides it, but without every number.

Goes in: a dataset.  Comes out: by (chain, link) the ways in order of preference, best first.
"""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from generator.compute.fit.evaluate import NO_SLACK
from generator.compute.fit.judge import Closely, Judge
from generator.compute.fit.options import NOTHING, SEALS, bench
from generator.model.dataset import Dataset


@dataclass(frozen=True, slots=True)
class Way:
    """One way to join a pair; `rule_id` names the deciding rule."""

    closure: str
    clip: str | None
    seals: str
    seal_set: str | None
    best: int
    worst: int
    rule_id: str
    adds_up: bool


def ways_by_pair(dataset: Dataset) -> Mapping[tuple[str, str], tuple[Way, ...]]:
    """Pairs that are refused have none; a pair stopped by its pitch has one."""
    judge = Judge(dataset, bench(dataset))
    ranked: dict[tuple[str, str], list[tuple[Rank, Way]]] = {}
    for closely in judge.closely(np.arange(len(judge.options))):
        for at, number in enumerate(closely.index.tolist()):
            way = _way(judge, closely, at, number)
            ranked.setdefault(_pair(judge, number), []).append((_rank(judge, closely, at, number), way))
    return {pair: tuple(way for _, way in sorted(ranked[pair], key=_by_rank)) for pair in sorted(ranked)}


# worst rung, best rung, seals as made before makeshifts, nominal slack (greatest first), order of preference
Rank = tuple[int, int, int, int, int]


def _by_rank(ranked: tuple[Rank, Way]) -> Rank:
    return ranked[0]


def _rank(judge: Judge, closely: Closely, at: int, number: int) -> Rank:
    """A check without a number counts as none to spare; one that cannot be judged comes last."""
    judged = closely.judged
    slack = int(judged.slack[at])
    if slack == NO_SLACK:
        category = closely.plan.checks[int(judged.deciding[at])].category
        slack = 0 if category is not None else -int(NO_SLACK)
    return int(judged.worst[at]), int(judged.best[at]), int(judge.options.seals[number]), -slack, number


def _pair(judge: Judge, number: int) -> tuple[str, str]:
    chain, link = int(judge.options.chain[number]), int(judge.options.link[number])
    return judge.on.chains[chain].id, judge.on.links[link].id


def _way(judge: Judge, closely: Closely, at: int, number: int) -> Way:
    judged, options, on = closely.judged, judge.options, judge.on
    clip, seal_set = int(options.clip[number]), int(options.seal_set[number])
    worst = int(judged.worst[at])
    return Way(
        closure=on.links[int(options.link[number])].record.closure,
        clip=None if clip == NOTHING else on.clips[clip].id,
        seals=SEALS[int(options.seals[number])],
        seal_set=None if seal_set == NOTHING else on.seals[seal_set].id,
        best=int(judged.best[at]),
        worst=worst,
        rule_id=closely.plan.checks[int(judged.deciding[at])].rule_id,
        adds_up=int(judged.check_worst[:, at].max()) < worst,
    )
