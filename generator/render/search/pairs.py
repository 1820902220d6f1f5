"""Every pair of chain and link in a few bytes, so that both labels together lead to their pair and its verdict.

Goes in: all fits.  Comes out: for each chain a text with one character a link.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from generator.compute.fit.result import PairFit
from generator.render.base.verdicts import shown_verdict

DIGITS = "0123456789abcdefghijklmnopqrstuvwxyz"


@dataclass(frozen=True, slots=True)
class PairGrid:
    """`rows` by chain; the character stands for twice the place in `says`, plus one for a page of its own."""

    links: tuple[str, ...]
    says: tuple[str, ...]
    rows: Mapping[str, str]


def pair_grid(fits: Iterable[PairFit]) -> PairGrid:
    by_pair = {(fit.chain, fit.link): fit for fit in fits}
    links = tuple(sorted({link for _, link in by_pair}))
    says = tuple(sorted({verdict_said(fit) for fit in by_pair.values()}))
    rows = {
        chain: "".join(_character(by_pair[chain, link], says) for link in links)
        for chain in sorted({chain for chain, _ in by_pair})
    }
    return PairGrid(links, says, rows)


def _character(fit: PairFit, says: tuple[str, ...]) -> str:
    return DIGITS[2 * says.index(verdict_said(fit)) + fit.own_page]


def verdict_said(fit: PairFit) -> str:
    """As the tables of fits say it."""
    shown = shown_verdict(fit.word, fit.best, fit.worst)
    if fit.word == "proper":
        return (
            f"{shown.label}, {'dry-fitted' if fit.strength == 'dry-fitted' else 'by numbers: dry-fit first'}"
        )
    return f"{shown.label}: {shown.span}" if shown.span else shown.label
