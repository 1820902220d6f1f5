"""Wear strips, life-size: where an even number of pitches ends on a new chain and on one at its limit."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from generator.compute.wear.limits import limit_of_chain
from generator.model.elongation import pitch_of_size
from generator.model.quantity import NM_PER_MM
from generator.render.cards.desk import Desk
from generator.render.cards.formats import A4, FOLDER, LETTER

CHECK = 250.0  # mm, the ruler that tells whether the print was scaled
_KINDS = {"plain": "plain", "sealed": "sealed", "unknown": "of unknown kind"}
_EDGE = 8.0  # mm that home printers leave white
_FIRST, _APART, _TALL = (
    34.0,
    30.0,
    12.0,
)  # first strip from the left edge, the next ones, and the marks of one


@dataclass(frozen=True, slots=True)
class Line:
    """From x, y to x, y in mm; `ink` in pt."""

    x1: float
    y1: float
    x2: float
    y2: float
    ink: float


@dataclass(frozen=True, slots=True)
class Words:
    """A text whose upper left corner is at x, y in mm, `size` in pt, turned along the strip."""

    x: float
    y: float
    text: str
    size: float
    bold: bool = False


@dataclass(frozen=True, slots=True)
class StripSheet:
    """A sheet on its long side with strips and the check ruler."""

    file: str
    subject: str
    sheet: str
    title: str
    width: float
    height: float
    lines: tuple[Line, ...]
    words: tuple[Words, ...]


@dataclass(frozen=True, slots=True)
class Strip:
    """Chains of one pitch and one limit, by size code and kind."""

    pitch: int
    percent: Fraction
    chains: tuple[str, ...]

    def count(self, room: float) -> int:
        """The greatest even number of pitches whose worn length still stands on the sheet."""
        worn = self.pitch * (1 + self.percent / 100)
        return int(room * NM_PER_MM / worn) // 2 * 2

    def new(self, count: int) -> float:
        return float(Fraction(count * self.pitch, NM_PER_MM))

    def worn(self, count: int) -> float:
        return float(Fraction(count * self.pitch, NM_PER_MM) * (1 + self.percent / 100))


def strips_of(desk: Desk) -> tuple[Strip, ...]:
    """One for each pitch and limit that some chain of the club has."""
    found: dict[tuple[int, Fraction], set[str]] = {}
    for chain in desk.dataset.chains.values():
        pitch = pitch_of_size(desk.dataset.shelf.sizes, chain.record.size_code)
        if pitch is not None:
            key = pitch, limit_of_chain(desk.dataset, chain).percent
            found.setdefault(key, set()).add(f"{chain.record.size_code} {_KINDS[chain.record.kind]}")
    return tuple(
        Strip(pitch, percent, tuple(sorted(names))) for (pitch, percent), names in sorted(found.items())
    )


def strip_sheets(desk: Desk, foot: str) -> Iterator[StripSheet]:
    """Every strip of the club, as many to a sheet as stand on it, for both papers."""
    strips = strips_of(desk)
    for id_, (short, long) in {"a4": A4, "letter": LETTER}.items():
        most = int((short - _FIRST - 30.0) / _APART)
        for first in range(0, len(strips), most):
            number = f"{first // most + 1}" if len(strips) > most else ""
            here = strips[first : first + most]
            yield _sheet(f"{FOLDER}/strip-all{number}-{id_}.pdf", id_, long, short, here, foot)


def _sheet(
    file: str, sheet: str, width: float, height: float, strips: Sequence[Strip], foot: str
) -> StripSheet:
    left = (width - CHECK) / 2 if width - 2 * _EDGE < CHECK + 12 else _EDGE + 2
    lines: list[Line] = []
    words = [
        Words(left, 10.0, "Wear strips, life-size", 14, bold=True),
        Words(
            left,
            17.0,
            "Lay the chain taut along a strip, the left edge of one pin head on the line 0, and count the pitches from pin to pin.",
            11,
        ),
        Words(
            left,
            22.5,
            "The left edge of the last pin head at LIMIT or beyond: worn out. Do it at three places; the worst one counts.",
            11,
        ),
    ]
    for n, strip in enumerate(strips):
        _draw(strip, left, _FIRST + n * _APART, width - left - _EDGE, lines, words)
    _check(left, height - 27.0, lines, words)
    words.append(Words(left, height - 12.0, foot, 9))
    return StripSheet(file, "all", sheet, "Wear strips", width, height, tuple(lines), tuple(words))


def _draw(strip: Strip, left: float, top: float, room: float, lines: list[Line], words: list[Words]) -> None:
    """Base line, a tick a pitch, 0, new and limit."""
    count = strip.count(room)
    new, worn = left + strip.new(count), left + strip.worn(count)
    base = top + _TALL
    lines.append(Line(left, base, worn, base, 0.6))
    lines.extend(Line(x, base - 4.0, x, base, 0.4) for x in (left + strip.new(n) for n in range(1, count)))
    lines.append(Line(left, top, left, base, 0.8))
    lines.append(Line(new, top, new, base, 0.4))
    lines.append(Line(worn, top - 2.0, worn, base + 2.0, 1.4))
    pitch, percent = float(Fraction(strip.pitch, NM_PER_MM)), float(strip.percent)
    words.append(Words(left + 1.5, top, "0", 12, bold=True))
    words.append(
        Words(left + 30.0, top, f"{count} pitches of {pitch:g} mm, limit {percent:g} %", 12, bold=True)
    )
    words.append(Words(new - 12.0, top, "NEW", 12, bold=True))
    words.append(Words(worn - 14.0, base + 1.0, "LIMIT", 12, bold=True))
    words.append(Words(left, base + 1.5, f"For {', '.join(strip.chains)}", 10))


def _check(left: float, top: float, lines: list[Line], words: list[Words]) -> None:
    """A ruler of 250 mm with a tick every 10."""
    lines.append(Line(left, top, left + CHECK, top, 0.6))
    for n in range(26):
        tall = 5.0 if n % 5 == 0 else 3.0
        lines.append(Line(left + n * 10.0, top, left + n * 10.0, top + tall, 0.4))
    says = "Check: 250 mm from the first to the last line. Off by more than 0.5 mm: the print was scaled, do not use it."
    words.append(Words(left, top + 6.0, says, 12, bold=True))
