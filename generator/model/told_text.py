"""Lengths that were not read off a scale: a gauge that goes and one that does not, one link held against another."""

import re
from dataclasses import replace
from fractions import Fraction

from generator.model.reading_text import read_value
from generator.model.units import Units
from generator.model.written import LengthFault, Written

# of texts with single blanks and none at the ends, so that a match takes time in step with their length
_GOES = re.compile(r"goes (?P<goes>[^,]*?) ?(?:,|;|but|and)? (?:does )?not (?:go )?(?P<not>.*)")
_BY = re.compile(r"(?P<word>[a-z]+) by (?P<by>.*)")
_MORE = ("longer", "thicker", "higher", "wider", "larger", "taller")
_LESS = ("shorter", "thinner", "lower", "narrower", "smaller")
_FIX_GOES = "write the thickest that goes and the next that does not: goes 5.2 mm, not 5.4 mm"
_FIX_BY = "write same, longer by 0.3 mm or shorter by 0.3 mm"


def told_value(text: str, units: Units) -> Written | None:
    """A length told by gauges or by comparison, or None where the text is a plain value.

    Its readings are then the gauge that goes and the one that does not, or the one signed difference."""
    first = text.strip().split(" ", 1)[0].casefold()
    if first in ("goes", "go", "not"):
        return _gauged(text, units)
    if first in ("same", *_MORE, *_LESS):
        return _compared(text, units)
    return None


def _gauged(text: str, units: Units) -> Written:
    match = _GOES.fullmatch(_plain(text))
    if match is None:
        raise LengthFault(
            "L126", f"'{text.strip()[:60]}' does not say what goes and what does not", _FIX_GOES
        )
    goes, stops = _one(match["goes"], units, _FIX_GOES), _one(match["not"], units, _FIX_GOES)
    if goes.readings[0] >= stops.readings[0]:
        fix = "the one that does not go is the thicker: goes 5.2 mm, not 5.4 mm"
        raise LengthFault("L126", "what goes is not thinner than what does not go", fix)
    halves = [each.plus_minus for each in (goes, stops) if each.plus_minus is not None]
    half = max(halves) if len(halves) == 2 else None
    return replace(goes, text=text, readings=(*goes.readings, *stops.readings), plus_minus=half, form="goes")


def _compared(text: str, units: Units) -> Written:
    if text.strip() == "same":
        return Written(text, next(iter(units.accepted.values()))[0], (Fraction(0),), form="compared")
    match = _BY.fullmatch(_plain(text))
    if match is None or match["word"] not in (*_MORE, *_LESS):
        raise LengthFault("L127", f"'{text.strip()[:60]}' does not say how much", _FIX_BY)
    by = _one(match["by"], units, _FIX_BY)
    sign = 1 if match["word"] in _MORE else -1
    return replace(by, text=text, readings=(sign * by.readings[0],), form="compared")


def _plain(text: str) -> str:
    return " ".join(text.split())


def _one(text: str, units: Units, fix: str) -> Written:
    """One reading, with or without its plus-minus."""
    value = read_value(text, units)
    if len(value.readings) != 1:
        raise LengthFault("L126", f"'{text.strip()[:60]}' is not one {units.what}", fix)
    return value
