"""The kinds of record a club keeps, a row each: whatever lists kinds, reads this table."""

from collections.abc import Mapping
from dataclasses import dataclass

from generator.model.chain_parts import Chain, Clip, Link, SealSet, SidePlate, Strip
from generator.model.club import RuleOverride
from generator.model.record import Record
from generator.model.tools_and_bikes import Bike, Tool
from generator.model.trials_and_rides import Ride, Trial


@dataclass(frozen=True, slots=True)
class Kind:
    """`word` is what one is called beside its label, `plural` the title of its list, `labels` its head among all
    labels where that says more; `read_on` where its dimensions are read, `holds` what its published file holds.
    `words` are those of the glossary that it goes by."""

    model: type[Record]
    word: str
    holds: str
    plural: str = ""
    labels: str = ""
    read_on: str = ""
    words: tuple[str, ...] = ()

    @property
    def stem(self) -> str:
        """Of its file, its folder of pages, its published list and its field of the dataset."""
        return self.model.file.removesuffix(".yaml")


# in the order in which a reader would look for one
KINDS: Mapping[str, Kind] = {
    "chain": Kind(Chain, "chain", "Every chain with its readings as intervals", "Chains", read_on="On the chain"),
    "link": Kind(Link, "link", "Every connecting link with its readings as intervals", "Connecting links",
                 read_on="On the connecting link"),
    "clip": Kind(Clip, "clip", "Every clip with its readings and history", "Clips", read_on="On the clip", words=("clip",)),
    "seal": Kind(SealSet, "seals", "Every set of seals and washers", "Seals", "Seals and washers", "On the seals",
                 ("seal", "o-seal", "x-seal")),
    "plate": Kind(SidePlate, "side plate", "Every loose side plate", "Side plates", read_on="On a loose side plate",
                  words=("side-plate",)),
    "strip": Kind(Strip, "strip", "Every spare strip", "Strips", "Spare strips", "On a spare strip", ("spare-strip",)),
    "tool": Kind(Tool, "tool", "Every tool and the key it needs", "Tools", "Tools and keys", "On a tool"),
    "bike": Kind(Bike, "bike", "Every bike: sprockets, pitches, room beside the chain", "Bikes", read_on="On the bike"),
    "trial": Kind(Trial, "dry fit", "Every dry fit", read_on="At a dry fit"),
    "ride": Kind(Ride, "ride", "Rides: which bikes, who leads, who sweeps"),
    "rule": Kind(RuleOverride, "rule", "Limits the club set for itself, and why"),
}  # fmt: skip
MODELS: Mapping[str, type[Record]] = {id_: kind.model for id_, kind in KINDS.items()}
# what has a label of its own: on a bag, or on the bike or chain itself
PART_KINDS: tuple[str, ...] = tuple(id_ for id_, kind in KINDS.items() if kind.plural)
# what lies in a bag
KEPT: tuple[str, ...] = tuple(id_ for id_ in PART_KINDS if id_ not in ("chain", "bike"))
