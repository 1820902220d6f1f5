"""Where in the section a clearance shows, and what stands on either side of it.

Goes in: a mark and the faces.  Comes out: its two ends in mm, with words for them.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import Literal

from generator.model.quantity import NM_PER_MM
from generator.render.drawings.section_geometry import Faces
from generator.render.drawings.section_input import Mark
from generator.render.drawings.units import length, span

Words = tuple[str, str]

# what a positive and what a negative clearance is called
ROOM: Words = ("gap", "clash")
LEFT_OVER: Words = ("", "short by")


@dataclass(frozen=True, slots=True)
class Site:
    """A clearance runs from `before` to `after`; one end is a face that stands fast in the drawing."""

    words: Words
    before: str
    after: str
    face: Callable[[Faces], float] | None = None
    hold: Literal["before", "after"] = "after"
    axis: Literal["x", "y"] = "x"
    band: Literal["plate", "bush", "pin"] = "plate"
    # what fills the clearance when it is not room: metal that is left, rubber that is squeezed
    solid: Literal["link", "seal"] | None = None
    # what a negative clearance is called where the check takes it
    allowed: str = "short by"


def _clip_near(faces: Faces) -> float:
    return faces.clip_near


def _shoulder(faces: Faces) -> float:
    return faces.mm("shoulder_depth")


def _tip(faces: Faces) -> float:
    return faces.tip


_OUT = Site(("out by", "in by"), "neighbour's heads", "pin tip", _tip, band="pin", solid="link")
_SITES: Mapping[str, Site] = {
    "pin-entry": Site(ROOM, "bush", "pin", lambda f: f.pin[0], axis="y", band="bush"),
    "clip-goes-on": Site(ROOM, "side plate", "clip", _clip_near),
    "clip-goes-on-without-seals": Site(ROOM, "side plate", "clip", _clip_near),
    "backing": Site(ROOM, "side plate", "clip", _clip_near, allowed="bears by"),
    "float": Site(ROOM, "bush end", "side plate", lambda f: f.stop, band="bush", allowed="held tight by"),
    "shoulder-place": Site(("wider by", "narrower by"), "neighbour's plate", "side plate", _shoulder),
    "clip-over-shoulder": Site(ROOM, "side plate", "clip", _clip_near),
    "bush-stop": Site(ROOM, "bush end", "side plate", _shoulder, band="bush"),
    "tip-land": Site(LEFT_OVER, "groove", "pin tip", _tip, band="pin", solid="link"),
    "squeeze": Site(
        ("squeezed", "loose by"),
        "side plate",
        "seals at rest",
        lambda f: f.seat,
        hold="before",
        band="bush",
        solid="seal",
    ),
    "clip-entry": Site(ROOM, "groove edge", "clip", _clip_near, band="pin"),
    "clip-floor": Site(LEFT_OVER, "clip, inside", "clip, outside", lambda f: f.groove_far, solid="link"),
    "stick-out": _OUT,
    "stick-out-unread": _OUT,
    "plate-section": Site(
        LEFT_OVER, "plate, inside", "plate, outside", lambda f: f.plate_outer, solid="link"
    ),
    "flare-stand-out": Site(
        ("stands out", "short by"), "side plate", "pin tip", _tip, band="pin", solid="link"
    ),
    # these lie across the cut or in another part: they are only shown enlarged
    "pitch": Site(("longer by", "shorter by"), "chain pitch", "link pitch"),
    "clip-seat": Site(("loose by", "grips by"), "groove", "clip seat"),
    "clip-mouth": Site(("narrower by", "wider by"), "clip mouth", "groove"),
    "clip-spacing": Site(("longer by", "shorter by"), "pins", "clip seats"),
    "clip-wear": Site(LEFT_OVER, "clip, inside", "clip, outside", solid="link"),
    "plate-height": Site(("higher by", "lower by"), "neighbour's plate", "side plate"),
    "hollow-depth": Site(("deeper by", "short by"), "side plate", "end of bore"),
}
# a sliding plate already bears on its clip, so the same clearance shows at its inner face
_SLIDING: Mapping[str, str] = {
    "clip-goes-on": "neighbour's plate",
    "clip-goes-on-without-seals": "bush end",
    "backing": "neighbour's plate",
}
_NEEDS_CLIP = frozenset(
    (
        "clip-goes-on",
        "clip-goes-on-without-seals",
        "backing",
        "clip-over-shoulder",
        "clip-entry",
        "clip-floor",
    )
)


@dataclass(frozen=True, slots=True)
class Spot:
    """A clearance with its place: ends in mm (None: not in this cut), signed length end - start."""

    mark: Mark
    site: Site
    nominal: int
    ends: tuple[float, float] | None

    @property
    def sign(self) -> int:
        return (self.nominal > 0) - (self.nominal < 0)

    @property
    def clashes(self) -> bool:
        """Two bodies want the same room, and the check does not take it."""
        return self.nominal < 0 and self.site.words == ROOM and not self.allowed

    @property
    def allowed(self) -> bool:
        """Nothing less is asked for: a plate held tight by its seals, a clip that bears on its plate."""
        low, high = self.mark.wanted_low, self.mark.wanted_high
        return high is not None if low is None else self.nominal >= low


def spot_of(mark: Mark, faces: Faces) -> Spot | None:
    """The spot of a clearance; None where there is no length to show."""
    site = _SITES.get(mark.check_id)
    if site is None or mark.nominal is None:
        return None
    if faces.plate_fit == "slip" and mark.check_id in _SLIDING:
        site = replace(site, before=_SLIDING[mark.check_id], after="side plate", face=lambda f: f.stop)
    if site.face is None or (mark.check_id in _NEEDS_CLIP and not faces.has_clip):
        return Spot(mark, site, mark.nominal, None)
    held, length = site.face(faces), mark.nominal / NM_PER_MM
    ends = (held - length, held) if site.hold == "after" else (held, held + length)
    return Spot(mark, site, mark.nominal, ends)


def in_words(spot: Spot) -> str:
    """`gap 0.15 mm`, `clash 0.07 mm`, or the like; what is simply there needs no word, and what is wanted is no clash."""
    word = spot.site.words[1 if spot.nominal < 0 else 0]
    if spot.nominal < 0 and spot.allowed and spot.site.words == ROOM:
        word = spot.site.allowed
    return f"{word} {length(abs(spot.nominal))}".lstrip()


def range_in_words(mark: Mark) -> str | None:
    """The interval, where it is one."""
    if mark.low is None or mark.high is None or mark.low == mark.high:
        return None
    return span(mark.low, mark.high)


def wanted_in_words(mark: Mark) -> str | None:
    """The limits of the proper band."""
    low, high = mark.wanted_low, mark.wanted_high
    if low is not None and high is not None:
        return span(low, high)
    if low is not None:
        return f"at least {length(low)}"
    return f"at most {length(high)}" if high is not None else None
