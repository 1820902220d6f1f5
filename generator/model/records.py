"""The records of a club's folder, one frozen model a file kind; schema, docs and starter come from here.

Goes in: plain text values read by the strict loader.  Comes out: records as written, nothing computed.
"""

from typing import Annotated, Any, ClassVar, Literal

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field

from generator.model.fields import (
    CountText,
    DateText,
    Force,
    IdText,
    Length,
    Mass,
    NumberText,
    SizeCode,
    SourceRef,
    YesNo,
)


def reading(description: str, symbol: str | None = None) -> Any:
    """An optional dimension; `symbol` is the one of ISO 606 where it has one, else ours."""
    return Field(None, description=description, json_schema_extra={"x-symbol": symbol} if symbol else None)


Free = Annotated[str, Field(max_length=400, json_schema_extra={"x-free-text": True})]


def _as_list(value: Any) -> Any:
    return [value] if isinstance(value, str) else value


class Record(BaseModel):
    """Unknown keys are refused; a record never changes after it is read."""

    model_config = ConfigDict(frozen=True, extra="forbid", arbitrary_types_allowed=True)
    # the file the kind lives in, and the word for one record of it
    file: ClassVar[str]
    kind_word: ClassVar[str]

    name: Free | None = Field(None, description="What people call it")
    note: Free | None = Field(None, description="Anything worth remembering")


class Measured(Record):
    """A record with readings: who read them, when, with what."""

    measured_with: IdText | None = Field(None, description="Instrument, an id of club.yaml")
    measured_on: DateText | None = Field(None, description="Date of the readings")
    measured_by: Free | None = Field(None, description="A role, not a person's name")
    source: SourceRef | None = Field(None, description="Where stated values come from: id[place]")


class Chain(Measured):
    """A drive chain as it runs on one or more bikes."""

    file: ClassVar[str] = "chains.yaml"
    kind_word: ClassVar[str] = "chain"

    size_code: SizeCode = Field(description="Size code stamped on the outer plate, or unknown")
    kind: Literal["plain", "sealed", "unknown"] = Field(description="plain or sealed")
    seal: Literal["O", "X", "other", "none", "unknown"] = Field(
        "unknown", description="Section of its seals; none on a plain chain"
    )
    own_joint: Literal["clip-slip", "clip-press", "rivet", "endless", "unknown"] = Field(
        "unknown", description="How the chain itself is joined"
    )
    own_link: IdText | None = Field(None, description="The connecting link it runs with now")
    state: Literal["as-made", "modified"] = Field("as-made", description="modified: no verdict is given")
    pitch: Length | None = reading("Pitch, if it was read", "p")
    roller_diameter: Length | None = reading("Roller diameter", "d1")
    inner_width: Length | None = reading("Between the inner plates", "b1")
    bush_bore: Length | None = reading("Bore of the bush", "d3")
    over_inner_plates: Length | None = reading("Over the inner plates", "b2p")
    over_bush_ends: Length | None = reading("Over the bush ends; bushes stand proud", "b2b")
    between_outer_plates: Length | None = reading("Between the outer plates, if read directly", "b3")
    over_outer_plates: Length | None = reading("Over the outer plates at the waist, off the heads", "b3o")
    plate_thickness: Length | None = reading("Outer plate thickness", "tc")
    over_riveted_pins: Length | None = reading("Over two riveted heads", "b4")
    plate_height: Length | None = reading("Plate height", "h2")
    seal_thickness: Length | None = reading("Free thickness of its seals", "s")
    elongation: NumberText | None = Field(None, description="Elongation by wear in per cent, or unknown")
    tensile: Force | None = Field(None, description="Tensile strength, only if stated or published")


class Link(Measured):
    """A connecting link in a bag, or the one on a chain."""

    file: ClassVar[str] = "links.yaml"
    kind_word: ClassVar[str] = "connecting link"

    size_code: SizeCode = Field(description="Size code on the packet or plate, or unknown")
    count: CountText = Field(1, description="How many there are")
    closure: Literal["clip", "rivet", "screw"] = Field(description="What holds the side plate")
    plate_fit: Literal["slip", "press", "press-to-shoulder", "unknown"] = Field(
        description="Does the side plate slide on by hand, or need a press, and does a shoulder stop it?"
    )
    made_for: Literal["plain", "sealed", "unknown"] = Field(description="The kind of chain it was made for")
    clip: IdText | None = Field(None, description="Its own clip, an id of clips.yaml")
    seals: IdText | None = Field(
        None, description="Seals supplied with it, an id of seals.yaml; left out: none"
    )
    pin_kind: Literal["hollow", "solid", "unknown"] = Field(
        "unknown", description="Rivet pins: hollow or solid"
    )
    half_link: YesNo = Field(False, description="Cranked one-pitch link")
    condition: Literal["new", "fitted-once", "cracked", "drilled", "worn", "modified", "unknown"] = Field(
        "new", description="worn: a step of 0.10 mm or more on a pin"
    )
    pin_diameter: Length | None = reading("Pin where it runs in the bush", "d2")
    pin_step: Length | None = reading("Largest less smallest pin diameter while turning")
    pin_reach: Length | None = reading("Fixed plate inner face to near edge of the groove", "G")
    clip_stop: Length | None = reading(
        "Fixed plate inner face to the near face of a clip pulled outward", "C"
    )
    clip_stop_with: IdText | None = Field(None, description="The clip used for clip_stop; left out: its own")
    pin_length: Length | None = reading("Fixed plate inner face to pin tip", "L")
    shoulder_depth: Length | None = reading(
        "Fixed plate inner face to the shoulder that stops the side plate", "M"
    )
    groove_width: Length | None = reading("Groove width", "gw")
    groove_diameter: Length | None = reading("Diameter at the bottom of the groove", "gd")
    side_plate_thickness: Length | None = reading("Side plate thickness", "t")
    side_plate_height: Length | None = reading("Side plate height", "h")
    hollow_depth: Length | None = reading("Depth of the bore in a hollow pin")
    tensile: Force | None = Field(None, description="Tensile strength, only if stated or published")
    mass: Mass | None = Field(None, description="Mass of one")
    cost: NumberText | None = Field(None, description="Cost of one, in the club's currency")
    kept_in: Free | None = Field(None, description="Where it is kept")


class Clip(Measured):
    """A spring clip, loose or on its link."""

    file: ClassVar[str] = "clips.yaml"
    kind_word: ClassVar[str] = "clip"

    count: CountText = Field(1, description="How many there are")
    thickness: Length | None = reading("At the thinnest place", "k")
    thickness_new: Length | None = reading("When new", "k0")
    seat_width: Length | None = reading("Inside, at a pin seat")
    mouth: Length | None = reading("Narrowest place between the tips")
    pin_spacing: Length | None = reading("Between the two pin seats")
    bow: Length | None = reading("On glass: highest point less thickness")
    history: Literal["new", "never-off", "off-once", "bent", "unknown"] = Field(
        description="Has it been off its link?"
    )
    mass: Mass | None = Field(None, description="Mass of one")
    cost: NumberText | None = Field(None, description="Cost of one")
    kept_in: Free | None = Field(None, description="Where it is kept")


class SealSet(Measured):
    """Seals for one joint, or packing washers that take their place."""

    file: ClassVar[str] = "seals.yaml"
    kind_word: ClassVar[str] = "seal set"

    count: CountText = Field(1, description="How many sets of four")
    shape: Literal["O", "X", "other", "washer", "unknown"] = Field(description="Section")
    thickness: Length | None = reading("Free thickness of one", "s")
    inner_diameter: Length | None = reading("Inner diameter")
    outer_diameter: Length | None = reading("Outer diameter")
    covers_bush: Literal["yes", "no", "unknown"] = Field(
        "unknown", description="Does the seal cover the bush ring?"
    )
    mass: Mass | None = Field(None, description="Mass of one set")
    cost: NumberText | None = Field(None, description="Cost of one set")
    kept_in: Free | None = Field(None, description="Where it is kept")


class SidePlate(Measured):
    """A loose side plate as a part of its own."""

    file: ClassVar[str] = "plates.yaml"
    kind_word: ClassVar[str] = "side plate"

    size_code: SizeCode = Field(description="Size code it belongs to, or unknown")
    count: CountText = Field(1, description="How many there are")
    plate_fit: Literal["slip", "press", "press-to-shoulder", "unknown"] = Field(
        description="slides on by hand, or needs a press"
    )
    from_link: IdText | None = Field(None, description="The link it came from")
    condition: Literal["new", "fitted-once", "drilled", "oval", "cracked", "modified", "unknown"] = Field(
        "new", description="State of plate and holes"
    )
    thickness: Length | None = reading("Thickness", "t")
    height: Length | None = reading("Height", "h")
    hole_spacing: Length | None = reading("Between hole centres", "p")
    mass: Mass | None = Field(None, description="Mass of one")
    kept_in: Free | None = Field(None, description="Where it is kept")


class Strip(Measured):
    """A spare strip of chain, inner links at both ends."""

    file: ClassVar[str] = "strips.yaml"
    kind_word: ClassVar[str] = "spare strip"

    size_code: SizeCode = Field(description="Size code, or unknown")
    kind: Literal["plain", "sealed", "unknown"] = Field(description="plain or sealed")
    seal: Literal["O", "X", "other", "none", "unknown"] = Field("unknown", description="Section of its seals")
    count: CountText = Field(1, description="How many there are")
    pitches: CountText = Field(description="Pitches; an odd number, as both ends are inner", examples=["3"])
    ends: Literal["inner"] = Field("inner", description="Both ends are inner links")
    pitch: Length | None = reading("Pitch, if it was read", "p")
    roller_diameter: Length | None = reading("Roller diameter", "d1")
    inner_width: Length | None = reading("Between the inner plates", "b1")
    bush_bore: Length | None = reading("Bore of the bush", "d3")
    over_inner_plates: Length | None = reading("Over the inner plates", "b2p")
    over_bush_ends: Length | None = reading("Over the bush ends", "b2b")
    between_outer_plates: Length | None = reading("Between the outer plates", "b3")
    over_outer_plates: Length | None = reading("Over the outer plates", "b3o")
    plate_thickness: Length | None = reading("Outer plate thickness", "tc")
    elongation: NumberText | None = Field(None, description="Elongation in per cent, or unknown")
    mass: Mass | None = Field(None, description="Mass of one")
    kept_in: Free | None = Field(None, description="Where it is kept")


class Tool(Measured):
    """A tool and the key it needs."""

    file: ClassVar[str] = "tools.yaml"
    kind_word: ClassVar[str] = "tool"

    does: Literal["press", "breaker", "riveter", "pliers", "key", "file", "other"] = Field(
        description="Its job"
    )
    count: CountText = Field(1, description="How many there are")
    takes: Annotated[tuple[SizeCode, ...], BeforeValidator(_as_list)] = Field(
        (), description="Size codes it takes"
    )
    key: IdText | None = Field(None, description="The key it needs, an id of tools.yaml")
    jaw_opening: Length | None = reading("Widest thing that goes between its jaws")
    pin_diameter: Length | None = reading("Diameter of its pushing pin; must be under the chain's pin")
    mass: Mass | None = Field(None, description="Mass")
    cost: NumberText | None = Field(None, description="Cost")
    kept_in: Free | None = Field(None, description="Where it is kept")


class Bike(Measured):
    """A bike: its chain, its sprockets and the room it has."""

    file: ClassVar[str] = "bikes.yaml"
    kind_word: ClassVar[str] = "bike"

    chain: IdText = Field(description="Its chain, an id of chains.yaml")
    front_teeth: CountText = Field(
        description="Teeth of the front sprocket", json_schema_extra={"x-symbol": "z1"}
    )
    rear_teeth: CountText = Field(
        description="Teeth of the rear sprocket", json_schema_extra={"x-symbol": "z2"}
    )
    pitches: CountText = Field(description="Pitches of the loop, an even number", examples=["114"])
    centre_distance: Length | None = reading("Between sprocket centres", "a")
    adjuster_forward: Length | None = reading("Adjuster travel left forward")
    adjuster_back: Length | None = reading("Adjuster travel left back")
    tyre_clearance: Length | None = reading("Tyre clearance forward")
    clearance_clip_side: Length | None = reading("From riveted pin heads to the nearest part, clip side")
    clearance_other_side: Length | None = reading("The same on the other side")
    slack_low: Length | None = reading("Least slack of its manual")
    slack_high: Length | None = reading("Most slack of its manual")
    joint_in_manual: Literal["clip", "rivet", "endless", "unknown"] = Field(
        "unknown", description="Kind of joint its manual asks for"
    )
    hours_per_ride: NumberText | None = Field(None, description="Hours of a usual ride")
    role: Literal["leader", "rider", "sweep", "van"] = Field("rider", description="Its rider's role")


class Trial(Record):
    """A dry fit: what was seen when a link was put on a chain by hand."""

    file: ClassVar[str] = "trials.yaml"
    kind_word: ClassVar[str] = "trial"

    chain: IdText = Field(description="The chain")
    link: IdText = Field(description="The connecting link")
    clip: IdText | None = Field(None, description="The clip, if one was used")
    seals: Literal["fitted", "left-out", "packed", "none"] = Field(description="What lay between the plates")
    on: DateText = Field(description="Date")
    by: Free | None = Field(None, description="A role")
    measured_with: IdText | None = Field(None, description="Instrument for the readings")
    enters: YesNo | None = Field(None, description="Do the pins enter the bushes?")
    clip_on: YesNo | None = Field(None, description="Does the clip go on and seat in both grooves?")
    bends: YesNo | None = Field(None, description="Does the joint bend like its neighbours?")
    plate_moves: YesNo | None = Field(None, description="Can the side plate be moved by hand, clip on?")
    width_at_joint: Length | None = reading("Over the plates at the joint")
    width_at_neighbour: Length | None = reading("Over the plates of the neighbour")
    tip_stand_out: Length | None = reading("Pin tip beyond the side plate")


class Ride(Record):
    """A ride: which bikes, who leads, who sweeps."""

    file: ClassVar[str] = "rides.yaml"
    kind_word: ClassVar[str] = "ride"

    on: DateText = Field(description="Date")
    bikes: Annotated[tuple[IdText, ...], BeforeValidator(_as_list)] = Field(description="Bikes that ride")
    leader: IdText | None = Field(None, description="The leader's bike")
    sweep: IdText | None = Field(None, description="The sweep's bike")
    van: YesNo = Field(False, description="Is there a van?")


class RuleOverride(Record):
    """A club's own bands for a shipped rule; `because` is required."""

    file: ClassVar[str] = "rules.yaml"
    kind_word: ClassVar[str] = "rule"

    because: Free = Field(description="Why the club departs from the shipped rule")
    proper: dict[Literal["low", "high"], str] | None = Field(None, description="Band for proper")
    get_home: dict[Literal["low", "high"], str] | None = Field(
        None, alias="get-home", description="Band for get-home"
    )
    last_resort: dict[Literal["low", "high"], str] | None = Field(
        None, alias="last-resort", description="Band for last-resort"
    )


class Instrument(BaseModel):
    """A measuring instrument of the club."""

    model_config = ConfigDict(frozen=True, extra="forbid", arbitrary_types_allowed=True)

    name: Free | None = Field(None, description="What people call it")
    kind: IdText = Field(description="A kind of data/instruments.yaml, or own")
    outside: Length | None = reading("Own plus-minus, outside jaws")
    inside: Length | None = reading("Own plus-minus, inside jaws")
    depth: Length | None = reading("Own plus-minus, depth rod")


class Club(BaseModel):
    """club.yaml: the club itself, its instruments and the rules it chose."""

    model_config = ConfigDict(frozen=True, extra="forbid", arbitrary_types_allowed=True)
    file: ClassVar[str] = "club.yaml"
    kind_word: ClassVar[str] = "club"

    name: Free = Field(description="Name of the club")
    id: IdText = Field(description="Short id, used in addresses and JSON")
    invented: YesNo = Field(False, description="yes: a made-up club, every page says so")
    about: Free | None = Field(None, description="One or two sentences")
    as_of: DateText | None = Field(
        None, description="The day the handbook speaks for; left out: newest date in the folder"
    )
    units: Literal["mm", "in"] = Field("mm", description="Units shown first")
    currency: Free | None = Field(None, description="Currency of the costs")
    report_to: Free | None = Field(None, description="How to report an error, in the club's words")
    wear_rule: IdText | None = Field(
        None, description="The wear limit the club uses, an id of data/wear_limits.yaml"
    )
    instruments: dict[IdText, Instrument] = Field(default_factory=dict, description="Instruments by id")


RECORD_KINDS: tuple[type[Record], ...] = (
    Chain,
    Link,
    Clip,
    SealSet,
    SidePlate,
    Strip,
    Tool,
    Bike,
    Trial,
    Ride,
    RuleOverride,
)
