"""Sizes of cards, labels and sheets, and where they, the crop marks and the check ruler stand; all in mm and pt."""

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
    code: float = 15.0  # side of a code with its quiet zone

    @property
    def inner_width(self) -> float:
        return self.width - 2 * self.edge

    @property
    def inner_height(self) -> float:
        return self.height - 2 * self.edge


A4, LETTER = (210.0, 297.0), (215.9, 279.4)
# ISO/IEC 7810 gives ID-1 as 85.60 x 53.98 mm, ISO 216 gives A6 as 105 x 148 mm; body 10 pt, limits 12 pt (ISO/IEC Guide 37)
ID1 = Format("id1", "pocket card, 85.60 × 53.98 mm", 85.60, 53.98, 3.0, 10, 12, 8, 1.1)
A6 = Format("a6", "large print, A6", 105.0, 148.0, 6.0, 14, 16, 10, 2.0, 20.0)
PAGE_A4 = Format("page-a4", "sheet for the bench, A4", *A4, 14.0, 12, 14, 9, 2.6, 20.0)
PAGE_LETTER = Format("page-letter", "sheet for the bench, Letter", *LETTER, 14.0, 12, 14, 9, 2.6, 20.0)
# sizes of labels that are sold on sheets of that paper
LABEL_A4 = Format("label-a4", "label, 63.5 × 38.1 mm", 63.5, 38.1, 2.5, 10, 12, 8, 0.8, 14.0)
LABEL_LETTER = Format("label-letter", "label, 4 × 2 in", 101.6, 50.8, 3.0, 10, 12, 8, 1.0, 18.0)
CARDS = (ID1, A6)
PAGES = (PAGE_A4, PAGE_LETTER)
LABELS = (LABEL_A4, LABEL_LETTER)
FORMATS = (*CARDS, *PAGES, *LABELS)


@dataclass(frozen=True, slots=True)
class Sheet:
    """A sheet of paper with cards in columns and rows; backs change places so that they meet their fronts.

    `turn` is the edge the paper is turned over on, empty where nothing stands behind.  Labels have a gap between columns
    and are `ready`: cut already.
    """

    id: str
    title: str
    width: float
    height: float
    columns: int
    rows: int
    card: Format
    turn: str = ""
    gap: float = 0.0
    ready: bool = False

    @property
    def per_page(self) -> int:
        return self.columns * self.rows

    @property
    def left(self) -> float:
        return (self.width - self.columns * self.card.width - (self.columns - 1) * self.gap) / 2

    @property
    def top(self) -> float:
        return (self.height - self.rows * self.card.height) / 2

    @property
    def bottom(self) -> float:
        """Where the last row ends."""
        return self.top + self.rows * self.card.height

    def place(self, at: int, back: bool) -> tuple[float, float]:
        """Upper left corner of card `at`; of backs the columns are mirrored."""
        row, column = divmod(at, self.columns)
        if back:
            column = self.columns - 1 - column
        return self.left + column * (self.card.width + self.gap), self.top + row * self.card.height

    def marks(self) -> Iterator[tuple[float, float, float, float]]:
        """x, y, x, y of each crop mark: at both ends of every line that is cut."""
        if self.ready:
            return
        right = self.left + self.columns * self.card.width
        for n in range(self.columns + 1):
            x = self.left + n * self.card.width
            yield x, self.top - MARK_GAP - MARK, x, self.top - MARK_GAP
            yield x, self.bottom + MARK_GAP, x, self.bottom + MARK_GAP + MARK
        for n in range(self.rows + 1):
            y = self.top + n * self.card.height
            yield self.left - MARK_GAP - MARK, y, self.left - MARK_GAP, y
            yield right + MARK_GAP, y, right + MARK_GAP + MARK, y


# A6 cards lie two to a sheet on its long side, since four would leave no room that a home printer can print on
SHEETS = (
    Sheet("a4", "A4", *A4, 2, 5, ID1, "long"),
    Sheet("letter", "Letter", *LETTER, 2, 4, ID1, "long"),
    Sheet("a4", "A4", *A4[::-1], 2, 1, A6, "short"),
    Sheet("letter", "Letter", *LETTER[::-1], 2, 1, A6, "short"),
)
LABEL_SHEETS = (
    Sheet("a4", "A4", *A4, 3, 7, LABEL_A4, gap=2.54, ready=True),
    Sheet("letter", "Letter", *LETTER, 2, 5, LABEL_LETTER, gap=4.77, ready=True),
)
