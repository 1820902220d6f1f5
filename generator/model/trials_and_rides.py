"""What happens on a day: a dry fit, a ride."""

from typing import Annotated, ClassVar, Literal

from pydantic import Field

from generator.model.fields import Answer, CountText, DateText, IdText, Length, YesNo
from generator.model.record import ONE_OR_MANY, Free, Record, reading


class Trial(Record):
    """A dry fit: what was seen when a link was put on a chain by hand."""

    file: ClassVar[str] = "trials.yaml"
    kind_word: ClassVar[str] = "trial"

    chain: IdText = Field(description="The chain")
    link: IdText = Field(description="The connecting link")
    clip: IdText | None = Field(None, description="The clip, if one was used")
    seals: Literal["fitted", "left-out", "packed", "none", "unknown"] = Field(
        "unknown", description="What lay between the plates"
    )
    washers: IdText | None = Field(
        None,
        description="The packing washers, an id of seals.yaml, where they were packed and the club has several",
    )
    spacers: IdText | None = Field(
        None, description="Washers under the clip on each pin, an id of seals.yaml, if any"
    )
    on: DateText = Field(description="Date")
    by: Free | None = Field(None, description="A role")
    measured_with: IdText | None = Field(None, description="Instrument for the readings")
    enters: Answer = Field(None, description="Do the pins enter the bushes?")
    plate_on: Literal["pressed", "by-hand", "trial-plate", "unknown"] = Field(
        "unknown", description="How the side plate went on; trial-plate: one with opened holes, just as thick"
    )
    clip_on: Answer = Field(None, description="Does the clip go on and seat in both grooves?")
    clip_with: Literal["fingers", "pliers", "unknown"] = Field(
        "unknown", description="pliers: it snapped home, and the thumb cannot push it off"
    )
    bends: Answer = Field(None, description="Does the joint bend like its neighbours?")
    plate_moves: Answer = Field(None, description="Can the side plate be moved by hand, clip on?")
    play: Literal["no-more", "more", "unknown"] = Field(
        "unknown", description="Play of the pins in the bushes, beside the neighbours'"
    )
    plates_level: Answer = Field(
        None, description="A straight edge over three outer plates, joint in the middle: level on both sides?"
    )
    plates_no_higher: Answer = Field(None, description="Is the link no higher than its neighbours?")
    used_up: Annotated[tuple[Literal["clip", "seals", "plate", "nothing"], ...], ONE_OR_MANY] = Field(
        (), description="What cannot be used again as new"
    )
    left_in_use: Answer = Field(None, description="Was the joint left as it is, to be ridden?")
    thrown_later: Answer = Field(None, description="Did it throw its clip or its plate later?")
    width_at_joint: Length | None = reading("Over the plates at the joint")
    width_at_neighbour: Length | None = reading("Over the plates of the neighbour")
    tip_stand_out: Length | None = reading("Pin tip beyond the side plate")
    tips_beyond_heads: Length | None = reading(
        "Pin tips beyond the riveted heads beside them; 0 mm: no further"
    )
    heads_beyond_heads: Length | None = reading("Heads of the link beyond the riveted heads, other side")
    joint_gap_clip_side: Length | None = reading("Feeler between inner and side plate at the joint")
    joint_gap_other_side: Length | None = reading("Feeler between inner and fixed plate at the joint")
    neighbour_gap_clip_side: Length | None = reading("The same at the neighbour, clip side")
    neighbour_gap_other_side: Length | None = reading("The same at the neighbour, other side")


class Ride(Record):
    """A ride: which bikes, who leads, who sweeps."""

    file: ClassVar[str] = "rides.yaml"
    kind_word: ClassVar[str] = "ride"

    on: DateText = Field(description="Date")
    bikes: Annotated[tuple[IdText, ...], ONE_OR_MANY] = Field(description="Bikes that ride")
    leader: IdText | None = Field(None, description="The leader's bike")
    sweep: IdText | None = Field(None, description="The sweep's bike")
    van: YesNo = Field(False, description="Is there a van?")
    van_reaches: Annotated[tuple[IdText, ...], ONE_OR_MANY] = Field(
        (), description="Bikes the van can get to on the way; left out: with a van, all of them"
    )
    failures_at_once: CountText | None = Field(
        None, description="Failures at once that must not share a part; left out: as in club.yaml"
    )
