"""What to put on where a clip is gone, in the order to try it: clips that fit, one off another bike, makeshifts last."""

from collections.abc import Iterator
from dataclasses import dataclass

from generator.compute.fit.clip_lost import TABLE, Makeshift, makeshifts
from generator.compute.fit.result import PairFit
from generator.compute.fit.ways import Way
from generator.model.shipped import GET_HOME, NO_GO
from generator.render.base.components import FitRow
from generator.render.base.routes import part_route
from generator.render.base.verdicts import best_first, range_verdict
from generator.render.pages.book import Book
from generator.render.say.clip_lost import (
    IN_NO_BAG,
    OFF_A_BIKE,
    OFF_A_BIKE_WHY,
    SITS,
    TITLES,
    TO_MAKE,
    WAYS_TO_CLOSE,
)
from generator.render.say.names import listed, named
from generator.render.say.said import Said, figures_for, joined, small

MOST_CLIPS = 4


@dataclass(frozen=True, slots=True)
class ClipTrail:
    """`title` says what was lost; clips first, then one off a bike, then makeshifts."""

    title: str
    clips: tuple[FitRow, ...]
    off_a_bike: tuple[FitRow, ...]
    makeshifts: tuple[FitRow, ...]

    @property
    def rows(self) -> tuple[FitRow, ...]:
        return (*self.clips, *self.off_a_bike, *self.makeshifts)


def clip_trail(book: Book, fit: PairFit) -> ClipTrail | None:
    """None where nothing is left that is better than no-go."""
    closure = book.dataset.links[fit.link].record.closure
    found = ClipTrail(
        TITLES[closure],
        tuple(_clips(book, fit)),
        tuple(_off_a_bike(book, fit)),
        tuple(_makeshifts(book, fit)),
    )
    return found if found.rows else None


def own_fit(book: Book, chain: str) -> PairFit | None:
    """The pair of a chain and the link it runs with, as far as that is written down."""
    own = book.dataset.chains[chain].record.own_link or ""
    return next((fit for fit in book.of_chain[chain] if fit.link == own), None)


def _good_ways(book: Book, fit: PairFit) -> Iterator[Way]:
    """The best way with each clip, the best clip first."""
    if fit.worst is None:
        return
    told: set[str] = set()
    ways = (way for way in book.ways_of(fit) if way.clip is not None and way.worst < NO_GO)
    for way in sorted(ways, key=lambda way: best_first(way.best, way.worst)):
        if way.clip is not None and way.clip not in told:
            told.add(way.clip)
            yield way


def _clips(book: Book, fit: PairFit) -> Iterator[FitRow]:
    """In the bags, with their places."""
    ways = list(_good_ways(book, fit))
    for way in ways[:MOST_CLIPS]:
        clip = book.dataset.clips[way.clip or ""]
        rule = book.dataset.shelf.joint_rules[way.rule_id]
        yield FitRow(
            verdict=range_verdict(way.best, way.worst),
            name=named(clip),
            tags=(clip.id,),
            goes_in=clip.record.kept_in or IN_NO_BAG,
            why=(WAYS_TO_CLOSE if way.worst == 0 else f"{small(rule.title).capitalize()} decides.",),
            to=part_route("clip", clip.id),
        )


def _off_a_bike(book: Book, fit: PairFit) -> Iterator[FitRow]:
    """A clip that sits on another bike has been off once when it gets here."""
    dataset = book.dataset
    good = {way.clip: way for way in _good_ways(book, fit)}
    bikes = []
    for bike in dataset.bikes.values():
        own = dataset.links.get(dataset.chains[bike.record.chain].record.own_link or "")
        if own is not None and own.record.clip in good:
            bikes.append((bike.id, good[own.record.clip]))
    if len(bikes) < 2:
        return
    worst = max(GET_HOME, min(way.worst for _, way in bikes))
    yield FitRow(
        verdict=range_verdict(max(GET_HOME, min(way.best for _, way in bikes)), worst),
        name=OFF_A_BIKE,
        goes_in=listed([id_ for id_, _ in bikes]),
        why=(OFF_A_BIKE_WHY,),
    )


def _makeshifts(book: Book, fit: PairFit) -> Iterator[FitRow]:
    found = sorted(makeshifts(book.dataset, fit), key=lambda each: (each.worst, each.best))
    for each in found:
        rule = book.dataset.shelf.other_rules[TABLE][each.rule_id]
        yield FitRow(
            verdict=range_verdict(each.best, each.worst),
            name=rule.title,
            goes_in=TO_MAKE.get(rule.check or each.rule_id, ""),
            why=joined(((rule.says,), _sits(each))),
        )


def _sits(found: Makeshift) -> Said:
    if found.clearance is None:
        return ()
    figures = figures_for((found.clearance.nominal,))
    where = SITS[0] if found.clearance.nominal < 0 else SITS[1]
    return ("Here the plate sits ", figures.amount(found.clearance.nominal), f" {where} the groove.")


def in_short(book: Book, fit: PairFit) -> tuple[FitRow | None, FitRow | None]:
    """The first clip and the first makeshift, for a row a bike."""
    trail = clip_trail(book, fit)
    if trail is None:
        return None, None
    return next(iter(trail.clips), None), next(iter(trail.makeshifts), None)
