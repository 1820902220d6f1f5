"""A straight line through wear readings, and how far the next reading may lie from it.

Source: ordinary least squares of one variable; the hours at which the line meets a limit are its inverse
prediction (calibration) by Fieller's theorem, as engineering statistics textbooks print it.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import sqrt

from generator.compute.wear.student import two_sided

CHANCE = 0.95  # of every interval that is shown


@dataclass(frozen=True, slots=True)
class Line:
    """Elongation in per cent over hours; `spread` is the residual standard deviation."""

    count: int
    mean_hours: float
    mean_percent: float
    slope: float
    squares: float  # sum of squared distances of the hours from their mean
    spread: float

    @property
    def at_start(self) -> float:
        """The intercept: per cent at no hours."""
        return self.mean_percent - self.slope * self.mean_hours

    @property
    def factor(self) -> float:
        """Student's t of the interval."""
        return two_sided(CHANCE, self.count - 2)

    @property
    def rises(self) -> bool:
        """Is the slope above nought by more than chance?"""
        return self.slope > self.factor * self.spread / sqrt(self.squares)

    def at(self, hours: float) -> float:
        return self.mean_percent + self.slope * (hours - self.mean_hours)

    def either_side(self, hours: float) -> float:
        """Half of the prediction interval for one more reading."""
        off = (hours - self.mean_hours) ** 2 / self.squares
        return self.factor * self.spread * sqrt(1 + 1 / self.count + off)

    def meets(self, percent: float) -> tuple[float, float, float]:
        """Hours at which the interval, the line and the interval's other edge reach a limit; the line must rise."""
        if not self.rises:
            raise ValueError("a line that does not rise meets no limit")
        up = percent - self.mean_percent
        reach = (self.factor * self.spread) ** 2
        steep = self.slope**2 - reach / self.squares
        middle = self.slope * up / steep
        half = sqrt(reach * (up**2 / self.squares + steep * (1 + 1 / self.count))) / steep
        nominal = self.mean_hours + up / self.slope
        # where the points lie on the line the three are one, but for the last digits of floats
        soonest, latest = self.mean_hours + middle - half, self.mean_hours + middle + half
        return min(soonest, nominal), nominal, max(latest, nominal)


def line_through(hours: Sequence[float], percent: Sequence[float]) -> Line:
    """Three points at two different hours at least, else ValueError."""
    count = len(hours)
    if count < 3 or len(set(hours)) < 2:
        raise ValueError("a line with its interval needs three readings at two different hours")
    mean_hours, mean_percent = sum(hours) / count, sum(percent) / count
    squares = sum((x - mean_hours) ** 2 for x in hours)
    slope = sum((x - mean_hours) * (y - mean_percent) for x, y in zip(hours, percent, strict=True)) / squares
    left = sum(
        (y - mean_percent - slope * (x - mean_hours)) ** 2 for x, y in zip(hours, percent, strict=True)
    )
    return Line(count, mean_hours, mean_percent, slope, squares, sqrt(left / (count - 2)))
