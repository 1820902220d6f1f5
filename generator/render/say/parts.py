"""The words of the pages of clips, seals, side plates, strips and tools."""

from collections.abc import Mapping

ON_LINKS = "The links it goes on"
CLIP_SAYS = (
    "Never better than the best joint of the club with this clip and that link. Which chain it is for stands on the page "
    "of the link."
)
NO_LINK_FOR_CLIP = "None of the club's links closes with a clip that could be this one."
OWN_CLIP_OF = "It is the own clip of"

IN_JOINTS = "The joints it goes in"
SEALS_SAY = "Only links made for sealed chain. Never better than the pair itself."
WASHERS_SAY = "Packing washers take up room where seals are missing. They do not seal: get-home at best."
NO_JOINT_FOR_SEALS = "The club has no link and chain that could take them."
CAME_WITH = "They came with"

CLOSES_LINKS = "The links it can close"
PLATE_SAYS = (
    "Held against the link's own side plate. Whether its holes slide on or need a press is tried by hand."
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


def left_out(count: int) -> str:
    return f"{count} that are no-go whatever is measured are left out." if count else ""
