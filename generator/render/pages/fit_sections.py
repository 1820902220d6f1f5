"""Fits under true headings: what goes on, what is not tested, what cannot be judged, what must not go on.

Goes in: a book, the fits of one part, and how to make a table of some.  Comes out: sections, best first.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from generator.compute.fit.result import PairFit
from generator.render.base.table import Table
from generator.render.pages.book import Book, sorted_out

# id of the table, caption, fits, at least one
MakeTable = Callable[[str, str, Sequence[PairFit]], Table]


@dataclass(frozen=True, slots=True)
class FitSection:
    """A heading with its anchor, a sentence, and a table or, where none is to be shown, the number of rows."""

    id: str
    title: str
    says: str
    table: Table | None
    count: int


def fit_sections(
    book: Book, fits: Sequence[PairFit], stem: str, it: str, make: MakeTable
) -> tuple[FitSection, ...]:
    """`stem` starts the names of the files, `it` is what the captions speak of.

    The first section is there even where it is empty; what is no-go is only counted where there are many pairs.
    """
    found = sorted_out(fits)
    plans = (
        ("goes", f"What goes with {it}, best first", "", found.goes_on),
        ("open", f"Not tested with {it}, best first", NOT_TESTED, found.not_tested),
        ("look", f"Not to be judged with {it}", NOT_JUDGED, found.not_judged),
        ("no-go", f"What must not go with {it}", NO_GO, found.no_go),
    )
    return tuple(
        FitSection(
            id=ANCHORS[kind],
            title=TITLES[kind],
            says=says,
            table=make(f"{stem}-{kind}", caption, some)
            if some and not (book.brief and kind == "no-go")
            else None,
            count=len(some),
        )
        for kind, caption, says, some in plans
        if some or kind == "goes"
    )


NOT_TESTED = (
    "What is known leaves several verdicts open. Until it is measured or dry-fitted treat each as its worst."
)
NOT_JUDGED = (
    "Something that no reading settles is not known of these. Look at them, and do not count on them."
)
NO_GO = "Do not fit these: they can lock the wheel or hole the engine."
TITLES = {
    "goes": "What goes on",
    "open": "Not tested: measure first",
    "look": "Cannot be judged: look at it",
    "no-go": "What must not go on",
}
ANCHORS = {"goes": "links", "open": "measure-first", "look": "look-at-it", "no-go": "no-go"}
