"""The repair cards of any bike: what each failure is mended with, best first, and the steps of each way."""

from collections.abc import Iterator, Mapping

from generator.model.mending import Failure, RepairWay
from generator.model.shipped import RUNGS
from generator.render.cards.card import (
    Block,
    CardSet,
    Listing,
    Picture,
    Says,
    Section,
    Text,
    bold,
    plain,
)
from generator.render.cards.code import code
from generator.render.cards.desk import Desk
from generator.render.cards.pictures import damage_picture
from generator.render.cards.words import cautions, paragraphs, spaced
from generator.render.say.said import small

PAGE = "repair/"
# in the order of the page they lead to
CHOICES: Mapping[str, str] = {
    "joint": "The joint came apart",
    "outer": "An outer link broke",
    "inner": "A narrow link broke",
    "other": "Something else",
}
_FIRST, _LAST = ("stop-safe", "look-round"), ("turn-wheel", "look-again")  # of nearly every way, said once
_CAUTIONS = ("engine-off", "flying-parts", "wheel-by-hand", "guard-the-guide")
_AFTER = ("after-repair", "get-home-riding", "locking-wheel")


def trail_sets(desk: Desk) -> Iterator[CardSet]:
    """What broke and what to do about it, then how it is done."""
    failures, ways = desk.dataset.shelf.mending.failures, desk.dataset.shelf.mending.ways
    parts = [
        Section(title, tuple(_failures(desk, [f for f in failures.values() if f.choice == choice])))
        for choice, title in CHOICES.items()
    ]
    known = tuple(section for section in parts if section.blocks)
    if known:
        before = Section("Always", (*_always(desk), *code(desk.site, PAGE)))
        yield CardSet("repair", "what-broke", (bold("Broke"),), "What broke", PAGE, (before, *known))
        used = dict.fromkeys(way for failure in failures.values() for way in failure.ways)
        steps = tuple(block for way in used for block in _way(desk, ways[way]))
        how = Section("Step by step", steps)
        yield CardSet("repair", "how", (bold("Mend"),), "How to mend it", PAGE, (before, how))


def _always(desk: Desk) -> Iterator[Block]:
    """What comes before and after every repair."""
    yield from cautions(desk.dataset, *_CAUTIONS, why=False)
    yield Says(plain("How good a way is on one bike: its own card says."))
    yield Says(_steps(desk, "First: ", _FIRST))
    yield Says(_steps(desk, "Last: ", _LAST))
    yield from cautions(desk.dataset, *_AFTER, why=False)
    yield from cautions(desk.dataset, "manual-first")


def _failures(desk: Desk, failures: list[Failure]) -> Iterator[Block | Listing]:
    for failure in failures:
        picture = damage_picture(failure.damage)
        looks = plain(failure.looks)
        texts = (
            *(() if picture else (looks,)),
            *_ways(desk, failure),
            spaced((bold("After:"),), plain(failure.after)),
        )
        items = (*((Picture(*picture, 7.0, looks),) if picture else ()), *map(Says, paragraphs(texts)))
        yield Listing(Says((bold(failure.title),)), items, whole=True)


def _ways(desk: Desk, failure: Failure) -> Iterator[Text]:
    """Each with what it is no better than."""
    ways = desk.dataset.shelf.mending.ways
    for n, id_ in enumerate(failure.ways):
        best = max((ways[id_].at_best, failure.at_best), key=RUNGS.index)
        title = ways[id_].title if n == 0 else small(ways[id_].title)
        how_well = f" (at best {best})" if best != "no-go" else ""
        yield ((bold("Do: ") if n == 0 else bold("Else ")), *plain(f"{title}{how_well}."))


def _way(desk: Desk, way: RepairWay) -> Iterator[Listing]:
    """Its own steps, numbered; what is always done first and last is not said again."""
    own = [step for step in way.steps if step not in (*_FIRST, *_LAST)]
    head = Says((bold(f"{way.title} "), *plain(f"(at best {way.at_best}).")))
    steps = desk.dataset.shelf.mending.steps
    numbered = ((bold(f"{n} "), *plain(f"{steps[id_].do}.")) for n, id_ in enumerate(own, 1))
    yield Listing(head, tuple(map(Says, paragraphs((plain(way.says), *numbered)))), whole=True)


def _steps(desk: Desk, lead: str, ids: tuple[str, ...]) -> Text:
    steps = desk.dataset.shelf.mending.steps
    return (bold(lead), *plain(". ".join(steps[id_].do for id_ in ids if id_ in steps) + "."))
