"""Where words go in a drawing so that they never overlap.

Goes in: words with the point or span they belong to.  Comes out: boxes in rows, no two of which meet.
"""

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal
from unicodedata import combining, east_asian_width

from generator.render.drawings.units import either

Anchor = Literal["start", "middle", "end"]

FONT = 12.0
ROW = 16.0
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
    """An estimate on the wide side of common sans-serif faces; of lengths in the unit that takes more room."""
    return size * max(map(_ems, either(text)))


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


@dataclass(frozen=True, slots=True)
class Box:
    """A line of text: left end, width and row, rows counted away from the drawing."""

    words: str
    x: float
    width: float
    row: int
    anchor: Anchor = "start"

    @property
    def at(self) -> float:
        """Where the text is anchored, so that a face narrower than the estimate stays beside its line."""
        return self.x + self.width * {"start": 0.0, "middle": 0.5, "end": 1.0}[self.anchor]

    def meets(self, low: float, high: float) -> bool:
        return self.x < high and low < self.x + self.width


@dataclass(frozen=True, slots=True)
class Flag:
    """A part's name on a pole that stands at x on the drawing's edge."""

    box: Box
    x: float


def spread(points: Sequence[float], apart: float, low: float, high: float) -> tuple[float, ...]:
    """The points in the same order, moved as little as keeps them apart and inside."""
    apart = min(apart, (high - low) / max(1, len(points)))
    order = sorted(range(len(points)), key=lambda i: (points[i], i))
    placed: dict[int, float] = {}
    floor = low
    for i in order:
        placed[i] = floor = max(points[i], floor)
        floor += apart
    ceiling = high
    for i in reversed(order):
        placed[i] = ceiling = min(placed[i], ceiling)
        ceiling -= apart
    return tuple(placed[i] for i in range(len(points)))


def flags(names: Sequence[tuple[str, float, float]], keep_clear: Iterable[float] = ()) -> tuple[Flag, ...]:
    """Names above parts that reach from x to x; poles cross no name where that can be had, names never meet."""
    clear = tuple(keep_clear)
    count = len(names)
    orders = [range(count), range(count - 1, -1, -1), [*range(1, count, 2), *range(0, count, 2)]]
    tries = [_hoist(names, order, clear) for order in orders]
    flown, _ = min(tries, key=lambda done: (done[1], max((f.box.row for f in done[0]), default=0)))
    return flown


def _hoist(
    names: Sequence[tuple[str, float, float]], order: Iterable[int], clear: Sequence[float]
) -> tuple[tuple[Flag, ...], int]:
    """Flags in the order of names, raised in the order asked for, and how many had to cross something."""
    poles = spread([(low + high) / 2 for _, low, high in names], 7.0, LEFT + 2, RIGHT - 2)
    done: dict[int, Flag] = {}
    crossed = 0
    for i in order:
        words, low, high = names[i]
        stands = [poles[i], low + 4, high - 4] if high - low > 12 and low < poles[i] < high else [poles[i]]
        flag = _free_flag(words, stands, tuple(done.values()), clear)
        crossed += flag is None
        done[i] = flag or _last_flag(words, poles[i], tuple(done.values()))
    return tuple(done[i] for i in range(len(names))), crossed


def _free_flag(
    words: str, stands: Sequence[float], done: Sequence[Flag], clear: Sequence[float]
) -> Flag | None:
    width = text_width(words) + 4
    for row in range(len(done) + 1):
        for x in stands:
            for left in (x - 2, x - width + 2, x - width / 2):
                flag = Flag(Box(words, left, width, row), x)
                if _flies(flag, done, clear):
                    return flag
    return None


def _last_flag(words: str, x: float, done: Sequence[Flag]) -> Flag:
    """A row of its own above all others."""
    width = text_width(words) + 4
    left = min(max(x - 2, LEFT), max(LEFT, RIGHT - width))
    return Flag(Box(words, left, width, max((f.box.row for f in done), default=-1) + 1), x)


def _flies(flag: Flag, done: Sequence[Flag], clear: Sequence[float]) -> bool:
    box = flag.box
    if box.x < LEFT or box.x + box.width > RIGHT or any(box.meets(x - 3, x + 3) for x in clear):
        return False
    return not any(
        (other.box.row == box.row and other.box.meets(box.x - 4, box.x + box.width + 4))
        or (other.box.row > box.row and box.meets(other.x - 2, other.x + 2))
        or (other.box.row < box.row and other.box.meets(flag.x - 2, flag.x + 2))
        for other in done
    )


@dataclass(frozen=True, slots=True)
class Span:
    """A dimension line from x1 to x2 (equal ends and no line: words only) and its words."""

    words: str
    x1: float
    x2: float
    bare: bool = False


@dataclass(frozen=True, slots=True)
class Placed:
    """A span in its row; its words stand beside the line, on it, or on rows of their own below it."""

    span: Span
    row: int
    boxes: tuple[Box, ...]


@dataclass(frozen=True, slots=True)
class _Fit:
    """Lines of words, their left end and anchor, and the room taken; below: the words need rows of their own."""

    lines: tuple[str, ...]
    left: float
    anchor: Anchor
    room: tuple[float, float]
    below: bool = False


def stack(spans: Sequence[Span]) -> tuple[tuple[Placed, ...], int]:
    """Spans first-fit in rows below the drawing, and the number of rows used."""
    taken: dict[int, list[tuple[float, float]]] = {}
    placed = []
    for span in spans:
        fit = _fit(span)
        count = len(fit.lines) + fit.below
        row = _free_row(taken, count, fit.room)
        for used in range(row, row + count):
            taken.setdefault(used, []).append(fit.room)
        boxes = tuple(
            Box(words, fit.left, text_width(words), row + fit.below + i, fit.anchor)
            for i, words in enumerate(fit.lines)
        )
        placed.append(Placed(span, row, boxes))
    return tuple(placed), max(taken, default=-1) + 1


def _fit(span: Span) -> _Fit:
    """On the line where it is long enough, else right of it, left of it, or below."""
    low, high = min(span.x1, span.x2), max(span.x1, span.x2)
    width = text_width(span.words)
    if span.bare:
        lines = wrap(span.words, RIGHT - LEFT)
        return _Fit(lines, LEFT, "start", (LEFT, LEFT + max(text_width(words) for words in lines)))
    if width + 6 <= high - low:
        return _Fit((span.words,), (low + high - width) / 2, "middle", (low, high))
    if high + 6 + width <= RIGHT:
        return _Fit((span.words,), high + 6, "start", (low, high + 6 + width))
    if low - 6 - width >= LEFT:
        return _Fit((span.words,), low - 6 - width, "end", (low - 6 - width, high))
    return _Fit(wrap(span.words, RIGHT - LEFT), LEFT, "start", (LEFT, RIGHT), below=True)


def _free_row(taken: dict[int, list[tuple[float, float]]], count: int, room: tuple[float, float]) -> int:
    row = 0
    while any(
        room[0] < high + 8 and low < room[1] + 8
        for used in range(row, row + count)
        for low, high in taken.get(used, ())
    ):
        row += 1
    return row
