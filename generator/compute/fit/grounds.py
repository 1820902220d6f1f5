"""Of which options some evidence speaks that makes a check proper where readings leave it open."""

import numpy as np

from generator.compute.fit.columns import Ints, Mask
from generator.compute.fit.evaluate import GroundsOf
from generator.compute.fit.measured import Combined
from generator.compute.fit.options import AS_MADE, NOTHING, SEALS, SEATS, Bench, Options
from generator.compute.fit.wear_state import wear_state
from generator.rules.joined import Joined
from generator.rules.kin import by_make, own_packet_new
from generator.rules.rooms import Side, least_room_read


def grounds_of(combined: Combined) -> GroundsOf:
    """make: the link was made for just this chain and is joined as made.  make-unworn: and the chain is within its wear
    limit.  make-roomy: and its bikes leave so much room on the other side that it sets no limit.  own-make: and the
    chain runs with a joint of the same make, so that this one sticks out no further; own-make-roomy: and there is such
    room on the clip's side.  packet: clip and link are new out of one packet.  play: a dry fit felt no more play than
    beside it."""
    parts, place = combined.of(("chain", "link"))
    make = _each([by_make(each.chain, each.link) for each in parts], place)
    unworn = _each([wear_state(each.dataset, each.chain) == "within" for each in parts], place)
    play = _each([_no_more_play(each) for each in parts], place)
    as_made = _as_made(combined.on, combined.options)
    own_make = make & as_made & _each([_own_make(each) for each in parts], place)
    return {
        "make": make & as_made,
        "make-unworn": make & as_made & unworn,
        "make-roomy": make & as_made & _each([_roomy(each, "other") for each in parts], place),
        "own-make": own_make,
        "own-make-roomy": own_make & _each([_roomy(each, "clip") for each in parts], place),
        "packet": _packet(combined),
        "play": play & unworn,
    }


def _roomy(parts: Joined, side: Side) -> bool:
    """Reading a room that sets no limit must not take away what held while nobody had read it."""
    room = least_room_read(parts.dataset, parts.chain.id, side)
    return room is not None and room.low >= parts.dataset.shelf.allowances["room-no-limit"].nm


def _own_make(parts: Joined) -> bool:
    """Does the chain run with a link of the same make, closed the same way?"""
    own = parts.dataset.links.get(parts.chain.record.own_link or "")
    if own is None or parts.chain.record.in_use is False or not by_make(parts.chain, own):
        return False
    alike = ("closure", "plate_fit", "made_for")
    return all(getattr(own.record, field) == getattr(parts.link.record, field) for field in alike)


def _each(values: list[bool], place: Ints) -> Mask:
    found: Mask = np.array(values, dtype=bool)[place]
    return found


def _no_more_play(parts: Joined) -> bool:
    trials = [
        trial.record.play
        for trial in parts.dataset.trials.values()
        if (trial.record.chain, trial.record.link) == (parts.chain.id, parts.link.id)
    ]
    return "no-more" in trials and "more" not in trials


def _as_made(on: Bench, options: Options) -> Mask:
    """With its own clip and its own seals, the plate where it belongs and nothing under the clip."""
    links = range(len(on.links))
    own_clip = np.array([on.clip_at(on.links[i].record.clip) for i in links], dtype=np.int64)
    # of a link whose clip is not recorded position nothing is its own; one without any has none
    has_clip = np.array([on.links[i].record.clip != "none" for i in links], dtype=bool)
    clipped = np.array([on.links[i].record.closure == "clip" for i in links], dtype=bool)
    own_seals = np.array([on.seal_at(on.links[i].record.seals) for i in links], dtype=np.int64)
    link = options.link
    clip = ~clipped[link] | ((options.clip == own_clip[link]) & has_clip[link])
    seals = np.isin(options.seals, AS_MADE)
    fitted = options.seals == SEALS.index("fitted")
    own = ~fitted | (options.seal_set == own_seals[link])
    mask: Mask = clip & seals & own & (options.seat != SEATS.index("clip")) & (options.spacer == NOTHING)
    return mask


def _packet(combined: Combined) -> Mask:
    parts, place = combined.of(("link", "clip"))
    return _each([own_packet_new(p.dataset, p.link, p.clip.id if p.clip else None) for p in parts], place)
