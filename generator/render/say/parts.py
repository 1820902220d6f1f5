"""The words of the pages of clips, seals, side plates, strips and tools."""

from collections.abc import Mapping

from generator.render.say.said import capital

# what the head of a page says of a part, in this order: the name of the fact, and how it is said
_HEAD: Mapping[str, str] = {
    "Size code": "{}",
    "Kind": "{}",
    "History": "{}",
    "Job": "{}",
    "How many": "{} kept",
    "How many sets of four": "{} sets of four kept",
    "Mass of one": "{} each",
}
_NONE_LEFT = "none left"
ON_LINKS = "The links it goes on"
CLIP_SAYS = (
    "Each says the best that any joint of the club with this clip and that link comes to. The page of the link says on "
    "which chain."
)
NO_LINK_FOR_CLIP = "None of the club's links closes with a clip that could be this one."
OWN_CLIP_OF = "It is the own clip of"

IN_JOINTS = "The joints it goes in"
SEALS_SAY = (
    "Only links made for sealed chain are looked at. Each says no better than the whole joint comes to."
)
OWN_SEALS_SAY = (
    "The club has so many seals, links and chains that a set is looked at only with the links it belongs to, and with "
    "links whose own seals are not known or gone."
)
WASHERS_SAY = "Packing washers take up room where seals are missing. They do not seal: get-home at best."
NO_JOINT_FOR_SEALS = "The club has no link and chain that could take them."
CAME_WITH = "They came with"

CLOSES_LINKS = "The links it can close"
PLATE_SAYS = (
    "It is held against the link's own side plate. Try by hand whether it slides on or needs a press."
)
NO_LINK_FOR_PLATE = "None of the club's links could take it."

LET_INTO = "The chains it can be let into"
STRIP_SAYS = "Strip and chain run on the same sprockets, take the same links and must be worn alike."
NO_CHAIN_FOR_STRIP = "None of the club's chains could take it."
JOINS = "The links that join it"
JOINS_SAY = "Each has one pin in the strip and one in the chain: the worse of the two joints counts."
NO_LINK_FOR_STRIP = "None of the club's links could join it to a chain."

WORKS_ON: Mapping[str, str] = {"chain": "The chains it takes", "link": "The links it takes"}
TOOL_SAYS = "Whether the key is there counts for every one. The limits are common practice, no source."
EVERY_SIZE_SAYS = "It is not tied to a size: nothing to judge."
NOTHING_NEEDS_IT = "None of the club's chains or links needs it."


def in_short(facts: Mapping[str, str]) -> str:
    """`X-rings, 2 sets of four kept, 1 g each`"""
    said = (
        _NONE_LEFT if facts[name] == _NONE_LEFT else form.format(facts[name])
        for name, form in _HEAD.items()
        if name in facts
    )
    return capital(", ".join(said))


def left_out(count: int) -> str:
    return f"{count} that are no-go whatever is measured are left out." if count else ""
