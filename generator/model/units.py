"""Units people may write, as exact factors, and the ones they must write differently."""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from generator.model.written import Unit


@dataclass(frozen=True, slots=True)
class Units:
    """One kind of value: accepted units with their size in base units, and refused units with the remedy."""

    what: str
    example: str
    accepted: Mapping[str, tuple[Unit, Fraction]]
    refused: Mapping[str, tuple[str, Fraction | None]]
    largest: Fraction
    zero_allowed: bool

    @property
    def choice(self) -> str:
        return " or ".join(self.accepted)


_MM, _INCH = Fraction(1_000_000), Fraction(25_400_000)  # nm; the inch is exactly 25.4 mm since 1959

LENGTHS = Units(
    what="length",
    example="14.92 mm",
    accepted={"mm": ("mm", _MM), "in": ("in", _INCH)},
    # a second unit word: what to write instead, and its size where the number must change
    refused={
        "cm": ("mm", 10 * _MM),
        "m": ("mm", 1000 * _MM),
        "µm": ("mm", _MM / 1000),
        "um": ("mm", _MM / 1000),
        "micron": ("mm", _MM / 1000),
        "thou": ("in", _INCH / 1000),
        "mil": ("in", _INCH / 1000),
        "ft": ("in", 12 * _INCH),
        '"': ("in", None),
        "''": ("in", None),
        "″": ("in", None),
        "”": ("in", None),
        "inch": ("in", None),
        "inches": ("in", None),
        "in.": ("in", None),
        "mm.": ("mm", None),
        "millimetre": ("mm", None),
        "millimetres": ("mm", None),
        "millimeter": ("mm", None),
        "millimeters": ("mm", None),
    },
    largest=10_000 * _MM,
    # a bow or a travel left may be zero; which fields may is settled when records are checked
    zero_allowed=True,
)

_NEWTON = Fraction(1000)  # mN

FORCES = Units(
    what="force",
    example="26.4 kN",
    accepted={
        "kN": ("kN", 1000 * _NEWTON),
        "N": ("kN", _NEWTON),
        "lbf": ("kN", Fraction("4.4482216152605") * _NEWTON),  # ISO 80000: 1 lb x standard gravity, exact
    },
    refused={
        "kgf": ("N", Fraction("9.80665") * _NEWTON),
        "kp": ("N", Fraction("9.80665") * _NEWTON),
        "daN": ("N", 10 * _NEWTON),
        "MN": ("kN", 1_000_000 * _NEWTON),
        "lb": ("lbf", None),
        "lbs": ("lbf", None),
        "kn": ("kN", None),
        "KN": ("kN", None),
        "n": ("N", None),
    },
    largest=1_000_000 * _NEWTON,
    zero_allowed=False,
)

_GRAM = Fraction(1000)  # mg

MASSES = Units(
    what="mass",
    example="14 g",
    accepted={
        "g": ("g", _GRAM),
        "kg": ("g", 1000 * _GRAM),
        "oz": ("g", Fraction("28.349523125") * _GRAM),  # avoirdupois ounce, exact
    },
    refused={
        "mg": ("g", _GRAM / 1000),
        "lb": ("g", Fraction("453.59237") * _GRAM),
        "lbs": ("g", Fraction("453.59237") * _GRAM),
        "gr": ("g", None),
        "gram": ("g", None),
        "grams": ("g", None),
        "gramme": ("g", None),
        "Kg": ("kg", None),
        "KG": ("kg", None),
        "G": ("g", None),
    },
    largest=1_000_000 * _GRAM,
    zero_allowed=False,
)
