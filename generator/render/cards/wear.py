"""How long a chain may become, and that a worn one stays at home."""

from collections.abc import Iterator
from fractions import Fraction

from generator.model.dataset import Part
from generator.model.elongation import pitch_of_size
from generator.model.shipped import NO_GO
from generator.model.tools_and_bikes import Bike
from generator.render.cards.card import Block, Fact, Group, Run, Says, plain, strong
from generator.render.cards.desk import Desk
from generator.render.cards.words import millimetres, plate

MEASURED = 20  # pitches, an even number, so that all wear shows


def stays_home(desk: Desk, bike: Part[Bike]) -> Iterator[Block]:
    """First of all where the newest reading is at its limit."""
    wear = desk.fits.wear.bikes[bike.id]
    if wear.outlook.state == "worn" and wear.elongation is not None:
        head = plate(NO_GO, NO_GO)
        yield Group(type(head)(head.outline, head.edge, "WORN OUT"), (strong("Start no ride. "),))
        found, limit = (f"{float(each):.1f} %" for each in (wear.elongation.nominal, wear.limit.percent))
        yield Says(
            plain(
                f"The chain is {found} longer than new, its limit is {limit}. Chain and sprockets as a set."
            )
        )


def length_limit(desk: Desk, bike: Part[Bike]) -> Iterator[Block]:
    """Of an even number of pitches, taut: what a tape reads at the limit."""
    pitch = pitch_of_size(desk.dataset.shelf.sizes, desk.dataset.chains[bike.record.chain].record.size_code)
    wear = desk.fits.wear.bikes[bike.id]
    if pitch is None:
        yield Fact("Worn out at", plain("size code not known: no length can be given"))
        return
    new = MEASURED * pitch
    worn = new * (1 + Fraction(wear.limit.percent) / 100)
    says = Run(f" over {MEASURED} pitches taut, roller to roller; new {millimetres(new, 1)}.")
    yield Fact("Worn out at", (strong(millimetres(float(worn), 1)), says))
