"""Bikes, and the tools a club carries."""

from typing import Annotated, ClassVar, Literal

from pydantic import Field

from generator.model.fields import CountText, IdText, Length, Mass, NumberText, SizeCode, YesNo
from generator.model.record import ONE_OR_MANY, Free, Measured, reading


class Tool(Measured):
    """A tool and the key it needs."""

    file: ClassVar[str] = "tools.yaml"
    kind_word: ClassVar[str] = "tool"

    does: Literal[
        "press",
        "breaker",
        "riveter",
        "pliers",
        "key",
        "file",
        "wire",
        "washers",
        "ties",
        "spanner",
        "strap",
        "tip",
        "oil",
        "other",
    ] = Field(
        description="Its job; wire, ties, crimping washers, oil, strap and spare tip are listed here too"
    )
    count: CountText = Field(1, description="How many there are")
    takes: Annotated[tuple[SizeCode, ...], ONE_OR_MANY] = Field((), description="Size codes it takes")
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
    more_joints: Annotated[tuple[IdText, ...], ONE_OR_MANY] = Field(
        (), description="Connecting links elsewhere in its loop, left from repairs; ids of links.yaml"
    )
    clip_missing: YesNo = Field(False, description="yes: a joint of its loop has no clip now")
    carries: Mass | None = Field(None, description="Most that its rider carries in parts and tools")
    clip_because: Free | None = Field(
        None, description="Why the club lets a clip joint count as good where the manual asks for another"
    )
    hours_per_ride: NumberText | None = Field(None, description="Hours of a usual ride")
    role: Literal["leader", "rider", "sweep", "van"] = Field("rider", description="Its rider's role")
