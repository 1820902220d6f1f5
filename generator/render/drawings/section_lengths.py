"""Which dimensions play a part in a joint, what they are called, and between which faces they lie.

Goes in: faces.  Comes out: names, words, and ends in mm along the pin.
"""

from generator.render.drawings.section_geometry import Faces

# name -> words with the symbol
WORDS = {
    "over_inner_plates": "inner plates b2p",
    "over_bush_ends": "bush ends b2b",
    "between_outer_plates": "neighbour inside b3",
    "over_riveted_pins": "neighbour pin heads b4",
    "plate_thickness": "neighbour plate tc",
    "pin_reach": "pin reach G",
    "clip_stop": "clip stop C",
    "pin_length": "pin length L",
    "shoulder_depth": "shoulder M",
    "groove_width": "groove width gw",
    "groove_diameter": "groove diameter gd",
    "side_plate_thickness": "side plate t",
    "clip_thickness": "clip k",
    "seal_thickness": "free seal s",
    "washer_thickness": "washer w",
    "bike_clearance": "room to the bike",
    "pin_diameter": "pin",
    "bush_bore": "bore",
}
_CLIP_ONLY = ("pin_reach", "clip_stop", "groove_width", "groove_diameter", "clip_thickness")


def concerned(faces: Faces) -> set[str]:
    """Names that have a place in this joint; a stand-in is only drawn where its part is."""
    names = set(WORDS) if faces.has_clip else set(WORDS) - set(_CLIP_ONLY)
    skip = {
        "shoulder_depth": faces.plate_fit == "press-to-shoulder",
        "seal_thickness": faces.seals in ("fitted", "left-out"),
        "washer_thickness": faces.seals == "packed",
        "bike_clearance": faces.guide is not None,
        "clip_stop": faces.values["clip_stop"].known != "missing",
        "pin_reach": faces.values["pin_reach"].known != "missing"
        or faces.values["clip_stop"].known == "missing",
    }
    return names - {name for name, keep in skip.items() if not keep}


def lengths(faces: Faces) -> dict[str, tuple[float, float]]:
    """Where along the pin each dimension lies, in mm."""
    mm = faces.mm
    b3 = mm("between_outer_plates")
    return {
        "over_inner_plates": faces.inner,
        "over_bush_ends": faces.bush,
        "between_outer_plates": (0.0, b3),
        "over_riveted_pins": faces.heads,
        "plate_thickness": (b3, b3 + mm("plate_thickness")),
        "pin_reach": (0.0, faces.reach),
        "clip_stop": (0.0, mm("clip_stop")),
        "pin_length": (0.0, faces.tip),
        "shoulder_depth": (0.0, mm("shoulder_depth")),
        "groove_width": (faces.reach, faces.groove_far),
        "side_plate_thickness": (faces.seat, faces.plate_outer),
        "clip_thickness": (faces.clip_near, faces.groove_far),
        "seal_thickness": (faces.seat - mm("seal_thickness"), faces.seat),
        "washer_thickness": (faces.inner[1], faces.inner[1] + mm("washer_thickness")),
        "bike_clearance": (faces.heads[1], faces.heads[1] + mm("bike_clearance")),
    }


def extent(faces: Faces) -> tuple[float, float]:
    """Least and greatest x that must be in the picture: every dimension drawn, and every body."""
    names = concerned(faces)
    xs = [x for name, ends in lengths(faces).items() if name in names for x in ends]
    thick = faces.mm("side_plate_thickness")
    bodies = [-max(faces.mm("plate_thickness"), thick), faces.seat, faces.plate_outer, faces.tip, *faces.bush]
    if faces.seals == "packed":
        half = faces.mm("washer_thickness") / 2
        middles = (faces.inner[0] / 2, (faces.inner[1] + faces.seat) / 2)
        bodies += [middles[0] - half, middles[1] + half]
    # the clip's room only counts where there is a clip
    bodies += [faces.stop, faces.clip_near, faces.groove_far] if faces.has_clip else []
    bodies += [faces.guide + 0.6] if faces.guide is not None else []
    return min([0.0, *xs, *bodies]), max([0.0, *xs, *bodies])
