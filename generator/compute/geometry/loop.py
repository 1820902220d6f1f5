"""Length of a chain loop over two sprockets, and the centre distance that goes with it.

Lengths are in one unit throughout (millimetres in the sources).  `centre_by_formula` is the usual formula;
`length_exact` follows the tangents and counts the teeth that the chain lies round, as each tooth is a pitch.
"""

from functools import lru_cache
from math import asin, pi, sin, sqrt

# the centre distance is looked for this far beyond the formula's answer, in pitches
_NEAR = 2.0
_HALVINGS = 200


def pitch_diameter(pitch: float, teeth: int) -> float:
    """Diameter of the circle the rollers lie on (Analysis and Design of Machine Elements; ISO 606 annex)."""
    return pitch / sin(pi / teeth)


def centre_by_formula(pitches: float, pitch: float, front: int, rear: int) -> float:
    """From the number of pitches 2C/p + (z1+z2)/2 + ((z2-z1)/2pi)^2 p/C (Analysis and Design of Machine Elements,
    7.28 and 7.29); ValueError where the loop is too short for its sprockets."""
    straight = pitches - (front + rear) / 2
    under = straight**2 - 8 * ((rear - front) / (2 * pi)) ** 2
    if straight <= 0 or under < 0:
        raise ValueError(f"{pitches} pitches do not go round {front} and {rear} teeth")
    return pitch / 4 * (straight + sqrt(under))


def length_exact(centre: float, pitch: float, front: int, rear: int) -> float:
    """Pitches of the loop along both tangents and round both pitch circles; ValueError where the circles overlap."""
    step = (pitch_diameter(pitch, rear) - pitch_diameter(pitch, front)) / 2
    if centre <= abs(step):
        raise ValueError("one sprocket lies within the other")
    lean = asin(step / centre)
    straight = 2 * sqrt(centre**2 - step**2) / pitch
    return straight + front * (pi - 2 * lean) / (2 * pi) + rear * (pi + 2 * lean) / (2 * pi)


@lru_cache(maxsize=4096)
def centre_exact(pitches: float, pitch: float, front: int, rear: int) -> float:
    """The centre distance at which the loop lies taut: the length grows with the distance, so halving finds it."""
    guess = centre_by_formula(pitches, pitch, front, rear)
    touching = (pitch_diameter(pitch, rear) - pitch_diameter(pitch, front)) / 2
    low, high = max(abs(touching) * (1 + 1e-12), guess - _NEAR * pitch), guess + _NEAR * pitch
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        if middle in (low, high):
            break
        low, high = (middle, high) if length_exact(middle, pitch, front, rear) < pitches else (low, middle)
    return (low + high) / 2
