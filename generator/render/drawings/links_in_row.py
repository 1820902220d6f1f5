"""Links in a row as they lie on a bench: what stays, what comes out, what goes in; inner and outer take turns."""

from collections.abc import Sequence
from functools import lru_cache
from typing import Literal

from markupsafe import Markup

from generator.compute.repair.counting import Filling, filling
from generator.render.drawings.svg import num

State = Literal["kept", "out", "new"]
# of pins along the row, and half the height of an inner and of an outer link; units of the drawing
STEP, INNER, OUTER = 34.0, 10.0, 13.0
MIDDLE = 20.0
KEPT_BESIDE = 2


@lru_cache(maxsize=256)
def gap_drawing(gap: int) -> Markup:
    """`gap` pitches come out between two good inner links; both ends of the gap are outer links."""
    states: list[State] = [*["kept"] * KEPT_BESIDE, *["out"] * gap, *["kept"] * KEPT_BESIDE]  # type: ignore[list-item]
    return _row(states, _said(f"{gap} pitches come out; a narrow link stays on each side"))


@lru_cache(maxsize=256)
def filled_drawing(gap: int, change: int) -> Markup:
    """What is put into the gap, between the same two good links."""
    one = filling(gap, gap + change)
    states: list[State] = [*["kept"] * KEPT_BESIDE, *["new"] * (gap + change), *["kept"] * KEPT_BESIDE]  # type: ignore[list-item]
    return _row(states, _said(_put_in(one)))


def _put_in(one: Filling) -> str:
    if one.links == 1:
        return "One connecting link goes in"
    strip = "one narrow link" if one.strip == 1 else f"a strip of {one.strip} pitches"
    return f"Two connecting links go in, {strip} between them"


def _said(text: str) -> str:
    return f"{text}. Narrow and wide links take turns."


def _row(states: Sequence[State], said: str) -> Markup:
    """The first link of a row is an outer one, so that two links further the good end is an inner one."""
    width = STEP * len(states) + 20
    links = [_link(10 + at * STEP, at % 2 == 1, state) for at, state in enumerate(states)]
    pins = "".join(
        f'<circle class="d-void" cx="{num(10 + at * STEP)}" cy="{num(MIDDLE)}" r="3.5"/>'
        for at in range(len(states) + 1)
    )
    wide_last = sorted(range(len(states)), key=lambda at: (states[at] == "out", at % 2 == 0))
    shapes = "".join(links[at] for at in wide_last)
    return Markup(f'<svg viewBox="0 0 {num(width)} 40" role="img"><title>{said}</title>{shapes}{pins}</svg>')


def _link(x: float, inner: bool, state: State) -> str:
    """A plate with a waist round two pins."""
    half = INNER if inner else OUTER
    top, low, waist, end = MIDDLE - half, MIDDLE + half, half * 0.45, x + STEP
    middle = (x + end) / 2
    shape = (
        f"M{num(x)} {num(top)}Q{num(middle)} {num(top + waist)} {num(end)} {num(top)}"
        f"A{num(half)} {num(half)} 0 0 1 {num(end)} {num(low)}"
        f"Q{num(middle)} {num(low - waist)} {num(x)} {num(low)}A{num(half)} {num(half)} 0 0 1 {num(x)} {num(top)}z"
    )
    kind = {"kept": "d-chain", "out": "d-gone", "new": "d-link"}[state]
    return f'<path class="{kind}" d="{shape}"/>'
