"""What the number of each check is: a play, a thickness, a squeeze, and not always a clearance.

Goes in: a check id.  Comes out: one or two words for small print beside the number.
"""

from collections.abc import Mapping

QUANTITIES: Mapping[str, str] = {
    "pitch": "difference of pitch",
    "pin-entry": "play of the pin",
    "clip-goes-on": "room for the clip",
    "clip-goes-on-without-seals": "room for the clip",
    "packing-room": "room to spare",
    "backing": "clip behind the plate",
    "float": "float of the plate",
    "shoulder-place": "plate past neighbours",
    "clip-over-shoulder": "room for the clip",
    "bush-stop": "plate off the bush",
    "tip-land": "length of metal",
    "squeeze": "squeeze of two seals",
    "clip-wear": "thickness",
    "clip-floor": "thickness",
    "clip-entry": "room in the groove",
    "clip-seat": "seat less groove",
    "clip-mouth": "groove less mouth",
    "clip-spacing": "difference of spacing",
    "stick-out": "stick-out",
    "stick-out-unread": "stick-out",
    "plate-height": "difference of height",
    "plate-section": "thickness",
    "flare-stand-out": "stand-out of the pin",
    "hollow-depth": "bore below the plate",
    # of parts other than a link on a chain
    "plate-stop": "shift of the clip",
    "plate-flare": "shift of the stand-out",
    "plate-holes": "difference of spacing",
    "strip-pitch": "difference of pitch",
    "strip-roller": "difference of rollers",
    "strip-inner-width": "difference of width",
    "strip-bush-bore": "difference of bores",
    "strip-outer-plates": "difference of width",
    "neighbour-bush-ends": "difference of width",
    "tool-jaw-chain": "room in the jaws",
    "tool-jaw-link": "room in the jaws",
    "tool-pushing-pin": "pin less tool pin",
}


def quantity_of(check_id: str) -> str:
    """A rule of a club's own speaks of a clearance only."""
    return QUANTITIES.get(check_id, "clearance")
