"""The club itself: its instruments, what it chose, and where it departs from the shipped rules."""

from typing import ClassVar, Literal

from pydantic import BaseModel, Field

from generator.model.fields import CountText, DateText, IdText, Length, Mass, WebAddress, YesNo
from generator.model.record import STRICT, Free, Record, reading


class Instrument(BaseModel):
    """A measuring instrument of the club."""

    model_config = STRICT

    name: Free | None = Field(None, description="What people call it")
    kind: IdText = Field(description="A kind of data/instruments.yaml, or own")
    outside: Length | None = reading("Own plus-minus, outside jaws")
    inside: Length | None = reading("Own plus-minus, inside jaws")
    depth: Length | None = reading("Own plus-minus, depth rod")


class Club(BaseModel):
    """club.yaml: the club itself, its instruments and the rules it chose."""

    model_config = STRICT
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
    web_address: WebAddress | None = Field(
        None, description="Where the handbook is published; printed on cards as a code"
    )
    wear_rule: IdText | None = Field(
        None, description="The wear limit the club uses, an id of data/wear_limits.yaml"
    )
    failures_at_once: CountText = Field(
        1, description="Failures at once that must not share a part, when spares are planned"
    )
    rider_carries: Mass | None = Field(None, description="Most that a rider carries in parts and tools")
    sweep_carries: Mass | None = Field(None, description="The same for the sweep")
    van_carries: Mass | None = Field(None, description="The same for the van")
    untried_counts_as: Literal["get-home", "proper"] = Field(
        "get-home", description="What a link that is proper by numbers only counts as in plans"
    )
    instruments: dict[IdText, Instrument] = Field(default_factory=dict, description="Instruments by id")


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
