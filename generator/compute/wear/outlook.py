"""What the readings of a chain say of the time it has left, or why they do not say it."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import combinations
from typing import Literal

from generator.compute.wear.line import Line, line_through
from generator.compute.wear.series import Point, since_change
from generator.model.elongation import Elongation

State = Literal["ok", "worn", "contradictory", "too-few", "new"]
# why there is no forecast: one closed list, words for it stand in the pages
Why = Literal[
    "", "beyond", "side-bow", "from-look", "at-limit", "no-reading", "from-record", "new", "few", "no-hours", "shrinks", "scattered",
    "scattered-three", "no-wear-seen", "faster", "seals",
]  # fmt: skip
LEAST_DAYS = 3


@dataclass(frozen=True, slots=True)
class HoursLeft:
    """From the newest reading on; a bound that is past already is nought."""

    low: float
    nominal: float
    high: float


@dataclass(frozen=True, slots=True)
class Outlook:
    """`line` is there whenever one was fitted, also where it is not trusted as a forecast."""

    state: State
    why: Why
    hours_left: HoursLeft | None = None
    line: Line | None = None


@dataclass(frozen=True, slots=True)
class Signs:
    """What overrules a good number, and whether the number is no more than how far a tooth shows."""

    seals_gone: bool = False
    side_bow: bool = False
    only_looked: bool = False


def outlook(points: Sequence[Point], now: Elongation | None, limit: Fraction, signs: Signs) -> Outlook:
    """In order of what matters: worn first, then whether the readings can be believed, then the forecast."""
    if signs.side_bow:
        return Outlook("worn", "side-bow")
    if now is None:
        return Outlook("too-few", "no-reading")
    if (now.low if signs.only_looked else now.nominal) >= limit:
        return Outlook("worn", "beyond")
    if not points:
        return Outlook("too-few", "from-look" if signs.only_looked else "from-record")
    recent = since_change(points)
    line_points = tuple(point for point in recent if point.hours is not None)
    if _shrinks(line_points):
        return Outlook("contradictory", "shrinks")
    if all(point.event == "new-chain" for point in points):
        return Outlook("new", "new")
    if len({point.hours for point in line_points}) < LEAST_DAYS:
        return Outlook("too-few", "no-hours" if len(recent) >= LEAST_DAYS > len(line_points) else "few")
    return _of_line(line_points, now, limit, signs)


def _shrinks(points: Sequence[Point]) -> bool:
    """A chain does not become shorter: a later reading that lies below an earlier one with both their ±."""
    return any(later.elongation.high < earlier.elongation.low for earlier, later in combinations(points, 2))


def _of_line(points: Sequence[Point], now: Elongation, limit: Fraction, signs: Signs) -> Outlook:
    line = fitted(points)
    if not line.rises:
        low, high = (
            getattr(point.elongation, end) for point, end in ((points[0], "high"), (points[-1], "low"))
        )
        if high <= low:
            return Outlook("ok", "no-wear-seen", line=line)
        if len(points) == LEAST_DAYS:
            return Outlook("too-few", "scattered-three", line=line)
        return Outlook("contradictory", "scattered", line=line)
    if signs.seals_gone:
        return Outlook("ok", "seals", line=line)
    if _faster(points):
        return Outlook("ok", "faster", line=line)
    return Outlook("ok", "at-limit" if now.high >= limit else "", _hours_left(points, line, limit), line)


def fitted(points: Sequence[Point]) -> Line:
    """Of the readings as they stand; their ± is one instrument's and one hand's, so it moves the whole line and not
    one point against the others: see `_hours_left`."""
    hours = [float(point.hours) for point in points if point.hours is not None]
    return line_through(hours, [float(point.elongation.nominal) for point in points])


def _faster(points: Sequence[Point]) -> bool:
    """Does the newest reading lie above what the ones before it foretold?"""
    earlier, newest = points[:-1], points[-1]
    if len({point.hours for point in earlier}) < LEAST_DAYS:
        return False
    line, hours = fitted(earlier), float(newest.hours or 0)
    return float(newest.elongation.low) > line.at(hours) + line.either_side(hours)


def _hours_left(points: Sequence[Point], line: Line, limit: Fraction) -> HoursLeft:
    """The soonest and the latest with the shared ± of the readings against the chain, and for it."""
    run = float(points[-1].hours or 0)
    plus_minus = max(float(point.elongation.plus_minus) for point in points)
    soonest = line.meets(float(limit) - plus_minus)[0]
    latest = line.meets(float(limit) + plus_minus)[2]
    low, nominal, high = (max(0.0, hours - run) for hours in (soonest, line.meets(float(limit))[1], latest))
    return HoursLeft(low, nominal, high)
