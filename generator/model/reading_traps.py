"""Ways of writing a value that look right to their author and would be misread."""

import re
from fractions import Fraction
from typing import NoReturn

from generator.model.units import Units
from generator.model.written import LengthFault

SIGN = r"\+/-|\+-|±"
_MINUS = "-−–—‐‑"
_UNKNOWN_SPELLINGS = frozenset(
    (
        "unknown",
        "?",
        "n/a",
        "na",
        "none",
        "nil",
        "-",
        "--",
        "tbd",
        "not known",
        "unkown",
        "unknow",
        "null",
        "~",
    )
)
_DECIMAL = r"\d{1,9}(?:\.\d{1,9})?"


def fault(code: str, message: str, fix: str, span: tuple[int, int] = (0, 0)) -> LengthFault:
    """A fault that covers the characters of `span`; none means the whole value."""
    return LengthFault(code, message, fix, span[0], span[1] - span[0])


def refuse_traps(text: str, units: Units) -> None:
    """Refuse what has a remedy of its own."""
    for index, character in enumerate(text):
        if not character.isascii() and character.isnumeric():
            fix = f"type plain digits 0 to 9, fractions as 1/2: {units.example}"
            raise fault("L108", f"'{character}' is not a plain digit", fix, (index, index + 1))
    if text.strip().casefold() in _UNKNOWN_SPELLINGS:
        message = f"'{text.strip()}' does not say that the {units.what} is unknown"
        raise fault("L116", message, "write unknown, in small letters")
    if match := re.search(r"(?i)[+-]?\b(?:nan|inf|infinity)\b", text):
        fix = f"write a number, such as {units.example}, or unknown"
        raise fault("L107", f"'{match.group()}' is not a number", fix, match.span())
    if match := re.search(r"\d[\d.]*[eE][+\-−]?\d+", text):
        message = f"'{match.group()[:60]}' is written with an exponent"
        raise fault("L109", message, f"write it out in full, such as {units.example}", match.span())
    _refuse_comma(text, units)
    _refuse_minus(text, units)


def _refuse_comma(text: str, units: Units) -> None:
    """A comma between digits is a decimal comma, or several readings run together."""
    match = re.search(r"\d+(?:\.\d+)?(?:,\d+(?:\.\d+)?)+", text)
    if match is None:
        return
    word = match.group()
    if word.count(",") > 1 or "." in word:
        fix = f"put a space after each comma between readings: {word.replace(',', ', ')[:60]}"
        raise fault("L104", f"comma without a space in '{word[:60]}'", fix, match.span())
    ending = text.split()[-1]
    unit = ending if ending in units.accepted else next(iter(units.accepted))
    fix = f"write a point: {word.replace(',', '.')} {unit}"
    raise fault("L104", f"comma between digits in '{word}'", fix, match.span())


def _refuse_minus(text: str, units: Units) -> None:
    """A minus sign makes a negative value or a range; `+-` and `+/-` are no minus signs."""
    match = re.search(rf"(?P<left>\d[\d.]*)? *(?<!\+)(?<!\+/)[{_MINUS}] *(?P<right>\d[\d.]*)", text)
    if match is None:
        return
    if match["left"] is None:
        fix = f"write it without the minus sign, such as {units.example}"
        raise fault("L105", f"a {units.what} cannot be negative", fix, match.span())
    fix = f"write the middle and half the width{_middle(match['left'], match['right'])}"
    raise fault("L110", f"'{match.group()[:60]}' reads like a range", fix, match.span())


def _middle(left: str, right: str) -> str:
    if not (re.fullmatch(_DECIMAL, left) and re.fullmatch(_DECIMAL, right)):
        return ""
    low, high = sorted((Fraction(left), Fraction(right)))
    return f": {_decimal((low + high) / 2)} ± {_decimal((high - low) / 2)}"


def _decimal(value: Fraction) -> str:
    text = f"{float(value):.6f}".rstrip("0").rstrip(".")
    return text or "0"


def refuse_shape(text: str, units: Units) -> NoReturn:
    """The value follows no form we know; guess which form was meant."""
    shown = text.strip()[:60]
    if re.search(rf"(?:{SIGN})(?! *[\d.])|(?:{SIGN}).*(?:{SIGN})", text):
        message = f"plus-minus without its number, or twice, in '{shown}'"
        raise fault("L115", message, "write one plus-minus with a number: 14.92 ± 0.03 mm")
    if re.search(r"\d *[^\W\d]{1,12}\.? *(?:,|;|±|\+/?-)", text):
        whole = _with_one_unit(text, units)
        fix = (
            f"write the unit once, at the end: {whole}"
            if whole
            else "write all of it in one unit, once, at the end"
        )
        raise fault("L118", f"more than one unit in '{shown}'", fix)
    if re.search(r"[\d.] *[;|/] *[\d.]|[\d.] +[\d.]|\d *,", text):
        message = f"the readings in '{shown}' are not set apart by comma and space"
        raise fault("L117", message, "write 14.90, 14.92, 14.93 mm")
    fix = f"write a number and its unit, such as {units.example}, or unknown"
    raise fault("L101", f"'{shown}' is not a {units.what}", fix)


def _with_one_unit(text: str, units: Units) -> str:
    """The same value with its unit at the end, in the first accepted unit where several were used; empty where
    a part of it is no plain number with a unit of ours."""
    first, *pairs = re.split(rf" *(,|;|{SIGN}) *", text.strip())
    parts = [re.fullmatch(rf"({_DECIMAL}) *(\S+)?", part) for part in (first, *pairs[1::2])]
    used = [match[2] for match in parts if match and match[2]]
    if not all(parts) or not all(unit in units.accepted for unit in used):
        return ""
    unit = used[0] if len(set(used)) == 1 else next(iter(units.accepted))
    size = units.accepted[unit][1]
    numbers = [
        match[1]
        if match[2] in (None, unit)
        else _decimal(Fraction(match[1]) * units.accepted[match[2]][1] / size)
        for match in parts
        if match
    ]
    signs = (", " if sign in (",", ";") else " ± " for sign in pairs[::2])
    return "".join((numbers[0], *map("".join, zip(signs, numbers[1:], strict=True)))) + f" {unit}"


def refuse_unit(word: str, readings: str, units: Units, span: tuple[int, int]) -> NoReturn:
    """A unit we do not take; say how the same value is written in one we do."""
    instead, size = units.refused.get(word.replace("μ", "µ"), (None, None))
    if instead is None:
        instead = next((unit for unit in units.accepted if unit.casefold() == word.casefold()), None)
    if instead is None:
        fix = f"write {units.choice}, such as {units.example}"
    elif size is None:
        fix = f"write {instead}: {readings[:60]} {instead}"
    else:
        fix = f"write {instead}{_converted(readings, size / units.accepted[instead][1], instead)}"
    raise fault("L103", f"'{word[:60]}' is not a unit used here", fix, span)


def _converted(readings: str, factor: Fraction, unit: str) -> str:
    """`: 149.2 mm` when every reading is a plain decimal, else nothing."""
    words = re.split(r", +", readings)
    if not all(re.fullmatch(_DECIMAL, word) for word in words):
        return ""
    return f": {', '.join(_decimal(Fraction(word) * factor) for word in words)} {unit}"
