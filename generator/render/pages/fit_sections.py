"""Verdicts by what a rider may do with them: some rows, the rest folded, and labels of what one check rules out."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import Protocol

from generator.compute.fit.result import PairFit, Word, word_of
from generator.compute.grouped import grouped
from generator.model.shipped import RUNGS
from generator.render.base.components import Chip, FitRow
from generator.render.base.routes import pair_route
from generator.render.base.verdicts import best_first
from generator.render.pages.book import Book
from generator.render.pages.fit_rows import chain_row, link_row
from generator.render.say.bike import section_title
from generator.render.say.panel import SECTION_SAYS
from generator.render.say.reasons import reason_title
from generator.render.say.rungs import NOT_SETTLED

SHOWN = 4  # of a long section before its rest is folded
ON_PAPER = 2  # rows of a section: a sheet has room for the labels of all, not for their rows
ABOVE = "runs"  # the anchor of the row that stands above all sections
NO_GO = RUNGS[3]
# the words of a chip, in the order of its section on the page
SECTIONS = (*RUNGS, NOT_SETTLED)
Labels = tuple[tuple[str, str, str], ...]  # label, address, what of it is meant


class Judged(Protocol):
    """What has a verdict."""

    @property
    def word(self) -> Word: ...


@dataclass(frozen=True, slots=True)
class Entry:
    """One verdict of a page; `glance` is the check that says all there is to say, so that a label stands for a row;
    `of` stands after the label, where not all of what it names is meant."""

    best: int | None
    worst: int | None
    row: Callable[[], FitRow]
    label: str
    to: str
    glance: str = ""
    above: bool = False  # it stands above all sections already
    of: str = ""

    @property
    def named(self) -> str:
        return f"{self.label}: {self.of}" if self.of else self.label

    @property
    def word(self) -> Word:
        return word_of(self.best, self.worst)


@dataclass(frozen=True, slots=True)
class FitSection:
    """`ruled_out` are labels under the name of their check; `paper` those that a sheet of paper has no row for."""

    id: str
    word: str
    title: str
    says: str
    rows: tuple[FitRow, ...]
    rest: tuple[FitRow, ...]
    ruled_out: tuple[tuple[str, Labels], ...]
    paper: tuple[str, ...]
    open: bool


def link_entries(
    book: Book, fits: Iterable[PairFit], bike: str | None = None, own: PairFit | None = None
) -> tuple[Entry, ...]:
    """The links on a chain or a bike, no-go too."""

    def row(fit: PairFit) -> FitRow:
        return link_row(book, fit, bike, numbers=bike is not None and fit.word not in (NO_GO, "cannot-judge"))

    return tuple(_entry(book, fit, row, fit.link, fit is own) for fit in fits)


def chain_entries(book: Book, fits: Iterable[PairFit]) -> tuple[Entry, ...]:
    """The chains for a link."""
    return tuple(_entry(book, fit, lambda fit: chain_row(book, fit), fit.chain, False) for fit in fits)


def _entry(book: Book, fit: PairFit, row: Callable[[PairFit], FitRow], label: str, above: bool) -> Entry:
    # of the no-gos a large club has most of all
    short = not fit.own_page or (book.brief and fit.word == NO_GO)
    glance = reason_title(book.dataset, fit) if short else ""
    return Entry(fit.best, fit.worst, lambda: row(fit), label, pair_route(fit), glance, above)


def section_of(judged: Judged) -> str:
    """The word it is counted under."""
    return judged.word if judged.word in RUNGS else NOT_SETTLED


def chips_from(judged: Iterable[Judged], stem: str = "") -> tuple[Chip, ...]:
    """How many of each there are, what there is none of left out; one whose only row stands above leads there."""
    groups = grouped(judged, section_of)
    return tuple(
        Chip(
            word="measure-first" if word == NOT_SETTLED else word,
            label="not settled" if word == NOT_SETTLED else word,
            count=len(groups[word]),
            to=ABOVE if all(getattr(each, "above", False) for each in groups[word]) else f"{stem}{word}",
        )
        for word in SECTIONS
        if word in groups
    )


def sections_from(entries: Iterable[Entry], stem: str = "") -> tuple[FitSection, ...]:
    """Best first; `stem` keeps apart the anchors of two lists on one page."""
    groups = grouped(entries, section_of)
    # where nothing goes, what is not settled is what a reader can do something about
    opened = [word for word in RUNGS[:3] if word in groups] or [word for word in SECTIONS if word in groups][
        -1:
    ]
    return tuple(
        _section(word, groups[word], stem, word in opened)
        for word in SECTIONS
        if any(not entry.above for entry in groups.get(word, ()))
    )


def _section(word: str, group: Sequence[Entry], stem: str, opened: bool) -> FitSection:
    entries = sorted(
        (entry for entry in group if not entry.above),
        key=lambda entry: (best_first(entry.best, entry.worst), entry.named),
    )
    near = [entry for entry in entries if not entry.glance]
    rows = tuple(entry.row() for entry in near)
    shown = 2 * SHOWN if word in (RUNGS[0], NO_GO) else SHOWN
    by_check = grouped((entry for entry in entries if entry.glance), lambda entry: entry.glance)
    return FitSection(
        id=f"{stem}{word}",
        word="measure-first" if word == NOT_SETTLED else word,
        title=section_title(word, len(entries), also=len(entries) < len(group)),
        says=SECTION_SAYS.get(word, ""),
        rows=rows[:shown],
        rest=rows[shown:],
        ruled_out=tuple(
            (title, tuple((entry.label, entry.to, entry.of) for entry in some))
            for title, some in by_check.items()
        ),
        paper=tuple(entry.named for entry in entries if not opened or entry not in near[:ON_PAPER]),
        open=opened,
    )
