"""The page of one pair: the verdict first, then which clip and seals, why, the drawing, what to measure next.

Goes in: a book and a fit.  Comes out: a page.
"""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass

from generator.compute.fit.by_bike import OnBike
from generator.compute.fit.result import PairFit
from generator.model.dataset import Dataset
from generator.model.shipped import GET_HOME, RUNGS
from generator.render.base.page import Page
from generator.render.base.routes import pair_route, part_route
from generator.render.base.verdicts import MEASURE_FIRST, ShownVerdict
from generator.render.pages.book import Book
from generator.render.pages.facts import Anchor
from generator.render.pages.fit_cells import verdict_of
from generator.render.pages.makeshifts import WITHOUT, makeshift_lines
from generator.render.pages.pair_brief import check_lines, way_lines
from generator.render.pages.pair_drawing import drawn_lengths, pair_drawing
from generator.render.pages.pair_tables import (
    PairRows,
    all_rows,
    checks_table,
    no_go_ways,
    range_verdict,
    ways_table,
)
from generator.render.pages.search_terms import pair_terms
from generator.render.say.basis import calculated_sentence, chance_sentence, evidence_sentence
from generator.render.say.cautions import pair_cautions, short_caution
from generator.render.say.joint import clip_in_words, seals_in_words, way_in_words
from generator.render.say.names import recipe_of
from generator.render.say.next_step import next_reading, next_step
from generator.render.say.reasons import reasons_beside
from generator.render.say.rungs import BY_NUMBERS, DRY_FITTED, NO_SOURCE, meaning, not_tested
from generator.render.say.tried import tried_another_way
from generator.render.say.why import why

FIT_WITH, TRY_WITH = "Which clip and seals", "Which clip and seals to try it with at the bench"
NO_GO = RUNGS[3]
# a section of the hand-written safety page
CLIP_WAY = Anchor("Which way it goes on", "safety/#clip-goes")


@dataclass(frozen=True, slots=True)
class OwnClip:
    """The verdict with the link's own clip, where another one was chosen."""

    way: str
    verdict: ShownVerdict


@dataclass(frozen=True, slots=True)
class BetterLink:
    """Another link for the same chain, and its verdict in words."""

    link: Anchor
    verdict: str


def pair_page(book: Book, fit: PairFit, rows: PairRows) -> Page:
    """With its tables and its drawing made at once."""
    return _page(
        book, fit, "handbook/pair.html", lambda: {**pair_values(book, fit), **_tables(book, fit, rows)}, False
    )


def brief_pair_page(book: Book, fit: PairFit) -> Page:
    """The same answers in few bytes, made when the page is printed."""
    return _page(
        book, fit, "handbook/pair_brief.html", lambda: {**pair_values(book, fit), **_lines(book, fit)}, True
    )


def _page(
    book: Book, fit: PairFit, template: str, values: Callable[[], Mapping[str, object]], later: bool
) -> Page:
    return Page(
        path=f"pairs/{fit.chain}/{fit.link}/",
        title=f"{fit.link} on {fit.chain}",
        description=f"Connecting link {fit.link} on chain {fit.chain}: {verdict_in_words(fit)}.",
        template=template,
        context={} if later else values(),
        search=pair_terms(book.dataset, fit),
        kind="pair",
        brief=later,
        later=values if later else None,
    )


def _tables(book: Book, fit: PairFit, rows: PairRows) -> Mapping[str, object]:
    return {
        "drawing": pair_drawing(book.dataset, fit),
        "drawn": drawn_lengths(book.dataset, fit),
        "ways": ways_table(fit, rows),
        "no_go_ways": no_go_ways(book, fit),
        "checks": checks_table(fit, rows),
    }


def _lines(book: Book, fit: PairFit) -> Mapping[str, object]:
    return {
        "drawing": pair_drawing(book.dataset, fit, brief=True),
        "ways": way_lines(book, fit),
        "checks": check_lines(book.dataset, fit),
    }


def pair_values(book: Book, fit: PairFit) -> Mapping[str, object]:
    """Everything but the drawing, the checks and the ways."""
    dataset = book.dataset
    chain, link = dataset.chains[fit.chain], dataset.links[fit.link]
    return {
        "chain": Anchor(chain.id, part_route("chain", chain.id)),
        "chain_name": chain.record.name or "",
        "link": Anchor(link.id, part_route("link", link.id)),
        "link_name": link.record.name or "",
        "verdict": verdict_of(fit),
        "meaning": meaning(fit.word, fit.best, fit.worst),
        "strength": strength(fit),
        "tried": (*tried_another_way(fit), *bikes_apart(book, fit)),
        **fitting(dataset, fit),
        "better": better_links(book, fit),
        "why": why(dataset, fit, book.ways_of(fit)),
        "beside": reasons_beside(dataset, fit),
        "next": next_step(dataset, fit),
        "recipe": recipe_anchor(book, fit),
        "makeshifts": makeshift_lines(dataset, fit),
        # stands before a makeshift even where the joint itself is no-go by its clip
        "before_makeshifts": short_caution(dataset.shelf.cautions),
        "without": WITHOUT[link.record.closure],
        "evidence": evidence_sentence(dataset, fit),
        "chance": chance_sentence(fit),
        "cautions": pair_cautions(dataset.shelf.cautions, fit, link.record.plate_fit),
        "calculated": calculated_sentence(dataset, fit),
        "no_source": NO_SOURCE,
    }


def fitting(dataset: Dataset, fit: PairFit) -> Mapping[str, object]:
    """Which clip and seals, with the caution that stands before it; nothing to fit by under a no-go."""
    option = fit.option if fit.word != NO_GO else None
    return {
        "with_title": TRY_WITH if fit.word == MEASURE_FIRST else FIT_WITH,
        "first": short_caution(dataset.shelf.cautions) if fit.word != NO_GO else None,
        "clip": clip_in_words(dataset, fit.link, option) if option else "",
        "clip_way": CLIP_WAY if option and option.clip else None,
        "seals": seals_in_words(dataset, option) if option else "",
        "own_clip": own_clip(fit) if option else None,
    }


def bikes_apart(book: Book, fit: PairFit) -> tuple[str, ...]:
    """Where the pair is not the same on every bike, what it is on each."""
    apart = book.apart.get((fit.chain, fit.link))
    if apart is None:
        return ()
    said = "; ".join(f"{each.bike}: {verdict_in_words(each)}" for each in apart)
    return (
        f"The bikes on this chain have different room. By the room of each alone: {said}. The verdict of the pair "
        "counts the least room there could be.",
    )


def better_links(book: Book, fit: PairFit) -> tuple[BetterLink, ...]:
    """What the bags have for this chain, where this link is no use or a last resort, or could turn out to be; a short
    page names the best alone.
    """
    if fit.worst is not None and fit.worst <= GET_HOME:
        return ()
    others = [other for other in book.better[fit.chain] if other.link != fit.link]
    return tuple(
        BetterLink(Anchor(other.link, pair_route(other)), verdict_in_words(other))
        for other in others[: 1 if book.brief else len(others)]
    )


def verdict_in_words(fit: PairFit | OnBike) -> str:
    shown = verdict_of(fit)
    return f"{shown.label}, {shown.span}" if shown.span else shown.label


def strength(fit: PairFit) -> str:
    """How far to count on it today."""
    if fit.word == "proper":
        return DRY_FITTED if fit.strength == "dry-fitted" else BY_NUMBERS
    if fit.word == "measure-first" and fit.worst is not None:
        return f"On a ride: {not_tested(fit.worst)}."
    return ""


def own_clip(fit: PairFit) -> OwnClip | None:
    own = fit.own_clip_option
    if own is None or own == fit.option or (fit.option and own.clip == fit.option.clip):
        return None
    return OwnClip(way_in_words(own), range_verdict(own.best, own.worst))


def recipe_anchor(book: Book, fit: PairFit) -> Anchor | None:
    """The way to read it, where the handbook has that page."""
    reading = next_reading(fit)
    found = recipe_of(book.dataset, reading.kind, reading.field) if reading else None
    to = f"measuring/{found[0]}/" if found else ""
    return Anchor(found[1].title, to) if found and to in book.elsewhere else None


def pair_pages(book: Book) -> Iterator[Page]:
    """A page for each pair that pitch and size family do not rule out."""
    rows = {} if book.brief else all_rows(book)
    for fit in book.fits:
        if fit.own_page:
            yield (
                brief_pair_page(book, fit) if book.brief else pair_page(book, fit, rows[fit.chain, fit.link])
            )
