"""What is left once a clip is gone: lines for the page of a pair, of a chain and of a bike.

Goes in: a dataset and a fit.  Comes out: each makeshift with its verdict and what to do.
"""

from dataclasses import dataclass

from generator.compute.fit.clip_lost import TABLE, Makeshift, makeshifts
from generator.compute.fit.result import PairFit
from generator.model.dataset import Dataset
from generator.render.base.routes import pair_route, part_route
from generator.render.base.verdicts import ShownVerdict
from generator.render.pages.book import Book
from generator.render.pages.facts import Anchor
from generator.render.pages.pair_tables import range_verdict
from generator.render.say.cautions import ShortCaution, short_caution
from generator.render.say.said import Said, figures_for

ANCHOR = "clip-lost"
PAGE = "clip-lost/"
WITHOUT = {
    "clip": "If the clip is lost on the way",
    "rivet": "Without a riveter",
    "screw": "If its nuts are lost",
}


@dataclass(frozen=True, slots=True)
class MakeshiftLine:
    """One way to go on without the clip."""

    title: str
    verdict: ShownVerdict
    says: Said
    worst: int
    best: int


@dataclass(frozen=True, slots=True)
class LostClip:
    """What a chain is left with when the joint it runs with loses its clip; `says` where there is nothing to list."""

    title: str
    link: Anchor | None
    says: str
    lines: tuple[MakeshiftLine, ...]
    pair: str
    first: ShortCaution | None
    closure: str = "clip"  # of the link it runs with, as far as that is known


def makeshift_lines(dataset: Dataset, fit: PairFit) -> tuple[MakeshiftLine, ...]:
    """The best first."""
    lines = (_line(dataset, found) for found in makeshifts(dataset, fit))
    return tuple(sorted(lines, key=lambda line: (line.worst, line.best)))


def lost_clip(book: Book, chain: str) -> LostClip:
    """Of the link the chain runs with, as far as that is written down."""
    dataset = book.dataset
    own = dataset.chains[chain].record.own_link or ""
    if own not in dataset.links:
        says = "It is not written down which link this chain runs with, so nothing can be said for its own joint."
        return LostClip(WITHOUT["clip"], None, says, (), "", None)
    fit = next(fit for fit in book.of_chain[chain] if fit.link == own)
    lines = makeshift_lines(dataset, fit)
    return LostClip(
        title=WITHOUT[dataset.links[own].record.closure],
        link=Anchor(own, part_route("link", own)),
        says="" if lines else "Nothing is left that is better than no-go: do not ride on it.",
        lines=lines,
        pair=f"{pair_route(fit)}#{ANCHOR}" if lines and fit.own_page else "",
        first=short_caution(dataset.shelf.cautions) if lines else None,
        closure=dataset.links[own].record.closure,
    )


def _line(dataset: Dataset, found: Makeshift) -> MakeshiftLine:
    rule = dataset.shelf.other_rules[TABLE][found.rule_id]
    says: Said = (rule.says,)
    if found.clearance is not None:
        figures = figures_for((found.clearance.nominal,))
        where = "short of" if found.clearance.nominal < 0 else "clear of"
        says = (
            rule.says,
            " Here the plate sits ",
            figures.amount(found.clearance.nominal),
            f" {where} the groove.",
        )
    verdict = range_verdict(found.best, found.worst)
    return MakeshiftLine(rule.title, verdict, says, found.worst, found.best)
