"""Student's t distribution for whole degrees of freedom.

Source: Abramowitz and Stegun, Handbook of Mathematical Functions, 26.7.3 and 26.7.4, finite sums in the angle
whose tangent is t / sqrt(degrees of freedom).
"""

from functools import lru_cache
from math import atan, cos, pi, sin, sqrt, tan

_HALVINGS = 80  # far below the spacing of floats between 0 and pi / 2


def within(t: float, freedom: int) -> float:
    """The chance that a t value lies between -t and t."""
    return _within_angle(atan(t / sqrt(freedom)), freedom)


@lru_cache(maxsize=256)
def two_sided(chance: float, freedom: int) -> float:
    """The t whose interval -t .. t holds this chance, such as 0.95; ValueError outside 0 .. 1 or without freedom."""
    if not 0 < chance < 1 or freedom < 1:
        raise ValueError(f"no such quantile: {chance} of {freedom}")
    low, high = 0.0, pi / 2
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        if _within_angle(middle, freedom) < chance:
            low = middle
        else:
            high = middle
    return tan((low + high) / 2) * sqrt(freedom)


def _within_angle(angle: float, freedom: int) -> float:
    odd = freedom % 2
    term = cos(angle) if odd else 1.0
    total = 0.0
    for k in range(2 + odd, freedom + 1, 2):
        total += term
        term *= cos(angle) ** 2 * (k - 1) / k
    return (angle + sin(angle) * total) * 2 / pi if odd else sin(angle) * total
