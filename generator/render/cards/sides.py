"""Blocks put on numbered sides: in their order, none split, each section on a side of its own."""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass

from generator.render.cards.card import Block, CardSet, Code, Foot, Head, Listing, Section
from generator.render.cards.formats import Format

# height of a block in a format, mm
Height = Callable[[Block], float]
_Filled = tuple[Section, tuple[Block, ...]]
WIDEST_NUMBER = "88 of 88"
_MOST_OF_A_SIDE = 0.34  # that the line under it may take up
_ROUNDING = 0.01  # mm, what two measures of the same text may differ by


@dataclass(frozen=True, slots=True)
class Side:
    """One side of a card."""

    head: Head
    blocks: tuple[Block, ...]
    foot: Foot


@dataclass(frozen=True, slots=True)
class TooTall:
    """A block that is taller than a whole side has room for, mm."""

    block: Block
    room: float


def blocks_of(section: Section) -> Iterator[tuple[Listing | None, Block]]:
    """Every block with the list it is in, if any."""
    for each in section.blocks:
        if isinstance(each, Listing):
            yield from ((each, item) for item in each.items)
        else:
            yield None, each


def all_blocks(sets: Iterable[CardSet], foot: Foot) -> Iterator[Block]:
    """Everything that can stand on a side of these sets."""
    yield foot
    for card in sets:
        for section in card.sections:
            yield Head(card.head, section.title, WIDEST_NUMBER)
            for listing, block in blocks_of(section):
                yield from (listing.head, block) if listing else (block,)


def room_for(card: CardSet, section: Section, foot: Foot, format_: Format, height: Height) -> float:
    """What blocks, each with a gap over it, may take up between the head and the foot of a side, mm."""
    head = Head(card.head, section.title, WIDEST_NUMBER)
    return format_.inner_height - height(head) - height(foot) - format_.gap


def foot_too_tall(foot: Foot, format_: Format, height: Height) -> Iterator[TooTall]:
    """Where the line under a side would leave too little room over it."""
    most = format_.inner_height * _MOST_OF_A_SIDE
    if height(foot) > most:
        yield TooTall(foot, most)


def too_tall(card: CardSet, foot: Foot, format_: Format, height: Height) -> Iterator[TooTall]:
    """Every block that cannot stand on any side."""
    for section in card.sections:
        room = room_for(card, section, foot, format_, height)
        for listing, block in blocks_of(section):
            left = room - format_.gap - (height(listing.head) + format_.gap if listing else 0.0)
            if height(block) > left + _ROUNDING:
                yield TooTall(block, left)


def sides_of(card: CardSet, foot: Foot, format_: Format, height: Height) -> tuple[Side, ...]:
    """All sides of a set, numbered through."""
    filled = [
        (section, blocks)
        for section in card.sections
        for blocks in _filled(section, room_for(card, section, foot, format_, height), format_, height)
    ]
    filled = _tucked_in(
        filled, lambda section: room_for(card, section, foot, format_, height), format_, height
    )
    return tuple(
        Side(Head(card.head, section.title, f"{n} of {len(filled)}" if len(filled) > 1 else ""), blocks, foot)
        for n, (section, blocks) in enumerate(filled, 1)
    )


def _tucked_in(
    filled: list[_Filled], room: Callable[[Section], float], format_: Format, height: Height
) -> list[_Filled]:
    """A code that would stand alone on the last side goes to the last one before it that has room."""
    if not filled or not all(isinstance(block, Code) for block in filled[-1][1]):
        return filled
    *before, (_, alone) = filled
    for at in range(len(before) - 1, -1, -1):
        section, blocks = before[at]
        if _tall([*blocks, *alone], format_, height) <= room(section) + _ROUNDING:
            return [*before[:at], (section, (*blocks, *alone)), *before[at + 1 :]]
    return filled


def _filled(section: Section, room: float, format_: Format, height: Height) -> Iterator[tuple[Block, ...]]:
    """The head of a list stands over its first item of every side; one that is read in one go moves on whole."""
    side: list[Block] = []
    used, under = 0.0, None
    for listing, block in blocks_of(section):
        begins = listing is not None and listing is not under
        new = [listing.head, block] if listing and begins else [block]
        needs = _tall(new, format_, height)
        if listing and begins and listing.whole:
            whole = _tall([listing.head, *listing.items], format_, height)
            needs = whole if whole <= room + _ROUNDING else needs
        if side and used + needs > room + _ROUNDING:
            yield tuple(side)
            side, used = [], 0.0
            new = [listing.head, block] if listing else [block]
        used += _tall(new, format_, height)
        side.extend(new)
        under = listing
    if side:
        yield tuple(side)


def _tall(blocks: list[Block], format_: Format, height: Height) -> float:
    """With the gap over each."""
    return sum(height(block) + format_.gap for block in blocks)
