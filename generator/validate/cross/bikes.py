"""What cannot be true of a bike, alone or with its chain."""

from collections.abc import Iterator
from math import pi

from generator.model.quantity import Quantity
from generator.model.tools_and_bikes import Bike
from generator.problems import Problem
from generator.validate.cross.compare import must_fit, places
from generator.validate.draft import ClubDraft, Draft

# a motorcycle's sprockets, wide of anything sold; common practice, no source
FRONT_TEETH, REAR_TEETH = range(8, 30), range(20, 90)
# beyond this the count or the distance is a slip, not slack, wear or a bent tape
MOST_PITCHES_OFF = 4


def odd_loop(bike: Draft[Bike]) -> Iterator[Problem]:
    """Inner and outer links alternate round the loop, so their number is even."""
    pitches = bike.record.pitches
    if pitches is not None and pitches % 2:
        fix = f"count the pins again: {pitches - 1} or {pitches + 1}"
        yield bike.problem("C471", f"a loop of {pitches} pitches", "pitches", fix=fix)


def slack_reversed(bike: Draft[Bike]) -> Iterator[Problem]:
    """The least slack is not more than the most."""
    words = "least slack {}, most slack {}"
    yield from must_fit(bike, "C473", "slack_low", "slack_high", words, "change the two values over")


def teeth_out_of_reason(bike: Draft[Bike]) -> Iterator[Problem]:
    """The front sprocket is the small one, and neither is a clock wheel."""
    for field, usual in (("front_teeth", FRONT_TEETH), ("rear_teeth", REAR_TEETH)):
        teeth = getattr(bike.record, field)
        if teeth is not None and teeth not in usual:
            message = f"{teeth} teeth: {usual.start} to {usual.stop - 1} are usual here"
            yield bike.problem(
                "C474",
                message,
                field,
                level="warning" if teeth else "error",
                fix="count again; are front and rear the right way round?",
            )


def loop_does_not_reach(bike: Draft[Bike], club: ClubDraft) -> Iterator[Problem]:
    """Pitches, teeth and centre distance belong together (ISO 606 annex: length of an open two-sprocket drive)."""
    chain = club.find("chain", bike.record.chain)
    size = club.shelf.sizes.get(chain.record.size_code) if chain is not None else None
    centre, teeth = bike.dims.get("centre_distance"), (bike.record.front_teeth, bike.record.rear_teeth)
    if size is None or centre is None or bike.record.pitches is None or 0 in teeth or None in teeth:
        return
    wanted = loop_pitches(centre, size.dims["pitch"], *teeth)
    if abs(wanted - bike.record.pitches) > MOST_PITCHES_OFF:
        message = (
            f"{bike.record.pitches} pitches, but sprockets and centre distance ask for about {wanted:.0f}"
        )
        related = places(bike, "centre_distance", "front_teeth", "rear_teeth")
        yield bike.problem("C472", message, "pitches", related=related)


def loop_pitches(centre: Quantity, pitch: Quantity, front: int, rear: int) -> float:
    """Pitches of an open drive over two sprockets, by the usual approximation."""
    distance = centre.nominal / pitch.nominal
    return 2 * distance + (front + rear) / 2 + ((rear - front) / (2 * pi)) ** 2 / distance


BIKE_RULES = (odd_loop, slack_reversed, teeth_out_of_reason)
BIKE_CLUB_RULES = (loop_does_not_reach,)
