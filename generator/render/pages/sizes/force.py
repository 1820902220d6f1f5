"""A force as a reader sees it."""

from fractions import Fraction

from generator.model.quantity import MN_PER_KN, Quantity
from generator.render.base.lengths import fixed

MN_PER_LBF = Fraction("4448.2216152605")  # a pound at standard gravity, exact


def force_text(force: Quantity) -> str:
    """`26.4 kN ± 2.7 kN (5935 lbf)`."""
    kilonewtons = fixed(Fraction(force.nominal, MN_PER_KN), 1)
    half = f" ± {fixed(Fraction(force.half_width, MN_PER_KN), 1)} kN" if force.half_width else ""
    return f"{kilonewtons} kN{half} ({round(force.nominal / MN_PER_LBF)} lbf)"
