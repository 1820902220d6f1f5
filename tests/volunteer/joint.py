"""Hidden joints: true parts of one chain and one link, drawn at random from a seed.

Lengths are mm; all bands and shares are common practice or judgement, no source.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from random import Random
from typing import Any, Literal

Kind = Literal["same-type", "same-size", "wrong"]
KINDS: tuple[Kind, ...] = ("same-type", "same-size", "wrong")

# the worked chains and links of the measuring notes
CHAINS: Mapping[str, Mapping[str, float]] = {
    "sealed": {"bush_bore": 5.30, "over_inner_plates": 10.95, "over_bush_ends": 11.25, "between_outer_plates": 13.05,
               "over_riveted_pins": 19.40, "plate_thickness": 2.10, "plate_height": 15.00},
    "plain": {"bush_bore": 5.32, "over_inner_plates": 10.60, "over_bush_ends": 10.60, "between_outer_plates": 11.00,
              "over_riveted_pins": 17.30, "plate_thickness": 2.00, "plate_height": 15.00},
}  # fmt: skip
LINKS: Mapping[str, Mapping[str, float]] = {
    "sealed": {"pin_diameter": 5.24, "pin_reach": 15.20, "pin_length": 17.30, "groove_width": 1.10,
               "groove_diameter": 3.50, "side_plate_thickness": 2.10, "side_plate_height": 15.00,
               "fixed_plate_thickness": 2.10, "head_stand_out": 1.00, "pin_spacing": 15.875},
    "plain": {"pin_diameter": 5.22, "pin_reach": 13.10, "pin_length": 15.10, "groove_width": 1.10,
              "groove_diameter": 3.50, "side_plate_thickness": 2.00, "side_plate_height": 15.00,
              "fixed_plate_thickness": 2.00, "head_stand_out": 1.00, "pin_spacing": 15.875},
}  # fmt: skip
CLIP = {"thickness": 1.00, "thickness_new": 1.00, "seat_width": 3.45, "mouth": 2.95, "pin_spacing": 15.875}
# how far a length of another make may lie off, in tenths of a millimetre
OTHER_MAKE: Mapping[str, float] = {
    "pin_diameter": 0.06, "pin_reach": 0.30, "pin_length": 0.40, "groove_width": 0.06, "side_plate_thickness": 0.12,
    "side_plate_height": 0.30,
}  # fmt: skip
# one clear fault each, by 0.30 mm or more in what a hand feels
CLEAR: tuple[tuple[str, float], ...] = (("pin_diameter", 0.45), ("pin_reach", -2.30), ("groove_width", -0.45))
LOOKED: tuple[tuple[str, str, Any], ...] = (
    ("link", "condition", "cracked"), ("link", "condition", "drilled"), ("clip", "history", "bent"),
    ("link", "half_link", "yes"),
)  # fmt: skip


@dataclass
class Hidden:
    """What the parts truly are, and what would be seen of them."""

    seed: int
    kind: Kind
    sealed: bool
    slides: bool
    in_use: bool
    chain: dict[str, Any]
    link: dict[str, Any]
    clip: dict[str, Any]
    seals: dict[str, Any]
    # how far outside its neighbours a pressed plate lies in the joint that is closed now
    off: float = 0.0
    lost_grip: bool = False
    stiff: bool = False
    hopeless: bool = False
    room: float = 4.0
    words: dict[str, Any] = field(default_factory=dict)


def hidden_joint(seed: int) -> Hidden:
    """One joint; a third each came with its chain, is of another make, is wrong or damaged."""
    random = Random(seed)
    sealed = random.random() < 0.5
    kind = KINDS[seed % 3]
    chain, link = dict(CHAINS["sealed" if sealed else "plain"]), dict(LINKS["sealed" if sealed else "plain"])
    joint = Hidden(
        seed, kind, sealed, not sealed, False, dict(chain), dict(link), dict(CLIP), {"thickness": 1.28}
    )
    joint.words = {"link": {"condition": "new", "half_link": "no"}, "clip": {"history": "new"}, "seal": {"covers_bush": "yes"},
                   "chain": {"state": "as-made", "pull_off": "under-half", "elongation": f"{random.uniform(0, 0.7):.2f}"}}  # fmt: skip
    _made(random, joint)
    {"same-type": _same_type, "same-size": _same_size, "wrong": _wrong}[kind](random, joint)
    for part in (joint.chain, joint.link, joint.clip, joint.seals):
        part |= {name: round(value, 3) for name, value in part.items()}
    joint.off = round(joint.off, 3)
    return joint


def _made(random: Random, joint: Hidden) -> None:
    """Even good parts scatter by a hundredth or two."""
    for part in (joint.chain, joint.link, joint.clip):
        for name in part:
            part[name] += random.uniform(-0.008, 0.008)
    joint.clip["thickness_new"] = max(joint.clip["thickness_new"], joint.clip["thickness"])


def _same_type(random: Random, joint: Hidden) -> None:
    """Half of them run already; of those one in five is not proper."""
    joint.words["link"]["came_with"] = "red"
    joint.in_use = random.random() < 0.5
    if joint.in_use:
        joint.words["clip"]["history"] = "never-off"
        if random.random() < 0.2:
            joint.words["fault"] = random.choice(("off", "clip", "loose"))
            joint.off = (
                random.uniform(0.5, 0.9) if joint.words["fault"] == "off" and not joint.slides else 0.0
            )


def _same_size(random: Random, joint: Hidden) -> None:
    for name, most in OTHER_MAKE.items():
        joint.link[name] += random.uniform(-most, most)
    joint.words["link"]["condition"] = random.choice(("new", "new", "new", "fitted-once"))
    joint.words["clip"]["history"] = random.choice(("new", "new", "off-once"))
    joint.stiff = random.random() < 0.05


def _wrong(random: Random, joint: Hidden) -> None:
    """Told by a look, or felt by a hand."""
    joint.hopeless = True
    if random.random() < 0.5:
        part, name, value = random.choice(LOOKED)
        joint.words[part][name] = value
    else:
        name, by = random.choice(CLEAR)
        joint.link[name] += by
        if name == "pin_reach":
            joint.link["pin_length"] += by
