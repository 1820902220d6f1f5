"""Fits by their verdict: some rows, the rest folded, and labels of what one check rules out at a glance."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from generator.compute.fit.result import PairFit
from generator.compute.grouped import grouped
from generator.model.shipped import RUNGS
from generator.render.base.components import FitRow
from generator.render.base.routes import pair_route
from generator.render.pages.book import Book
from generator.render.pages.fit_rows import SECTIONS, chain_row, link_row, of_section
from generator.render.say.bike import section_title
from generator.render.say.panel import SECTION_SAYS
from generator.render.say.reasons import reason_title
from generator.render.say.rungs import NOT_SETTLED

SHOWN = 4  # of a long section before its rest is folded
NO_GO = RUNGS[3]
Labels = tuple[tuple[str, str], ...]  # label and address


@dataclass(frozen=True, slots=True)
class FitSection:
    """`ruled_out` are labels under the name of the check that rules them out; `labels` are all, for a sheet of paper."""

    id: str
    word: str
    title: str
    says: str
    rows: tuple[FitRow, ...]
    rest: tuple[FitRow, ...]
    ruled_out: tuple[tuple[str, Labels], ...]
    labels: tuple[str, ...]
    open: bool


def sections_of(
    book: Book, fits: Sequence[PairFit], bike: str | None = None, own: PairFit | None = None
) -> tuple[FitSection, ...]:
    """The links on a chain or a bike, no-go too; the one it runs with stands above them."""

    def row(fit: PairFit) -> FitRow:
        return link_row(book, fit, bike, numbers=bike is not None and fit.word not in (NO_GO, "cannot-judge"))

    return _sections(book, fits, own, row, lambda fit: fit.link)


def chain_sections_of(book: Book, fits: Sequence[PairFit]) -> tuple[FitSection, ...]:
    """The chains for a link."""
    return _sections(book, fits, None, lambda fit: chain_row(book, fit), lambda fit: fit.chain)


def _sections(
    book: Book,
    fits: Sequence[PairFit],
    own: PairFit | None,
    row: Callable[[PairFit], FitRow],
    label: Callable[[PairFit], str],
) -> tuple[FitSection, ...]:
    found = []
    for word in SECTIONS:
        group = of_section(fits, word)
        others = tuple(fit for fit in group if fit is not own)
        if group:
            found.append(_section(book, word, others, len(others) < len(group), row, label))
    return tuple(found)


def _section(
    book: Book,
    word: str,
    fits: Sequence[PairFit],
    also: bool,
    row: Callable[[PairFit], FitRow],
    label: Callable[[PairFit], str],
) -> FitSection:
    near = tuple(fit for fit in fits if fit.own_page)
    counted = book.brief and word == NO_GO  # of these a large club has most of all
    rows = () if counted else tuple(row(fit) for fit in near)
    shown = SHOWN if word in ("get-home", NOT_SETTLED) else len(rows)
    return FitSection(
        id=word,
        word="measure-first" if word == NOT_SETTLED else word,
        title=section_title(word, len(fits), also),
        says=SECTION_SAYS.get(word, ""),
        rows=rows[:shown],
        rest=rows[shown:],
        ruled_out=_ruled_out(book, tuple(fit for fit in fits if counted or not fit.own_page), label),
        labels=tuple(label(fit) for fit in fits),
        open=word in RUNGS[:3],
    )


def _ruled_out(
    book: Book, fits: Sequence[PairFit], label: Callable[[PairFit], str]
) -> tuple[tuple[str, Labels], ...]:
    groups = grouped(fits, lambda fit: reason_title(book.dataset, fit))
    return tuple(
        (title, tuple((label(fit), pair_route(fit)) for fit in group)) for title, group in groups.items()
    )
