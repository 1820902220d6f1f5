"""The readings of one chain since it was new, a point a day, with its hours counted through."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from generator.model.dataset import WearReading
from generator.model.elongation import Elongation, elongation_of
from generator.model.wear_row import Event


@dataclass(frozen=True, slots=True)
class Point:
    """The worst place of a day; `hours` since the chain was new, None where nobody knows them.

    `starts` says that what was done that day begins a new line: the wear before it went at another rate, or its
    worst place was cut out.
    """

    on: date
    hours: Fraction | None
    elongation: Elongation
    place: str
    event: Event
    places: int
    line: int

    @property
    def starts(self) -> bool:
        return self.event in ("new-chain", "cut", "new-sprockets")


def points_of(log: Iterable[WearReading], pitch: int) -> tuple[Point, ...]:
    """By day, from the last new chain on; `log` holds the lines of one chain."""
    days: dict[date, list[WearReading]] = {}
    for reading in sorted(log, key=lambda each: (each.on, each.line)):
        days.setdefault(reading.on, []).append(reading)
    points: list[Point] = []
    before = Fraction(0)
    for readings in days.values():
        event: Event = next((each.event for each in readings if each.event != "reading"), "reading")
        if event == "new-chain":
            points, before = [], Fraction(0)
        if event == "counter-reset":
            before = max((point.hours for point in points if point.hours is not None), default=Fraction(0))
        points.append(_point(readings, event, before, pitch))
    return tuple(points)


def _point(readings: Sequence[WearReading], event: Event, before: Fraction, pitch: int) -> Point:
    found = [(elongation_of(each.inside, each.outside, each.pitches, pitch), each) for each in readings]
    elongation, worst = max(found, key=lambda pair: pair[0].nominal)
    hours = None if worst.hours == "unknown" else before + Fraction(worst.hours)
    return Point(worst.on, hours, elongation, worst.place, event, len(readings), worst.line)


def since_change(points: Sequence[Point]) -> tuple[Point, ...]:
    """Those that one line may go through."""
    start = max((n for n, point in enumerate(points) if point.starts), default=0)
    return tuple(points[start:])
