"""What each joint would be if nothing were said about its clip: what a makeshift for a lost clip rests on."""

from dataclasses import replace

import numpy as np

from generator.compute.fit.columns import Ints
from generator.compute.fit.judge import Judge
from generator.compute.fit.options import NOTHING, SEATS, Options, clips_for, pair_numbers
from generator.model.shipped import NO_GO


def without_clip(judge: Judge) -> tuple[Ints, Ints]:
    """By pair number the best and the worst rung over all that can lie between the plates, as the joint stands with
    the clip it lost; no-go where a pair has no option.  Wire and washers sit where the clip sat, so that groove and
    metal beyond it, float and place count as with the clip; only what is asked of the clip itself does not."""
    options = _with_lost_clip(judge)
    bare = Judge(judge.dataset, judge.on, options, plans=judge.plans.without_clip)
    verdicts = bare.verdicts()
    pair = pair_numbers(judge.on, options)
    best, worst = (np.full(len(judge.on.chains) * len(judge.on.links), NO_GO, dtype=np.int64) for _ in "bw")
    np.minimum.at(best, pair, verdicts.best)
    np.minimum.at(worst, pair, verdicts.worst)
    return best, worst


def _with_lost_clip(judge: Judge) -> Options:
    """The options with the first clip of each link, its own where there is one, as it was made otherwise."""
    options, on = judge.options, judge.on
    first = np.array(
        [clips_for(link, on)[0] if link.record.closure == "clip" else NOTHING for link in on.links],
        dtype=np.int64,
    )
    kept = (
        (options.clip == first[options.link])
        & (options.seat != SEATS.index("clip"))
        & (options.spacer == NOTHING)
    )
    some = options.take(np.flatnonzero(kept))
    # of the link's own the lengths count though none is left
    own = np.array([on.clip_at(link.record.clip) for link in on.links], dtype=np.int64)[some.link]
    return replace(some, clip=np.where(own != NOTHING, own, some.clip))
