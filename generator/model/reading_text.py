"""The grammar of one written value: readings, an optional plus-minus and a unit."""

import re
from fractions import Fraction

from generator.model.reading_traps import SIGN, fault, refuse_shape, refuse_traps, refuse_unit
from generator.model.units import Units
from generator.model.written import Unit, Written

_NUMBER = r"\d+ +\d+/\d+|\d+/\d+|\d*\.\d*|\d+"
_GRAMMAR = re.compile(
    rf" *(?P<readings>(?:{_NUMBER})(?:, +(?:{_NUMBER}))*)"
    rf"(?: *(?:{SIGN}) *(?P<half>{_NUMBER}))? *(?P<unit>[^\d\s,.+±/-]\S*)? *",
    re.ASCII,
)
# a fraction, or under one to a thousandth: nobody reads millimetres so
_LIKE_INCHES = re.compile(r"/|(?<![\d.])0\.\d{3}", re.ASCII)
_ODD_SPACES = dict.fromkeys(map(ord, "\u00a0\u2007\u2009\u202f\u3000\t"), " ")
_DENOMINATORS = {2, 4, 8, 16, 32, 64, 128}
LONGEST_TEXT = 400
MOST_READINGS = 50
MOST_DECIMALS = 9


def read_value(text: str, units: Units) -> Written:
    """One value in exact base units; the text itself is kept as its author wrote it."""
    plain = text.translate(_ODD_SPACES)
    if plain.strip() == "unknown":
        return Written(text)
    if len(plain) > LONGEST_TEXT:
        raise fault("L101", f"{len(plain)} characters are not a {units.what}", f"write {units.example}")
    match = _GRAMMAR.fullmatch(plain)
    # what has the form of a value in a unit of ours is none of the traps
    if match is None or match["unit"] not in units.accepted:
        refuse_traps(plain, units)
    if match is None:
        refuse_shape(plain, units)
    unit, size = _unit(match, units)
    readings = tuple(_scaled(word, size, units) for word in re.finditer(_NUMBER, match["readings"]))
    if len(readings) > MOST_READINGS:
        raise fault("L117", f"{len(readings)} readings in one value", f"keep {MOST_READINGS} at most")
    return Written(text, unit, readings, _half_width(match, size, units))


def _unit(match: re.Match[str], units: Units) -> tuple[Unit, Fraction]:
    word = match["unit"]
    if word is None:
        shown = match.group().strip()
        inches = "in" in units.accepted and _LIKE_INCHES.search(shown)
        likely = "in" if inches else next(iter(units.accepted))
        fix = f"write the unit too: {shown} {likely}, if that is what it is"
        raise fault("L102", f"'{shown[:60]}' has no unit", fix, match.span("readings"))
    if word not in units.accepted:
        refuse_unit(word, match["readings"], units, match.span("unit"))
    return units.accepted[word]


def _half_width(match: re.Match[str], size: Fraction, units: Units) -> Fraction | None:
    if match["half"] is None:
        return None
    value = _number(match["half"], size, units, match.span("half")) * size
    if value == 0:
        fix = "no reading is exact: write its plus-minus, or leave it out and the instrument gives it"
        raise fault("L115", "plus-minus of zero", fix, match.span("half"))
    return value


def _scaled(word: re.Match[str], size: Fraction, units: Units) -> Fraction:
    """One reading in base units; `word` is a match inside the readings, which start the value."""
    value = _number(word.group(), size, units, word.span()) * size
    if value == 0 and not units.zero_allowed:
        fix = f"write the {units.what}, such as {units.example}, or unknown"
        raise fault("L106", f"a {units.what} of zero", fix, word.span())
    if value > units.largest:
        message = f"'{word.group()}' is far too large for a {units.what}"
        raise fault("L114", message, "look for a missing point or a wrong unit", word.span())
    return value


def _number(word: str, size: Fraction, units: Units, span: tuple[int, int]) -> Fraction:
    if "/" in word:
        return _fraction(word, size, units, span)
    whole, point, decimals = word.partition(".")
    if not whole or (point and not decimals) or (len(whole) > 1 and whole.startswith("0")):
        bare = whole.lstrip("0") or "0"
        tidy = f"{bare}.{decimals or '0'}" if point else bare
        raise fault("L112", f"'{word[:30]}' is not written out", f"write {tidy[:30]}", span)
    if len(decimals) > MOST_DECIMALS:
        message = f"'{word[:30]}' has {len(decimals)} decimals"
        raise fault("L111", message, f"write {MOST_DECIMALS} decimals at most", span)
    return Fraction(word)


def _fraction(word: str, size: Fraction, units: Units, span: tuple[int, int]) -> Fraction:
    """`5/8` or `1 1/4`, of an inch only."""
    if "in" not in units.accepted or size != units.accepted["in"][1]:
        fix = f"fractions are for inches; write a decimal, such as {units.example}"
        raise fault("L113", f"'{word[:30]}' is a fraction", fix, span)
    whole, _, part = word.rpartition(" ")
    top, bottom = part.split("/")
    if len(word) > 12 or int(bottom) not in _DENOMINATORS or (whole and int(top) >= int(bottom)):
        fix = "write halves to 128ths, such as 5/8 in or 1 1/4 in"
        raise fault("L113", f"'{word[:30]}' is not a fraction of a rule", fix, span)
    return Fraction(int(whole or 0)) + Fraction(int(top), int(bottom))
