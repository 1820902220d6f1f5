"""The verdict on a repair: the worst of its joints, lowered by what the loop, the chain and the tools make of it."""

from collections.abc import Iterable, Sequence
from dataclasses import replace

from generator.compute.repair.result import Cap, Job, Range
from generator.model.shipped import GET_HOME, LAST_RESORT, NO_GO, PROPER

# (least rung, cap): the repair is no better than this
Limit = tuple[int, Cap]
MOST_LINKS = 3


def lowered(best: int, worst: int, limits: Iterable[Limit], untried: int = PROPER) -> Range:
    """`untried` is the rung that a proper joint nobody has tried counts as."""
    found = list(limits)
    least = max((rung for rung, _ in found), default=PROPER)
    low, high = max(best, least), max(worst, least)
    counts = max(high, untried)
    caps: list[Cap] = [cap for rung, cap in found if rung > worst or rung == high > PROPER]
    if untried > high:
        caps.append("untried")
    return Range(low, high, counts, tuple(dict.fromkeys(caps)), worst)


def loop_limits(clip_joints: int, links: int) -> list[Limit]:
    """More than one clip joint in a loop: get-home; more than three connecting links: last-resort."""
    limits: list[Limit] = [(GET_HOME, "two-clip-joints")] if clip_joints > 1 else []
    return [*limits, (LAST_RESORT, "many-joints")] if links > MOST_LINKS else limits


def tool_limits(jobs: Sequence[Job]) -> list[Limit]:
    """A tool that was not made for the part makes no better joint than it can."""
    brought = [job.able[0][1] for job in jobs if job.able]
    worst = max(brought, default=PROPER)
    return [(worst, "tool")] if worst > PROPER else []


def unread_axle(found: Range) -> Range:
    """The axle may not reach: then it cannot be counted on."""
    return replace(found, worst=NO_GO, counts=NO_GO, caps=(*found.caps, "axle-unread"))
