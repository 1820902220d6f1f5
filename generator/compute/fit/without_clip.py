"""What each joint would be if nothing were said about its clip: what a makeshift for a lost clip rests on.

Goes in: options judged.  Comes out: by pair number the best and the worst rung without every check that concerns the
clip, over all that can lie between the plates.
"""

from dataclasses import replace

import numpy as np

from generator.compute.fit.columns import Ints
from generator.compute.fit.evaluate import Category
from generator.compute.fit.judge import Judge
from generator.compute.fit.options import NOTHING, Options, pair_numbers
from generator.compute.fit.trials import TRIED, between_positions
from generator.model.shipped import NO_GO


def without_clip(judge: Judge) -> tuple[Ints, Ints]:
    """Best of bests and best of worsts; no-go where a pair has no option."""
    options = _with_any_clip(judge)
    bare = Judge(judge.dataset, judge.on, options, plans=judge.plans.without_clip)
    bare.categories = {**bare.categories, "tried": _binds(bare)}
    verdicts = bare.verdicts()
    pair = pair_numbers(judge.on, options)
    best, worst = (np.full(len(judge.on.chains) * len(judge.on.links), NO_GO, dtype=np.int64) for _ in "bw")
    np.minimum.at(best, pair, verdicts.best)
    np.minimum.at(worst, pair, verdicts.worst)
    return best, worst


def _with_any_clip(judge: Judge) -> Options:
    """One of the options that differ in their clip alone, without it."""
    options = judge.options
    between = (pair_numbers(judge.on, options), options.seals, options.seal_set)
    _, first = np.unique(np.stack(between), axis=1, return_index=True)
    some = options.take(np.sort(first))
    return replace(some, clip=np.full(len(some), NOTHING, dtype=np.int64))


def _binds(bare: Judge) -> Category:
    """A joint that was stiff with these seals in is so with any clip or none; one whose clip would not go on
    has shown nothing about what can be done without it."""
    tried = bare.categories["tried"]
    codes = tried.codes.copy()
    for trial in bare.dataset.trials.values():
        if trial.record.bends is False:
            at = between_positions(trial.record, bare.on, bare.options)
            codes[at] = np.maximum(codes[at], TRIED.index("stiff"))
    return Category(codes, tried.words)
