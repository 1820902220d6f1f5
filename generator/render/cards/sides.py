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


def blocks_of(section: Section) -> Iterator[tuple[Block | None, Block]]:
    """Every block with the head of its list, if it is in one."""
    for each in section.blocks:
        if isinstance(each, Listing):
            yield from ((each.head, item) for item in each.items)
        else:
            yield None, each


def all_blocks(sets: Iterable[CardSet], foot: Foot) -> Iterator[Block]:
    """Everything that can stand on a side of these sets."""
    yield foot
    for card in sets:
        for section in card.sections:
            yield Head(card.head, section.title, WIDEST_NUMBER)
            for head, block in blocks_of(section):
                yield from (head, block) if head else (block,)


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
        for head, block in blocks_of(section):
            left = room - format_.gap - (height(head) + format_.gap if head else 0.0)
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
    *before, (_, alone) = filled
    if not all(isinstance(block, Code) for block in alone):
        return filled
    for at in range(len(before) - 1, -1, -1):
        section, blocks = before[at]
        if _tall([*blocks, *alone], format_, height) <= room(section) + _ROUNDING:
            return [*before[:at], (section, (*blocks, *alone)), *before[at + 1 :]]
    return filled


def _filled(section: Section, room: float, format_: Format, height: Height) -> Iterator[tuple[Block, ...]]:
    """The head of a list stands over its first item of every side."""
    side: list[Block] = []
    used, under = 0.0, None
    whole = {
        id(each.head): _tall([each.head, *each.items], format_, height)
        for each in section.blocks
        if isinstance(each, Listing) and each.whole
    }
    for head, block in blocks_of(section):
        new = [head, block] if head and head is not under else [block]
        needs = _tall(new, format_, height)
        if len(new) > 1 and needs < whole.get(id(head), 0.0) <= room + _ROUNDING:
            needs = whole[id(head)]
        if side and used + needs > room + _ROUNDING:
            yield tuple(side)
            side, used = [], 0.0
            new = [head, block] if head else [block]
        used += _tall(new, format_, height)
        side.extend(new)
        under = head
    if side:
        yield tuple(side)


def _tall(blocks: list[Block], format_: Format, height: Height) -> float:
    """With the gap over each."""
    return sum(height(block) + format_.gap for block in blocks)
