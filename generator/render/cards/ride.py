"""The set of a ride: who carries what, what of it goes on which bike, what stays uncovered, what to do before."""

from collections.abc import Iterator, Sequence

from generator.compute.spares.result import Load, Plan
from generator.render.cards.card import (
    Block,
    CardSet,
    Grid,
    Listing,
    Origin,
    Plate,
    Run,
    Says,
    Section,
    Text,
    bold,
    plain,
    strong,
    tag,
)
from generator.render.cards.code import code
from generator.render.cards.desk import Desk, counted
from generator.render.cards.wear import stays_home
from generator.render.cards.words import cautions, fit_plate, in_pieces, paragraphs, spaced, tag_lines
from generator.render.say.names import PART_WORDS
from generator.render.say.repair import reason_for_all
from generator.render.say.said import capital

_COLUMNS, _ROWS = 6, 4  # of a grid that stands on the smallest card
_SHORT = 5  # letters of a bike's label that stand over a column
_AGES = {"look": "old, look at it", "look-for-rust": "look for rust", "too-old": "too old"}
CLUB = "club"


def ride_sets(desk: Desk) -> Iterator[CardSet]:
    """Of each ride, and the club's own list."""
    for id_, plan in desk.fits.plans.rides.items():
        ride = desk.dataset.rides[id_]
        name = tuple(in_pieces(ride.name, Origin("ride", id_, "name"))) if ride.name else ()
        when = Says(plain(f"{ride.on.isoformat()}, {len(plan.bikes)} bikes."))
        yield _set(desk, id_, f"Ride {id_}", f"rides/{id_}/", (*name, when), plan)
    yield _set(desk, CLUB, "The club's own list", "spares/", (), desk.fits.plans.club)


def _set(desk: Desk, subject: str, title: str, page: str, first: tuple[Block, ...], plan: Plan) -> CardSet:
    sections = (
        Section("Who carries what", (*first, *_home(desk, plan), *_loads(plan))),
        Section("What goes on what", tuple(_grids(desk, plan))),
        Section("Not covered", tuple(_uncovered(desk, plan))),
        Section("Before you go", (*_before(desk, plan), *code(desk.site, page))),
    )
    return CardSet(
        "ride", subject, (tag(subject),), title, page, tuple(each for each in sections if each.blocks)
    )


def _home(desk: Desk, plan: Plan) -> Iterator[Block]:
    """Bikes that start no ride."""
    worn = [id_ for id_ in plan.bikes if any(stays_home(desk, desk.dataset.bikes[id_]))]
    for text in tag_lines("Worn out, stays at home:", worn):
        yield Says((strong(text[0].text), *text[1:]))


def _loads(plan: Plan) -> Iterator[Listing]:
    for load in plan.loads:
        if load.items:
            yield Listing(
                Says(_bearer(load)), tuple(Says(_item(item.kind, item.id, item.count)) for item in load.items)
            )


def _bearer(load: Load) -> Text:
    """A rider is called by the bike."""
    bike = (tag(load.bearer.bike),) if load.bearer.bike else ()
    return spaced(
        (bold(load.bearer.kind.capitalize()),), bike, plain(f"carries {load.mass / 1_000_000:.2f} kg:")
    )


def _item(kind: str, id_: str, count: int) -> Text:
    return (bold(f"{count} × "), tag(id_), Run(f" {PART_WORDS[kind]}"))


def _grids(desk: Desk, plan: Plan) -> Iterator[Block]:
    """Verdicts of the links that are carried, a few bikes and links a block."""
    links = sorted({id_ for kind, id_ in plan.carried if kind == "link"})
    short = all(len(bike) <= _SHORT for bike in plan.bikes)
    for first in range(0, len(plan.bikes) if links else 0, _COLUMNS):
        bikes = plan.bikes[first : first + _COLUMNS]
        heads = bikes if short else tuple(str(n) for n in range(1, len(bikes) + 1))
        if not short:
            yield from (Says((Run(f"{n} is "), tag(bike), Run("."))) for n, bike in enumerate(bikes, 1))
        for at in range(0, len(links), _ROWS):
            yield Grid(heads, tuple((link, _cells(desk, bikes, link)) for link in links[at : at + _ROWS]))


def _cells(desk: Desk, bikes: Sequence[str], link: str) -> tuple[Plate, ...]:
    fits = ({fit.link: fit for fit in desk.fits.by_bike[bike]}[link] for bike in bikes)
    return tuple(fit_plate(fit, counted(fit)) for fit in fits)


def _uncovered(desk: Desk, plan: Plan) -> Iterator[Listing]:
    """What nothing that is carried mends, why, and on which bikes."""
    failures = desk.dataset.shelf.mending.failures
    bikes: dict[tuple[str, str], list[str]] = {}
    for each in plan.demands:
        if not each.served:
            why = reason_for_all(desk.dataset, each.reason, by_label=True) or "nothing mends it"
            bikes.setdefault((why, failures[each.failure].title), []).append(each.bike)
    alike: dict[tuple[str, tuple[str, ...]], list[str]] = {}
    for (reason, title), on in bikes.items():
        alike.setdefault((reason, tuple(on)), []).append(title)
    lines = [
        line
        for (reason, on), titles in alike.items()
        for line in (*map(Says, tag_lines("On", on)), *_because(reason, titles))
    ]
    if lines:
        yield Listing(Says((bold("Be fetched or towed if:"),)), tuple(lines))


def _because(reason: str, titles: list[str]) -> Iterator[Says]:
    """What happens, so that it is said on every side the list goes over to, then why nothing mends it."""
    named = (plain(f"{title}{'.' if n == len(titles) else ';'}") for n, title in enumerate(titles, 1))
    yield from map(Says, paragraphs((*named, plain(f"({capital(reason)}.)"))))


def _before(desk: Desk, plan: Plan) -> Iterator[Block]:
    """What to try, to look at and to buy; then the cautions."""
    for chain, link in plan.dry_fit:
        yield Says((Run("Dry-fit "), tag(link), Run(" on "), tag(chain), Run(".")))
    carried = [each for each in plan.aged if each[:2] in plan.carried]
    for kind, id_, age in carried:
        if age in _AGES:
            yield Says((tag(id_), Run(f" {PART_WORDS[kind]}: {_AGES[age]}.")))
    undated = [id_ for _, id_, age in carried if age not in _AGES]
    yield from map(Says, tag_lines("Write the date on:", undated))
    for kind, id_, count in plan.buy:
        yield Says((Run("Buy "), *_item(kind, id_, count), Run(".")))
    yield from cautions(desk.dataset, "get-home-riding", "locking-wheel", why=False)
    yield from cautions(desk.dataset, "manual-first")
