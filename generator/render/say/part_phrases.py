"""What the clearances of parts other than a link on a chain are called.

Goes in: a check id and what it stands in.  Comes out: its Phrase.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from generator.render.say.clearances import Phrase, phrase_of

PART_PHRASES: Mapping[str, Phrase] = {
    "clip-wear": Phrase("At its thinnest place the clip is", "thick", "thick", ("", "")),
    "plate-stop": Phrase(
        "With this plate the clip stops",
        "further out than with the link's own",
        "further in than with the link's own",
        ("out", "in"),
    ),
    "plate-flare": Phrase(
        "With this plate the pins stand",
        "further out than with the link's own",
        "less far out than with the link's own",
        ("out", "in"),
    ),
    "plate-height": Phrase(
        "The plate is", "taller than the link's own", "lower than the link's own", ("taller", "lower")
    ),
    "plate-section": Phrase("The plate is", "thick", "thick", ("", "")),
    "pitch": Phrase(
        "By their size codes the pins are",
        "further apart than the holes",
        "closer together than the holes",
        ("further", "closer"),
    ),
    "plate-holes": Phrase(
        "The holes are", "further apart than the pins", "closer together than the pins", ("further", "closer")
    ),
    "strip-pitch": Phrase(
        "The pitch of the strip is", "longer than the chain's", "shorter than the chain's", ("longer", "shorter")
    ),
    "strip-roller": Phrase(
        "The rollers of the strip are", "thicker than the chain's", "thinner than the chain's", ("thicker", "thinner")
    ),
    "strip-inner-width": Phrase(
        "Between its inner plates the strip is", "wider than the chain", "narrower than the chain", ("wider", "narrower")
    ),
    "strip-bush-bore": Phrase(
        "The bores of the strip are", "wider than the chain's", "narrower than the chain's", ("wider", "narrower")
    ),
    "strip-outer-plates": Phrase(
        "Between its outer plates the strip is", "wider than the chain", "narrower than the chain", ("wider", "narrower")
    ),
    "neighbour-bush-ends": Phrase(
        "Over its bush ends the strip is", "wider than the chain", "narrower than the chain", ("wider", "narrower")
    ),
    "tool-jaw-chain": Phrase("Between the jaws the chain has", "to spare", "too little", ("to spare", "too little")),
    "tool-jaw-link": Phrase(
        "Beside the pins and both plates the jaws leave", "of room", "too little", ("", "too little")
    ),
    "tool-pushing-pin": Phrase(
        "The pushing pin is", "thinner than the chain's pin", "thicker than the chain's pin", ("thinner", "thicker")
    ),
}  # fmt: skip
# checks whose words differ where a link is on a chain
OF_PLATES_ONLY = frozenset(("plate-height", "plate-section", "pitch"))


@dataclass(frozen=True, slots=True)
class Around:
    """What a check stands in: which parts meet, and what lies between the plates."""

    relation: str
    seals: str = "fitted"

    def phrase(self, check_id: str) -> Phrase:
        """The joint's words for what is the joint's check, wherever the parts meet."""
        own = PART_PHRASES.get(check_id)
        if own is not None and (check_id not in OF_PLATES_ONLY or self.relation == "plate"):
            return own
        return phrase_of(check_id, self.seals)
