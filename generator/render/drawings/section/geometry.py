"""Where every face of a joint stands, in mm from the inner face of the fixed plate."""

from collections.abc import Mapping
from dataclasses import dataclass

from generator.render.drawings.section.input import PlateFit, Seals, SectionDimensions, Value, values

# Shapes no dimension is recorded for, as multiples of the bush bore: bush, roller and plate end (from memory).
BUSH_OUTSIDE, ROLLER_OUTSIDE, PLATE_END = 1.40, 1.92, 2.80
# Room to the bike beyond this is said in words: to scale it would shrink the joint.
FAR_MM = 6.0


@dataclass(frozen=True, slots=True)
class Faces:
    """Positions in mm; `values` are the dimensions they come from."""

    values: Mapping[str, Value]
    plate_fit: PlateFit
    seals: Seals
    has_clip: bool
    reach: float
    groove_far: float
    clip_near: float
    stop: float
    seat: float
    # the inner link: left and right bush ends, left and right plate faces
    bush: tuple[float, float]
    inner: tuple[float, float]
    heads: tuple[float, float]
    tip: float
    guide: float | None
    half_height: float
    pin: tuple[float, float]
    bore: tuple[float, float]

    def mm(self, name: str) -> float:
        return self.values[name].mm

    def missing(self, *names: str) -> bool:
        return any(not self.values[name].read for name in names)

    @property
    def plate_outer(self) -> float:
        return self.seat + self.mm("side_plate_thickness")

    @property
    def clip_outside(self) -> float:
        """How far from the axis the clip is drawn to reach; its outline is schematic."""
        inside = max(self.pin[1], self.mm("groove_diameter") / 2)
        return min(inside + self.mm("clip_thickness") * 1.3, max(inside, self.half_height))


def faces_of(dims: SectionDimensions) -> Faces:
    """All faces, the plate at its seat and the clip bearing on the far edge of its groove.

    With seals or washers the inner link stands in the middle, because they centre it; without
    them it lies against the fixed plate, so that all its play shows in one place.
    """
    found = values(dims)
    mm = {name: value.mm for name, value in found.items()}
    reach = _reach(dims, found)
    clip_near = reach + mm["groove_width"] - mm["clip_thickness"]
    stop = clip_near - mm["side_plate_thickness"]
    seat = _seat(dims, mm, stop)
    middle = seat / 2 if dims.seals in ("fitted", "packed") else mm["over_bush_ends"] / 2
    b3, b4 = mm["between_outer_plates"], mm["over_riveted_pins"]
    # the chain pulls the pin to one side of the bush, so all the play shows on the other
    pin_half = mm["pin_diameter"] / 2
    room = found["bike_clearance"]
    return Faces(
        values=found,
        plate_fit=dims.plate_fit,
        seals=dims.seals,
        has_clip=dims.closure == "clip",
        reach=reach,
        groove_far=reach + mm["groove_width"],
        clip_near=clip_near,
        stop=stop,
        seat=seat,
        bush=_around(middle, mm["over_bush_ends"]),
        inner=_around(middle, mm["over_inner_plates"]),
        heads=_around(b3 / 2, b4),
        tip=mm["pin_length"],
        guide=(b3 + b4) / 2 + room.mm if dims.bike_clearance is not None and room.mm <= FAR_MM else None,
        half_height=max(mm["bush_bore"], mm["pin_diameter"], mm["groove_diameter"]) * PLATE_END / 2,
        pin=(-pin_half, pin_half),
        bore=(pin_half - mm["bush_bore"], pin_half),
    )


def _around(middle: float, width: float) -> tuple[float, float]:
    return middle - width / 2, middle + width / 2


def _reach(dims: SectionDimensions, found: Mapping[str, Value]) -> float:
    """Pin reach, or what the clip stop says of it where only that was read."""
    if dims.pin_reach is None and dims.clip_stop is not None:
        return found["clip_stop"].mm + found["clip_thickness"].mm - found["groove_width"].mm
    return found["pin_reach"].mm


def _seat(dims: SectionDimensions, mm: Mapping[str, float], stop: float) -> float:
    """Where the side plate rests: against its clip, on its shoulder, or pressed level with the neighbours."""
    if dims.plate_fit == "slip" and dims.closure == "clip":
        return stop
    if dims.plate_fit == "press-to-shoulder":
        return mm["shoulder_depth"]
    return mm["between_outer_plates"]
