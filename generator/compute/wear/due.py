"""What is due next on each bike, reckoned from the day the handbook speaks for and never from a clock."""

from calendar import monthrange
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from fractions import Fraction
from math import ceil, floor
from typing import Literal

from generator.compute.wear.wear import BikeWear, ChainWear, Wear
from generator.model.care import CareTask
from generator.model.dataset import Dataset, Part
from generator.model.tools_and_bikes import Bike

Why = Literal["never-done", "months", "hours", "worn", "forecast", "ride"]
MEASURE, SEASON, LOOK = "measure-wear", "season-check", "look"
REPLACE = "replace-chain"


@dataclass(frozen=True, slots=True)
class Due:
    """One task on one bike, or before one ride; `rides` says after how many of its usual rides, where that is known."""

    task: str
    bike: str
    on: date
    why: Why
    last: date | None = None
    rides: int | None = None
    ride: str = ""


def due_next(dataset: Dataset, wear: Wear) -> tuple[Due, ...]:
    """The soonest first, then by bike; rides before the day are over and are left out."""
    found = [
        each
        for id_, bike in dataset.bikes.items()
        for each in _of_bike(dataset, bike, wear.bikes[id_], wear.chains[bike.record.chain])
    ]
    rides = (
        Due(LOOK, "", ride.on, "ride", ride=id_)
        for id_, ride in dataset.rides.items()
        if ride.on >= dataset.as_of
    )
    return tuple(sorted((*found, *rides), key=lambda due: (due.on, due.task, due.bike, due.ride)))


def _of_bike(dataset: Dataset, bike: Part[Bike], on_bike: BikeWear, chain: ChainWear) -> Iterator[Due]:
    tasks = dataset.shelf.care.tasks
    if on_bike.outlook.state == "worn":
        yield Due(REPLACE, bike.id, dataset.as_of, "worn")
    else:
        if MEASURE in tasks:
            yield _measure(dataset, bike, chain, tasks[MEASURE])
        yield from _limit_reached(bike, on_bike, chain)
    if SEASON in tasks:
        yield _season(dataset, bike, tasks[SEASON])


def _measure(dataset: Dataset, bike: Part[Bike], chain: ChainWear, task: CareTask) -> Due:
    """By months or by hours, whichever comes first."""
    if not chain.points:
        return Due(MEASURE, bike.id, dataset.as_of, "never-done")
    last = chain.points[-1].on
    by_month = months_after(last, int(_figure(dataset, task.months)))
    hours = _figure(dataset, task.hours)
    rate = hours_a_day(chain)
    by_hours = last + timedelta(days=floor(hours / rate)) if rate else by_month
    why: Why = "hours" if by_hours < by_month else "months"
    return Due(MEASURE, bike.id, min(by_month, by_hours), why, last, _rides(bike, hours))


def _limit_reached(bike: Part[Bike], on_bike: BikeWear, chain: ChainWear) -> Iterator[Due]:
    """The soonest day on which the forecast lets the chain reach its limit."""
    left, rate = on_bike.outlook.hours_left, hours_a_day(chain)
    if left is not None and rate:
        day = chain.points[-1].on + timedelta(days=floor(left.low / float(rate)))
        yield Due(
            REPLACE, bike.id, day, "forecast", chain.points[-1].on, _rides(bike, Fraction(floor(left.low)))
        )


def _season(dataset: Dataset, bike: Part[Bike], task: CareTask) -> Due:
    """So many months after the bike was last measured."""
    last = bike.record.measured_on
    if last is None:
        return Due(SEASON, bike.id, dataset.as_of, "never-done")
    return Due(SEASON, bike.id, months_after(last, int(_figure(dataset, task.months))), "months", last)


def _figure(dataset: Dataset, id_: str | None) -> Fraction:
    return Fraction(dataset.shelf.care.practices[id_ or ""].number or 0)


def _rides(bike: Part[Bike], hours: Fraction) -> int | None:
    """Usual rides that make so many hours, at least one."""
    usual = bike.record.hours_per_ride
    if usual in (None, "unknown", "0"):
        return None
    return max(1, ceil(hours / Fraction(str(usual))))


def hours_a_day(chain: ChainWear) -> Fraction | None:
    """How fast its hours grew between its first and its newest reading; None where that cannot be told."""
    points = [point for point in chain.points if point.hours is not None]
    if len(points) < 2:
        return None
    days = (points[-1].on - points[0].on).days
    hours = (points[-1].hours or Fraction(0)) - (points[0].hours or Fraction(0))
    return hours / days if days > 0 and hours > 0 else None


def months_after(day: date, months: int) -> date:
    """The same day of a later month, or its last day where it is shorter."""
    year, month = divmod(day.month - 1 + months, 12)
    return date(day.year + year, month + 1, min(day.day, monthrange(day.year + year, month + 1)[1]))
