"""A dimension as its author wrote it, before an instrument and a recipe give it its width."""

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from generator.model.quantity import Evidence

Unit = Literal["mm", "in", "g", "kN"]


@dataclass(frozen=True, slots=True)
class Written:
    """Readings in exact base units (nm for lengths, mN for forces, mg for masses).

    `readings` is empty exactly when the author wrote `unknown`; `plus_minus` is the author's
    own total half-width, None when the instrument and the recipe are to give it.  Where `form` is `goes` the
    readings are the gauge that goes and the one that does not; where it is `compared`, one signed difference.
    """

    text: str
    unit: Unit | None = None
    readings: tuple[Fraction, ...] = ()
    plus_minus: Fraction | None = None
    evidence: Evidence | None = None
    source: str | None = None
    form: Literal["read", "goes", "compared"] = "read"

    @property
    def is_unknown(self) -> bool:
        return not self.readings


class LengthFault(ValueError):
    """A value that does not follow the grammar: stable code, what is wrong, how to mend it.

    `offset` and `width` are characters from the start of the text, for the caret.
    """

    def __init__(self, code: str, message: str, fix: str, offset: int = 0, width: int = 0) -> None:
        super().__init__(message)
        self.code = code
        self.message = message
        self.fix = fix
        self.offset = offset
        self.width = width
