"""Chains and what they are joined and mended with: links, clips, seals, side plates, strips.

What is left out is not known: a field that can lower a verdict has no default that flatters.
"""

from typing import ClassVar, Literal

from pydantic import Field

from generator.model.fields import (
    Answer,
    CountText,
    DateText,
    Force,
    IdText,
    Length,
    Mass,
    NumberText,
    SizeCode,
    YesNo,
)
from generator.model.record import Free, Measured, reading

# words that stand where an id of a part may stand, and so are no ids
NO_PART = ("none", "unknown")
Condition = Literal["new", "fitted-once", "fitted-twice", "cracked", "drilled", "worn", "modified", "unknown"]


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
    letters: Free | None = Field(None, description="Letters of make and type stamped on its plates")
    state: Literal["as-made", "modified", "unknown"] = Field(
        "unknown", description="Was anything on it filed, ground or welded? modified: no verdict is given"
    )
    own_link: IdText | None = Field(None, description="The connecting link it runs with, an id of links.yaml")
    own_clip: IdText | None = Field(None, description="The clip on that link; left out: the link's own")
    own_seals: Literal["fitted", "left-out", "packed", "none", "unknown"] = Field(
        "unknown", description="What lies between the plates of that joint"
    )
    in_use: Answer = Field(None, description="Does it run with that link now, closed?")
    in_use_since: DateText | None = Field(None, description="Day on which that joint was last closed")
    looked_on: DateText | None = Field(None, description="Day of the looks at that joint")
    plates_level: Answer = Field(
        None, description="A straight edge over three outer plates, joint in the middle: level on both sides?"
    )
    plates_no_higher: Answer = Field(None, description="Is that joint no higher than its neighbours?")
    clip_seated: Answer = Field(
        None, description="Is the clip in both grooves, its closed end leading? Rivets: both heads whole?"
    )
    bends_freely: Answer = Field(None, description="Does that joint bend as freely as its neighbours?")
    seals_whole: Answer = Field(None, description="Are all four seals of that joint there and whole?")
    plate_loose: Answer = Field(None, description="Can its side plate be moved more than the neighbours'?")
    rub_marks: Answer = Field(None, description="Has the joint rubbed on a guide, cover or tyre?")
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
    seals_seen: Literal["whole", "some-gone", "unknown"] = Field(
        "unknown",
        description="Its seals at the last look; one gone or torn, and no forecast of its wear holds",
    )
    elongation: NumberText | None = Field(
        None, description="Elongation by wear in per cent; the newest reading in wear_log.csv goes before it"
    )
    pull_off: Literal["under-half", "over-half", "most", "unknown"] = Field(
        "unknown", description="How much of a tooth shows where it is pulled off the rear sprocket"
    )
    side_play: Literal["little", "much", "unknown"] = Field(
        "unknown", description="How far it bends sideways beside a new one"
    )
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
    letters: Free | None = Field(None, description="Letters of make and type on its plate or packet")
    came_with: IdText | None = Field(
        None, description="Which chain did it come in one box with? An id of chains.yaml"
    )
    clip: IdText | None = Field(
        None, description="Its own clip, an id of clips.yaml, or none; left out: not known"
    )
    seals: IdText | None = Field(
        None, description="Seals supplied with it, an id of seals.yaml, or none; left out: not known"
    )
    pin_kind: Literal["hollow", "solid", "unknown"] = Field(
        "unknown", description="Rivet pins: hollow or solid"
    )
    flared: Answer = Field(None, description="Were the ends of its rivet pins ever flared or peened?")
    half_link: Answer = Field(None, description="Is it a half link, cranked, of one pitch?")
    condition: Condition = Field("unknown", description="worn: a step of 0.10 mm or more on a pin")
    compared_with: IdText | None = Field(
        None, description="A link it was held against; its lengths may then be same, or longer by 0.3 mm"
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
    fixed_plate_thickness: Length | None = reading("Fixed plate thickness", "f")
    head_stand_out: Length | None = reading("Pin heads beyond the fixed plate", "hs")
    pin_spacing: Length | None = reading("Between the two pins, middle to middle", "ps")
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
    bought_on: DateText | None = Field(None, description="Day it was bought")
    made_bowed: Answer = Field(None, description="A new clip that is not flat: was it made bowed?")
    worn_step: Answer = Field(None, description="Is there a worn step that a fingernail catches on?")
    for_trials: YesNo = Field(False, description="yes: kept for dry fits only, never ridden")
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
    rubber: Literal["nitrile", "natural", "fluoro", "unknown"] = Field(
        "unknown", description="Kind of rubber, which says how long it keeps"
    )
    made_on: DateText | None = Field(None, description="Day it was made or bought, as the packet says")
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
    condition: Literal[
        "new", "fitted-once", "fitted-twice", "drilled", "oval", "cracked", "modified", "unknown"
    ] = Field("unknown", description="State of plate and holes")
    thickness: Length | None = reading("Thickness", "t")
    height: Length | None = reading("Height", "h")
    hole_spacing: Length | None = reading("Between hole centres", "p")
    mass: Mass | None = Field(None, description="Mass of one")
    cost: NumberText | None = Field(None, description="Cost of one")
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
    cut_from: IdText | None = Field(None, description="The chain it was cut from, an id of chains.yaml")
    ridden_since: Answer = Field(None, description="Was that chain ridden since the strip was cut from it?")
    mass: Mass | None = Field(None, description="Mass of one")
    cost: NumberText | None = Field(None, description="Cost of one")
    kept_in: Free | None = Field(None, description="Where it is kept")
