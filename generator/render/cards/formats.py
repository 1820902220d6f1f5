"""Sizes of cards and sheets, and where the cards, crop marks and the check ruler stand on a sheet; all in mm and pt."""

from collections.abc import Iterator
from dataclasses import dataclass

FOLDER = "cards"
MARK, MARK_GAP = 4.0, 1.5  # length of a crop mark, and how far it stays off the card
CHECK_RULER = 50.0


@dataclass(frozen=True, slots=True)
class Format:
    """One size of card: mm; type in pt, `small` for the line under a side only."""

    id: str
    title: str
    width: float
    height: float
    edge: float
    body: float
    strong: float
    small: float
    gap: float

    @property
    def inner_width(self) -> float:
        return self.width - 2 * self.edge

    @property
    def inner_height(self) -> float:
        return self.height - 2 * self.edge


# ISO/IEC 7810 gives ID-1 as 85.60 x 53.98 mm, ISO 216 gives A6 as 105 x 148 mm; body 10 pt, limits 12 pt (ISO/IEC Guide 37)
ID1 = Format("id1", "pocket card, 85.60 × 53.98 mm", 85.60, 53.98, 3.0, 10, 12, 8, 1.1)
A6 = Format("a6", "large print, A6", 105.0, 148.0, 6.0, 14, 16, 10, 2.0)
FORMATS = (ID1, A6)


@dataclass(frozen=True, slots=True)
class Sheet:
    """A sheet of paper with cards in columns and rows; backs change places so that they meet their fronts."""

    id: str
    title: str
    width: float
    height: float
    columns: int
    rows: int
    card: Format
    turn: str  # the edge the paper is turned over on

    @property
    def per_page(self) -> int:
        return self.columns * self.rows

    @property
    def left(self) -> float:
        return (self.width - self.columns * self.card.width) / 2

    @property
    def top(self) -> float:
        return (self.height - self.rows * self.card.height) / 2

    def place(self, at: int, back: bool) -> tuple[float, float]:
        """Upper left corner of card `at`; of backs the columns are mirrored."""
        row, column = divmod(at, self.columns)
        if back:
            column = self.columns - 1 - column
        return self.left + column * self.card.width, self.top + row * self.card.height

    def marks(self) -> Iterator[tuple[float, float, float, float]]:
        """x, y, x, y of each crop mark: at both ends of every line that is cut."""
        right, bottom = self.left + self.columns * self.card.width, self.top + self.rows * self.card.height
        for n in range(self.columns + 1):
            x = self.left + n * self.card.width
            yield x, self.top - MARK_GAP - MARK, x, self.top - MARK_GAP
            yield x, bottom + MARK_GAP, x, bottom + MARK_GAP + MARK
        for n in range(self.rows + 1):
            y = self.top + n * self.card.height
            yield self.left - MARK_GAP - MARK, y, self.left - MARK_GAP, y
            yield right + MARK_GAP, y, right + MARK_GAP + MARK, y


A4, LETTER = (210.0, 297.0), (215.9, 279.4)
# A6 cards lie two to a sheet on its long side, since four would leave no room that a home printer can print on
SHEETS = (
    Sheet("a4", "A4", *A4, 2, 5, ID1, "long"),
    Sheet("letter", "Letter", *LETTER, 2, 4, ID1, "long"),
    Sheet("a4", "A4", *A4[::-1], 2, 1, A6, "short"),
    Sheet("letter", "Letter", *LETTER[::-1], 2, 1, A6, "short"),
)
