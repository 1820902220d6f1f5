"""What a part goes with, never said better than the joint it ends up in."""

from collections.abc import Iterable, Sequence

from generator.compute.fit.result import word_of
from generator.compute.grouped import grouped
from generator.compute.others.result import NeighbourFit, PartFit
from generator.model.shipped import NO_GO
from generator.render.base.components import FitRow
from generator.render.base.routes import part_route
from generator.render.base.verdicts import best_first, shown_verdict
from generator.render.pages.book import Book
from generator.render.pages.fit_sections import Entry
from generator.render.say.checks import rule_of
from generator.render.say.joint import SEALS_SHORT
from generator.render.say.names import listed, named, parts_of, small_named
from generator.render.say.part_why import JOINT_DECIDES, neighbour_why, part_why
from generator.render.say.said import Said

# where one of these rules a part out for sure, a label says enough
AT_A_GLANCE = frozenset(("clip-spacing", "pitch", "plate-size", "strip-size", "strip-pitch", "tool-size"))
Range = tuple[int | None, int | None]
ANY: Range = (0, 0)  # as the part alone is judged
NO_JOINT: Range = (NO_GO, NO_GO)


def worse_of(one: Range, other: Range) -> Range:
    """What both allow; None for both where one of them gives no verdict, unless the other is a sure no-go."""
    if NO_GO in (one[0], other[0]):
        return NO_GO, NO_GO
    if one[0] is None or one[1] is None or other[0] is None or other[1] is None:
        return None, None
    return max(one[0], other[0]), max(one[1], other[1])


def best_joint(ranges: Iterable[Range]) -> Range:
    """The best of several; nothing to be said where there are none."""
    return min(ranges, key=lambda found: best_first(*found), default=(None, None))


def entry_of(book: Book, fit: PartFit, kind: str, joint: Range = ANY) -> Entry:
    """A part it meets, as a row with one sentence of reason; `joint` is the best it ends up in."""
    best, worst = worse_of((fit.best, fit.worst), joint)
    id_ = fit.id_of(kind)
    capped = (best, worst) != (fit.best, fit.worst)
    glance = fit.deciding in AT_A_GLANCE and fit.best == NO_GO
    why = (JOINT_DECIDES,) if capped else part_why(book.dataset, fit)

    def row() -> FitRow:
        return _row(book, kind, id_, (best, worst), why)

    return Entry(
        best, worst, row, id_, part_route(kind, id_), _title(book, fit) if glance or book.brief else ""
    )


def _title(book: Book, fit: PartFit) -> str:
    """The check that decides, or why there is no verdict."""
    check = fit.deciding_check
    return rule_of(book.dataset, check.rule_id).title if check else fit.refused or ""


def _row(book: Book, kind: str, id_: str, found: Range, why: Said, goes_in: str = "") -> FitRow:
    part = parts_of(book.dataset, kind)[id_]
    place = goes_in or getattr(part.record, "kept_in", None) or ""
    return FitRow(
        shown_verdict(word_of(*found), *found), named(part), (id_,), place, why, part_route(kind, id_)
    )


def seal_entries(book: Book, fits: Iterable[PartFit]) -> tuple[Entry, ...]:
    """By chain; links that come out alike share a row, as where the plate is pressed the chain alone decides."""
    joints = {(fit.chain, fit.link): (fit.best, fit.worst) for fit in book.fits}
    alike = grouped(fits, lambda fit: _alike(fit, joints[fit.id_of("chain"), fit.id_of("link")]))
    return tuple(_seal_entry(book, group, joints) for group in alike.values())


def _alike(fit: PartFit, joint: Range) -> tuple[object, ...]:
    check = fit.deciding_check
    return fit.id_of("chain"), worse_of((fit.best, fit.worst), joint), fit.refused, check and check.rule_id


def _seal_entry(book: Book, group: Sequence[PartFit], joints: dict[tuple[str, str], Range]) -> Entry:
    first, links = group[0], sorted(fit.id_of("link") for fit in group)
    chain = first.id_of("chain")
    found = worse_of((first.best, first.worst), joints[chain, first.id_of("link")])
    why = part_why(book.dataset, first) if found == (first.best, first.worst) else (JOINT_DECIDES,)

    def row() -> FitRow:
        return _row(book, "chain", chain, found, why, goes_in=f"With {listed(links)}")

    short = book.brief or found == (NO_GO, NO_GO)
    label, of = (f"{chain} ({len(links)})", "") if book.brief else (chain, ", ".join(links))
    title = _title(book, first) if short else ""
    return Entry(*found, row, label, part_route("chain", chain), title, of=of)


def join_entries(book: Book, joins: Iterable[NeighbourFit]) -> tuple[Entry, ...]:
    """Links with one pin in a strip and one in a chain; chains of which a row would say the same share it."""
    joints = {(fit.chain, fit.link): (fit.best, fit.worst) for fit in book.fits}
    groups = grouped(
        joins, lambda fit: (fit.link, _joined_range(fit, joints), fit.clip, fit.seals, fit.decided_by)
    )
    return tuple(_join_entry(book, group, _joined_range(group[0], joints)) for group in groups.values())


def _joined_range(fit: NeighbourFit, joints: dict[tuple[str, str], Range]) -> Range:
    return worse_of((fit.best, fit.worst), joints[fit.chain, fit.link])


def _join_entry(book: Book, group: Sequence[NeighbourFit], found: Range) -> Entry:
    fit = group[0]
    why = neighbour_why(book.dataset, fit) if found == (fit.best, fit.worst) else (JOINT_DECIDES,)
    way = ", ".join(
        text
        for text in (
            small_named(book.dataset.clips[fit.clip]) if fit.clip else "",
            SEALS_SHORT.get(fit.seals or "", ""),
        )
        if text
    )
    chains = listed([each.chain for each in group])

    def row() -> FitRow:
        return _row(
            book, "link", fit.link, found, why, goes_in=f"To {chains}; {way}" if way else f"To {chains}"
        )

    check = fit.deciding_check
    title = rule_of(book.dataset, check.rule_id).title if check else fit.refused or ""
    return Entry(*found, row, fit.link, part_route("link", fit.link), title if book.brief else "")
