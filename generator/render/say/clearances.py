"""What the clearance of each check is called, so that a number reads as something to see on the joint.

Goes in: a check id.  Comes out: its subject and the words for more and for less than nothing.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from generator.render.say.said import End, Figures, Said


@dataclass(frozen=True, slots=True)
class Phrase:
    """`subject` + amount + `more`, or + amount + `less` where the number is negative.

    `brief` are the two words for a band that lies on both sides of nothing.
    """

    subject: str
    more: str
    less: str
    brief: tuple[str, str] = ("clear", "short")

    def amount(self, nanometres: float, figures: Figures, end: End = "no end") -> Said:
        words = self.less if round(nanometres) < 0 else self.more
        return (figures.amount(nanometres, end), f" {words}")

    def limit(self, nanometres: float, figures: Figures, end: End = "no end") -> Said:
        words = self.brief[1] if round(nanometres) < 0 else self.brief[0]
        return (figures.amount(nanometres, end), f" {words}" if words else "")


_FITTED = Phrase(
    "With the side plate level with its neighbours the groove is", "clear of it", "short of clear"
)
_OUT = Phrase(
    "The pins reach",
    "further out than the riveted heads of the chain",
    "less far out than the riveted heads of the chain",
    ("out", "in"),
)

PHRASES: Mapping[str, Phrase] = {
    "pitch": Phrase(
        "The pins are",
        "further apart than the pitch of the chain",
        "closer together than the pitch of the chain",
        ("wider", "closer"),
    ),
    "pin-entry": Phrase(
        "The pin is", "thinner than the bore of the bush", "too thick for the bush", ("thinner", "too thick")
    ),
    "clip-goes-on": _FITTED,
    "clip-goes-on-without-seals": Phrase(
        "With the side plate pushed in to the bush ends the groove is", "clear of it", "short of clear"
    ),
    "packing-room": Phrase(
        "Between bush ends and neighbouring plates two washers have",
        "to spare",
        "too little room",
        ("to spare", "too little"),
    ),
    "backing": Phrase(
        "The clip stands",
        "behind the resting place of the side plate",
        "inside the resting place of the side plate",
        ("behind", "inside"),
    ),
    "float": Phrase("Between bush and clip the side plate is", "loose", "tight", ("loose", "tight")),
    "shoulder-place": Phrase(
        "The shoulder stops the side plate",
        "wider than its neighbours",
        "narrower than its neighbours",
        ("wider", "narrower"),
    ),
    "clip-over-shoulder": Phrase(
        "With the side plate on its shoulder the groove is", "clear of it", "short of clear"
    ),
    "bush-stop": Phrase(
        "The shoulder stops the side plate",
        "before the bush ends",
        "beyond the bush ends",
        ("before", "beyond"),
    ),
    "tip-land": Phrase("The metal beyond the groove is", "long", "short of nothing", ("", "short")),
    "squeeze": Phrase(
        "Taken together, the two seals of a pin are",
        "squeezed",
        "short of touching",
        ("squeezed", "short of touching"),
    ),
    "clip-entry": Phrase(
        "The groove is", "wider than the clip", "too narrow for the clip", ("wider", "too narrow")
    ),
    "clip-seat": Phrase(
        "The seat of the clip is",
        "wider than the bottom of the groove",
        "narrower than the bottom of the groove",
        ("wider", "narrower"),
    ),
    "clip-mouth": Phrase(
        "The mouth of the clip is", "narrower than the groove", "wider than the groove", ("narrower", "wider")
    ),
    "clip-spacing": Phrase(
        "The seats of the clip are",
        "further apart than the pins",
        "closer together than the pins",
        ("wider", "closer"),
    ),
    "clip-wear": Phrase("What is left of the clip is", "thick", "thick", ("", "")),
    "clip-floor": Phrase("At its thinnest place the clip is", "thick", "thick", ("", "")),
    "stick-out": _OUT,
    "stick-out-unread": _OUT,
    "plate-height": Phrase(
        "The side plate is", "taller than its neighbours", "lower than its neighbours", ("taller", "lower")
    ),
    "plate-section": Phrase("The side plate is", "thick", "thick", ("", "")),
    "flare-stand-out": Phrase(
        "To be flared, the pins stand",
        "out of the side plate",
        "short of coming through the side plate",
        ("out", "short"),
    ),
    "hollow-depth": Phrase(
        "The bore of the pin ends",
        "below the face of the side plate",
        "above the face of the side plate",
        ("below", "above"),
    ),
}

# a packed joint rests on its washers, a riveted one has nothing to clip
PACKED = Phrase("With the side plate pushed in to the washers the groove is", "clear of it", "short of clear")
OTHER = Phrase("The clearance is", "to the good", "below nothing", ("", "below nothing"))
WITH_SEALS = Phrase(
    "Between bush and clip, the seals pushing, the side plate is", "loose", "held tight", ("loose", "tight")
)


def phrase_of(check_id: str, seals: str) -> Phrase:
    """The words of a check; a rule of a club's own has none, and speaks of its clearance only."""
    if check_id == "clip-goes-on-without-seals" and seals == "packed":
        return PACKED
    if check_id == "float" and seals == "fitted":
        return WITH_SEALS
    return PHRASES.get(check_id, OTHER)
