"""How wide words come out, and where they are broken."""

import re
from functools import lru_cache
from unicodedata import combining, east_asian_width

FONT = 12.0
LEFT, RIGHT = 12.0, 348.0

# em widths a little above those of DejaVu Sans, the widest face a page is likely to fall back to
_EM = {
    **dict.fromkeys("iIjl'|", 0.32),
    **dict.fromkeys(" \N{NO-BREAK SPACE}.,:;!", 0.36),
    **dict.fromkeys('ftr/\\-()[]"', 0.43),
    **dict.fromkeys("w~+=<>\N{MINUS SIGN}\N{MULTIPLICATION SIGN}\N{PLUS-MINUS SIGN}", 0.85),
    **dict.fromkeys("mMW@%\N{EM DASH}\N{HORIZONTAL ELLIPSIS}", 1.02),
}
BOLD = 1.14


def text_width(text: str, size: float = FONT) -> float:
    """An estimate on the wide side of common sans-serif faces."""
    return size * _ems(text)


@lru_cache(maxsize=8192)  # the drawings of a handbook say the same words over and over
def _ems(text: str) -> float:
    return sum(_em(char) for char in text)


def _em(char: str) -> float:
    if char in _EM:
        return _EM[char]
    if combining(char):
        return 0.0
    if east_asian_width(char) in "WF" or ord(char) > 0x2FFF:
        return 1.3
    return 0.65 if char.islower() or char.isdigit() else 0.8


def wrap(text: str, width: float, size: float = FONT) -> tuple[str, ...]:
    """Lines no wider than width; a word too long for one is broken, nothing is dropped."""
    lines = [""]
    for word in filter(None, re.split(r"[ \t\r\n]", text)):  # a length stays in one piece
        joined = f"{lines[-1]} {word}" if lines[-1] else word
        if text_width(joined, size) <= width:
            lines[-1] = joined
            continue
        pieces = _pieces(word, width, size)
        lines[-1:] = [lines[-1], *pieces] if lines[-1] else pieces
    return tuple(lines)


def _pieces(word: str, width: float, size: float) -> list[str]:
    pieces = [""]
    for char in word:
        if pieces[-1] and text_width(pieces[-1] + char, size) > width:
            pieces.append("")
        pieces[-1] += char
    return pieces
