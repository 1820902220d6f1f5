"""Small clubs put into one, so that the evaluator judges the joint of each in the same arrays."""

from collections.abc import Iterator, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import replace
from typing import Any, TypeVar

import numpy as np

from generator.compute.fit.judge import Closely, Judge
from generator.compute.fit.options import AS_MADE, NOTHING, SEALS, SEATS, Bench, Options, all_options, bench
from generator.model.dataset import Dataset, Part, TrialFacts
from tests.engine import Way

# best and worst, by way and check
Rungs = dict[tuple[Way, str], tuple[int, int]]
Named = TypeVar("Named", Part[Any], TrialFacts)
KINDS = ("chains", "links", "clips", "seals", "bikes", "trials")
# the fields that name other records
NAMES = ("chain", "link", "own_link", "came_with", "clip", "own_clip", "clip_stop_with", "seals", "washers", "spacers")  # fmt: skip


def side_by_side(datasets: Sequence[Dataset]) -> list[Rungs]:
    """Of the ways with the seals as they were made, the plate where the link has it, no washers."""
    clubs = [_renamed(dataset, f"{n} ") for n, dataset in enumerate(datasets)]
    every: dict[str, Any] = {kind: _all_of(clubs, kind) for kind in KINDS}
    whole = replace(clubs[0], **every)
    on = bench(whole)
    of_each = [_options(whole, on, club, f"{n} ") for n, club in enumerate(clubs)]
    judge = Judge(whole, on, _one_after_another(of_each))
    owner = np.repeat(np.arange(len(of_each)), [len(options) for options in of_each]).tolist()
    found: list[Rungs] = [{} for _ in clubs]
    for closely in judge.closely(np.arange(len(judge.options))):
        for at, option in enumerate(closely.index.tolist()):
            way = _way(judge, option, f"{owner[option]} ")
            found[owner[option]] |= {(way, id_): rungs for id_, rungs in _rungs(closely, at)}
    return found


def _all_of(clubs: Sequence[Dataset], kind: str) -> dict[str, Any]:
    return {id_: each for club in clubs for id_, each in getattr(club, kind).items()}


def _renamed(dataset: Dataset, before: str) -> Dataset:
    """The same club with these letters before every id."""
    ids = {id_ for kind in KINDS for id_ in getattr(dataset, kind)}
    every: dict[str, Any] = {
        kind: {before + id_: _one(each, ids, before) for id_, each in getattr(dataset, kind).items()}
        for kind in KINDS
    }
    return replace(dataset, **every)


def _one(each: Named, ids: AbstractSet[str], before: str) -> Named:
    told = {name: getattr(each.record, name, None) for name in NAMES}
    led = {name: f"{before}{id_}" for name, id_ in told.items() if id_ in ids}
    return replace(each, id=before + each.id, record=each.record.model_copy(update=led))


def _options(whole: Dataset, on: Bench, club: Dataset, before: str) -> Options:
    """Those of one joint as if its club were alone, counted on the bench of all."""
    alone = bench(club)
    alone = replace(alone, chains=(club.chains[before + "chain"],), links=(club.links[before + "link"],))
    made = all_options(whole, alone)
    kept = np.isin(made.seals, AS_MADE) & (made.seat != SEATS.index("clip")) & (made.spacer == NOTHING)
    made = made.take(np.flatnonzero(kept))
    names = {"chain": "chains", "link": "links", "clip": "clips", "seal_set": "seals", "spacer": "seals"}
    placed = {name: _places(getattr(alone, kind), getattr(on, kind)) for name, kind in names.items()}
    return replace(made, **{name: places[getattr(made, name)] for name, places in placed.items()})


def _places(few: Sequence[Part[Any]], many: Sequence[Part[Any]]) -> np.ndarray[Any, np.dtype[np.int64]]:
    """By place on the small bench that on the large one; what is not there, at the end, stays so."""
    by_id = {part.id: n for n, part in enumerate(many)}
    return np.array([*(by_id[part.id] for part in few), NOTHING], dtype=np.int64)


def _one_after_another(all_of: Sequence[Options]) -> Options:
    return Options(*(np.concatenate([getattr(each, name) for each in all_of]) for name in Options.__slots__))


def _way(judge: Judge, option: int, before: str) -> Way:
    options, on = judge.options, judge.on
    clip, seal_set = int(options.clip[option]), int(options.seal_set[option])
    return Way(
        on.chains[int(options.chain[option])].id.removeprefix(before),
        on.links[int(options.link[option])].id.removeprefix(before),
        None if clip == NOTHING else on.clips[clip].id.removeprefix(before),
        SEALS[int(options.seals[option])],
        None if seal_set == NOTHING else on.seals[seal_set].id.removeprefix(before),
        SEATS[int(options.seat[option])],
    )


def _rungs(closely: Closely, at: int) -> Iterator[tuple[str, tuple[int, int]]]:
    judged = closely.judged
    for n, check in enumerate(closely.plan.checks):
        yield check.id, (int(judged.check_best[n][at]), int(judged.check_worst[n][at]))
