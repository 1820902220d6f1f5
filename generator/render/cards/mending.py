"""What mends each failure: on the cards of a bike with its own parts, on the trail card with all steps."""

from collections.abc import Iterator, Sequence

from generator.compute.repair.result import Bag, Case, Lack, PartUse, Repair
from generator.model.dataset import Part
from generator.model.mending import Failure
from generator.model.shipped import NO_GO
from generator.model.tools_and_bikes import Bike
from generator.render.cards.card import (
    Block,
    Group,
    Listing,
    Picture,
    Plate,
    Run,
    Says,
    Text,
    bold,
    plain,
    strong,
    tag,
)
from generator.render.cards.desk import Desk
from generator.render.cards.pictures import damage_picture
from generator.render.cards.words import paragraphs, plate
from generator.render.say.joint import SEALS_SHORT
from generator.render.say.said import capital, small

PAGE = "repair/"
# the labels of those that are not in every roll stand beside their keys, with the limits
_TOOLS = {"open": "breaker", "close": "riveter", "spanner": "spanners"}
# nothing that the club has mends it
_TOWED = Plate("no-go", "no-go", "TOW")
_STOPS = 3  # `strands` of a failure from which on a bike stands still
_PICTURE = 7.0  # mm


def mending_blocks(desk: Desk, bike: Part[Bike]) -> Iterator[Block | Listing]:
    """The failures that stop a bike, worst and most frequent first; those with one answer share it."""
    failures = desk.dataset.shelf.mending.failures
    alike: dict[tuple[int, tuple[Text, ...]], list[Failure]] = {}
    for id_, failure in sorted(failures.items(), key=lambda each: -each[1].often * each[1].strands):
        case = desk.fits.repairs[bike.id, id_]
        if failure.choice != "other" and failure.strands >= _STOPS and case.happens:
            alike.setdefault((case.rung, tuple(_answer(desk, case))), []).append(failure)
    yield Says((strong("Engine off, key out, goggles on. "), Run("First find out why it happened.")))
    for (rung, texts), found in alike.items():
        head = Group(plate(rung, rung) if rung < NO_GO else _TOWED, (bold(found[0].title),))
        yield Listing(head, tuple(_drawn(found[0], _also(found), texts)))


def _also(found: list[Failure]) -> Text:
    titles = "; ".join(small(failure.title) for failure in found[1:])
    return plain(f"Likewise: {titles}.") if titles else ()


def _drawn(failure: Failure, also: Text, says: Sequence[Text]) -> Iterator[Block]:
    """The picture with the first words beside it, then the rest."""
    picture = damage_picture(failure.damage)
    if picture:
        yield Picture(*picture, _PICTURE, says[0])
    yield from map(Says, paragraphs((*(says[1:] if picture else says), also)))


def _answer(desk: Desk, case: Case) -> Iterator[Text]:
    """The best repair, other bags for it, and the best of the other ways; or why there is none."""
    if not case.repairs:
        yield (bold("Nothing mends it: be fetched or towed."),)
        if case.reason:
            yield plain(_lacking(desk, case.reason))
        return
    best = case.repairs[0]
    other = next((repair for repair in case.repairs if repair.way != best.way), None)
    yield plain(f"{desk.dataset.shelf.mending.ways[best.way].title}.{_length(best)}")
    yield from _parts(best)
    tools = dict.fromkeys(_TOOLS.get(job.does, job.does) for job in best.jobs if job.able)
    if tools:
        yield plain(f"{capital(', '.join(tools))}.")
    if other:
        yield plain(f"Else: {small(desk.dataset.shelf.mending.ways[other.way].title)} ({other.word}).")


def _lacking(desk: Desk, lack: Lack) -> str:
    reason = desk.dataset.shelf.mending.reasons[lack.code]
    return f"{reason.says.format(about=lack.about)}.".capitalize()


def _parts(repair: Repair) -> Iterator[Text]:
    for bag in dict.fromkeys(repair.bags):
        yield _bag(bag, repair.bags.count(bag))
    yield from map(_part, repair.parts)


def _bag(bag: Bag, count: int) -> Text:
    clip = (Run(" with "), tag(bag.clip)) if bag.clip else ()
    return (Run(capital(f"{_many(count)}link ")), tag(bag.link), *clip, Run(f", {SEALS_SHORT[bag.seals]}."))


def _many(count: int) -> str:
    return f"{count} × " if count > 1 else ""


def _part(part: PartUse) -> Text:
    return (Run(capital(f"{_many(part.count)}{part.kind} ")), tag(part.id), Run("."))


def _length(repair: Repair) -> str:
    if not repair.change:
        return ""
    word = "shorter" if repair.change < 0 else "longer"
    return f" {abs(repair.change)} pitches {word}: set the slack anew."
