"""Every link on every chain and every bike in a few bytes, so that both labels together lead to their verdict."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from generator.compute.fit.result import PairFit
from generator.render.base.verdicts import shown_verdict
from generator.render.pages.book import Book
from generator.render.pages.fit_rows import panel_of
from generator.render.say.rungs import BY

DIGITS = "0123456789abcdefghijklmnopqrstuvwxyz"
# a chain; a character a link, which stands for twice the place in `says` plus one for a page of its own; and the links
# whose page has a panel for the bike, with its name
GridRow = tuple[str, str, Mapping[str, str]]


@dataclass(frozen=True, slots=True)
class PairGrid:
    """`rows` by the label of a chain or bike; `words` are the verdicts that `says` begin with."""

    links: tuple[str, ...]
    says: tuple[str, ...]
    words: tuple[str, ...]
    rows: Mapping[str, GridRow]


def pair_grid(book: Book) -> PairGrid:
    every = [*book.fits, *(fit for fits in book.by_bike.values() for fit in fits)]
    links = tuple(sorted({fit.link for fit in book.fits}))
    said = sorted({(verdict_said(fit), fit.word) for fit in every})
    says = tuple(text for text, _ in said)
    on: dict[str, GridRow] = {
        chain: (chain, _characters(fits, links, says), {}) for chain, fits in book.of_chain.items() if fits
    }
    on |= {
        bike: (book.dataset.bikes[bike].record.chain, _characters(fits, links, says), _panels(book, bike))
        for bike, fits in book.by_bike.items()
        if fits
    }
    return PairGrid(links, says, tuple(word for _, word in said), dict(sorted(on.items())))


def _characters(fits: Iterable[PairFit], links: tuple[str, ...], says: tuple[str, ...]) -> str:
    found = {fit.link: fit for fit in fits}
    return "".join(DIGITS[2 * says.index(verdict_said(found[link])) + found[link].own_page] for link in links)


def _panels(book: Book, bike: str) -> dict[str, str]:
    named = {fit.link: panel_of(book, fit, bike) for fit in book.by_bike[bike] if fit.own_page}
    return {link: panel for link, panel in named.items() if panel}


def verdict_said(fit: PairFit) -> str:
    """The verdict, how far it was tried, what is open."""
    shown = shown_verdict(fit.word, fit.best, fit.worst)
    if fit.word == "proper":
        how = f"{BY[fit.strength]}: dry-fit first" if fit.strength in BY else "dry-fitted"
        return f"{shown.label}, {how}"
    return f"{shown.label}: {shown.span}" if shown.span else shown.label
