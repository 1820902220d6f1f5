"""A length in the words of a drawing, in millimetres and in inches at the same place.

Goes in: whole nanometres.  Comes out: words with marks around the two texts, which `text` turns into two spans of which
the switch shows one; or one plain text with both.
"""

import re
from fractions import Fraction
from functools import lru_cache

from generator.model.quantity import NM_PER_INCH, NM_PER_MM
from generator.render.base.lengths import MINUS, fixed

_MM, _IN, _END = "\ue000", "\ue001", "\ue002"  # private characters, which no typed text keeps
_BOTH = re.compile(f"{_MM}([^{_MM}{_IN}{_END}]*){_IN}([^{_MM}{_IN}{_END}]*){_END}")
_MARKS = re.compile(f"[{_MM}{_IN}{_END}]")
_TOGETHER = "\N{NO-BREAK SPACE}"


def hundredths(nanometres: int) -> str:
    """mm to the hundredth; finer where that would hide which side of nothing it lies on."""
    millimetres = nanometres / NM_PER_MM
    text = f"{abs(millimetres):.2f}"
    if nanometres and text == "0.00":
        text = f"{abs(millimetres):.6f}".rstrip("0")
    return f"{MINUS}{text}" if millimetres < 0 and nanometres else text


def _inches(nanometres: int) -> str:
    return fixed(Fraction(nanometres, NM_PER_INCH), 4)


def length(nanometres: int) -> str:
    """`11.25 mm` and `0.4429 in`."""
    return _both(f"{hundredths(nanometres)} mm", f"{_inches(nanometres)} in")


def span(low: int, high: int) -> str:
    """`11.20 to 11.30 mm` and the same in inches; one length where the ends look the same."""
    mm = [fixed(Fraction(low, NM_PER_MM), 2, "down"), fixed(Fraction(high, NM_PER_MM), 2, "up")]
    if mm[0] == mm[1]:
        return length(low)
    inches = [fixed(Fraction(low, NM_PER_INCH), 4, "down"), fixed(Fraction(high, NM_PER_INCH), 4, "up")]
    return _both(f"{mm[0]} to {mm[1]} mm", f"{inches[0]} to {inches[1]} in")


def _both(mm: str, inch: str) -> str:
    return f"{_MM}{mm}{_IN}{inch}{_END}".replace(" ", _TOGETHER)


def typed(text: str) -> str:
    """Without characters that would pass for a mark."""
    return _MARKS.sub("\ufffd", text)


@lru_cache(maxsize=1 << 13)  # asked again for every width that is tried
def either(words: str) -> tuple[str, str]:
    """What stands there in millimetres and in inches; one of a length torn apart is left as it is."""
    if _MM not in words:
        return words, words
    return tuple(_MARKS.sub("", _BOTH.sub(rf"\{n}", words)) for n in (1, 2))  # type: ignore[return-value]


def pieces(words: str) -> list[tuple[str, str]]:
    """(text, "") for what stays and (mm, inch) for each length."""
    found: list[tuple[str, str]] = []
    at = 0
    for match in _BOTH.finditer(words):
        found += [(_MARKS.sub("", words[at : match.start()]), ""), (match[1], match[2])]
        at = match.end()
    return [*found, (_MARKS.sub("", words[at:]), "")]


def spelled(words: str) -> str:
    """Both at once, for those who hear the drawing and for pages with no room to switch: `11.25 mm / 0.4429 in`."""
    return _MARKS.sub("", _BOTH.sub(r"\1 / \2", words)).replace(_TOGETHER, " ")
