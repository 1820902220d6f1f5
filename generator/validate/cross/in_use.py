"""What cannot be true of the joint a chain runs with, and of links and clips that were used."""

from collections.abc import Iterator

from generator.model.chain_parts import Chain, Link
from generator.model.trials_and_rides import Trial
from generator.problems import Problem
from generator.validate.cross.compare import places
from generator.validate.draft import ClubDraft, Draft

# looks at the joint a chain runs with; rub marks beside it are looked for on any chain
LOOKS = (
    "plates_level",
    "plates_no_higher",
    "clip_seated",
    "bends_freely",
    "seals_whole",
    "plate_loose",
)
WENT_WRONG = ("enters", "clip_on", "bends")


def joint_nobody_named(chain: Draft[Chain]) -> Iterator[Problem]:
    """A joint in use is that of a link; looks are at a joint in use."""
    if not chain.whole:
        return
    if chain.record.in_use and chain.record.own_link is None:
        fix = "name the link it runs with: own_link"
        yield chain.problem("C415", "in use, but own_link is not written", "in_use", fix=fix)
    looked = [field for field in LOOKS if getattr(chain.record, field) is not None]
    if looked and chain.record.in_use is not True:
        fix = "write in_use: yes, or take the looks out"
        message = "a look at a joint that is not said to be in use"
        yield chain.problem("C415", message, looked[0], fix=fix, level="warning")


def looked_before_closing(chain: Draft[Chain]) -> Iterator[Problem]:
    """Only a look after the joint was last closed speaks of it."""
    since, on = chain.record.in_use_since, chain.record.looked_on
    if since is not None and on is not None and on < since:
        fix = "look again, or take the looks out"
        message = f"looked at on {on}, before it was closed on {since}"
        yield chain.problem("C416", message, "looked_on", fix=fix, related=places(chain, "in_use_since"))


def runs_what_did_not_go(chain: Draft[Chain], club: ClubDraft) -> Iterator[Problem]:
    """A joint in use went together; a dry fit of the same two that says otherwise speaks of something else."""
    if not chain.record.in_use:
        return
    for trial in club.kinds["trial"].values():
        same = (trial.record.chain, trial.record.link) == (chain.id, chain.record.own_link)
        if same and trial.record.enters is False:
            fix = "one of the two is wrong: look which link is on the chain"
            message = f"in use, but by the dry fit '{trial.id}' its pins do not enter"
            yield chain.problem("C417", message, "in_use", fix=fix, related=places(trial, "enters"))


def came_with_another_size(link: Draft[Link], club: ClubDraft) -> Iterator[Problem]:
    """A link that came in the box of a chain has its size code."""
    chain = club.find("chain", link.record.came_with)
    if chain is None or "unknown" in (chain.record.size_code, link.record.size_code):
        return
    if chain.record.size_code != link.record.size_code:
        message = f"it came with '{chain.id}', which is a {chain.record.size_code}"
        related = (*places(link, "size_code"), *places(chain, "size_code"))
        yield link.problem("C447", message, "came_with", related=related)


def flared_and_new(link: Draft[Link]) -> Iterator[Problem]:
    """Only rivets are flared, and a flared one is not new."""
    if not link.record.flared:
        return
    if link.record.closure in ("clip", "screw"):
        message = f"flared pins on a link closed by {link.record.closure}"
        yield link.problem("C446", message, "flared", related=places(link, "closure"))
    elif link.record.condition == "new":
        fix = "write condition: fitted-once, or flared: no"
        yield link.problem(
            "C446", "flared, but called new", "flared", fix=fix, related=places(link, "condition")
        )


def trial_clip_ridden(link: Draft[Link], club: ClubDraft) -> Iterator[Problem]:
    """A clip kept for dry fits is not the one a link is ridden with."""
    clip = club.find("clip", link.record.clip)
    if clip is not None and clip.record.for_trials:
        message = f"its own clip '{clip.id}' is kept for dry fits only"
        fix = "name the clip it is ridden with"
        yield link.problem("C449", message, "clip", fix=fix, related=places(clip, "for_trials"))


def left_what_did_not_go(trial: Draft[Trial]) -> Iterator[Problem]:
    """Nobody leaves a joint in use that did not go together."""
    wrong = [field for field in WENT_WRONG if getattr(trial.record, field) is False]
    if trial.record.left_in_use and wrong:
        message = f"left in use, though {wrong[0]} says no"
        yield trial.problem("T517", message, "left_in_use", related=places(trial, wrong[0]))


CHAIN_USE_RULES = (joint_nobody_named, looked_before_closing)
CHAIN_USE_CLUB_RULES = (runs_what_did_not_go,)
LINK_USE_RULES = (flared_and_new,)
LINK_USE_CLUB_RULES = (came_with_another_size, trial_clip_ridden)
