"""The wear of a chain over its hours: readings, line, interval and limit, in the inks of the face."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import ceil, log10

from markupsafe import Markup

from generator.compute.wear.line import Line
from generator.compute.wear.series import Point
from generator.compute.wear.wear import ChainWear
from generator.render.drawings.svg import el, safe_text

WIDTH, HEIGHT = 330.0, 230.0
LEFT, RIGHT, TOP, BOTTOM = 46.0, 318.0, 30.0, 184.0
_STEPS = 40  # of the curved edges of the interval
_ROOM = 1.12  # above the highest thing drawn


@dataclass(frozen=True, slots=True)
class Scale:
    """Hours and per cent to places in the drawing."""

    hours: float
    percent: float

    def x(self, hours: float) -> float:
        return LEFT + (RIGHT - LEFT) * hours / self.hours

    def y(self, percent: float) -> float:
        return BOTTOM - (BOTTOM - TOP) * max(percent, 0.0) / self.percent


def wear_plot(wear: ChainWear, says: str) -> Markup:
    """`says` is the sentence of the page, read aloud in place of the drawing."""
    points = [point for point in wear.points if point.hours is not None]
    line, limit = wear.outlook.line, float(wear.limit.percent)
    scale = _scale(points, line if wear.outlook.hours_left else None, limit)
    shapes = [*_frame(scale), *_limit(scale, wear.limit.percent)]
    if line is not None:
        shapes += _line(scale, line)
    shapes += [shape for point in points for shape in _reading(scale, point)]
    words = f"{len(points)} readings of {wear.chain} over its hours. {says}"
    title = el("title", safe_text(f"Wear of {wear.chain}"))
    return el(
        "svg", title, el("desc", safe_text(words)), *shapes, viewBox=f"0 0 {WIDTH:g} {HEIGHT:g}", role="img"
    )


def _scale(points: Sequence[Point], line: Line | None, limit: float) -> Scale:
    """As far as the forecast goes, not beyond twice the hours that the line takes to the limit."""
    run = max(float(point.hours or 0) for point in points)
    meets = line.meets(limit)[1] * 1.25 if line is not None else 0.0
    worst = max(float(point.elongation.high) for point in points)
    return Scale(max(run * 1.1, meets, 1.0), max(worst, limit) * _ROOM)


def _frame(scale: Scale) -> Iterator[Markup]:
    yield el("path", d=f"M{LEFT} {TOP}V{BOTTOM}H{RIGHT}", class_="d-line")
    yield _text(4.0, 18.0, "% longer than new")
    yield _text(RIGHT, 222.0, "hours since new", "d-text d-end")
    for hours in _ticks(scale.hours):
        x = scale.x(hours)
        yield el("path", d=f"M{x:.1f} {BOTTOM}v5", class_="d-line")
        yield _text(x, 204.0, f"{hours:g}", "d-text d-mid")
    for percent in _ticks(scale.percent, 4):
        y = scale.y(percent)
        yield el("path", d=f"M{LEFT} {y:.1f}h-5", class_="d-line")
        yield _text(LEFT - 8, y + 5, f"{percent:g}", "d-text d-end")


def _ticks(most: float, about: int = 5) -> Iterator[float]:
    """Round numbers: 1, 2 or 5 of some power of ten apart."""
    rough = most / about
    power = 10.0 ** (ceil(log10(rough)) - 1)
    step = next(power * each for each in (1, 2, 5, 10) if power * each >= rough)
    yield from (round(step * n, 6) for n in range(int(most / step) + 1))


def _limit(scale: Scale, percent: Fraction) -> Iterator[Markup]:
    y = scale.y(float(percent))
    yield el("path", d=f"M{LEFT} {y:.1f}H{RIGHT}", class_="d-gone")
    yield _text(LEFT + 8, y - 7, f"limit {float(percent):g} %")


def _line(scale: Scale, line: Line) -> Iterator[Markup]:
    """Drawn as far as the paper goes; its interval as two dashed edges."""
    hours = [scale.hours * n / _STEPS for n in range(_STEPS + 1)]
    for side in (-1, 1):
        edge = [(x, line.at(x) + side * line.either_side(x)) for x in hours]
        yield el("path", d=_through(scale, edge), class_="d-ghost")
    yield el("path", d=_through(scale, [(x, line.at(x)) for x in (hours[0], hours[-1])]), class_="d-line")


def _through(scale: Scale, places: Sequence[tuple[float, float]]) -> str:
    """Only what lies on the paper; straight lines are cut into the same steps."""
    (x1, y1), (x2, y2) = places[0], places[-1]
    if len(places) == 2:
        parts = [(x1 + (x2 - x1) * n / _STEPS, y1 + (y2 - y1) * n / _STEPS) for n in range(_STEPS + 1)]
    else:
        parts = list(places)
    inside = [(scale.x(x), scale.y(y)) for x, y in parts if 0 <= y <= scale.percent]
    return "M" + "L".join(f"{x:.1f} {y:.1f}" for x, y in inside) if inside else "M0 0"


def _reading(scale: Scale, point: Point) -> Iterator[Markup]:
    x = scale.x(float(point.hours or 0))
    low, high = (scale.y(float(getattr(point.elongation, end))) for end in ("low", "high"))
    yield el(
        "path",
        d=f"M{x:.1f} {low:.1f}V{high:.1f}M{x - 4:.1f} {low:.1f}h8M{x - 4:.1f} {high:.1f}h8",
        class_="d-line",
    )
    yield el("circle", cx=x, cy=scale.y(float(point.elongation.nominal)), r=5.0, class_="d-dot")


def _text(x: float, y: float, words: str, class_: str = "d-text") -> Markup:
    return el("text", safe_text(words), x=x, y=y, class_=class_)
