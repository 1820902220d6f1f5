"""How the trade facts come out when limits are moved, as it is generated and shipped."""

from typing import ClassVar, Literal

from pydantic import Field

from generator.model.fields import CountText, IdText
from generator.model.shipped import RungWord, Shipped


class Flip(Shipped):
    """A trade fact that no longer comes out as the trade says when one limit is moved."""

    rule: IdText = Field(description="The rule whose limit was moved")
    rung: RungWord = Field(description="The rung of that limit")
    side: Literal["low", "high"]
    moved: Literal["in", "out"] = Field(description="in: the band became narrower; out: wider")
    by: str = Field(description="How far, with its unit")
    fact: IdText = Field(description="The trade fact")
    case: str = Field(description="The part of its range that flips, such as low, middle or high")
    before: str = Field(description="Verdict with the shipped limit")
    after: str = Field(description="Verdict with the limit moved")


class Disagreement(Shipped):
    """A trade fact that the limits do not agree with, and why they were not bent to it."""

    fact: IdText = Field(description="The trade fact")
    case: str = Field(description="The part of its range, and the option where it names one")
    trade: str = Field(description="What the trade says")
    computed: str = Field(description="What comes out")
    because: str = Field(description="Why")


class HowSure(Shipped):
    """What moving each limit in turn does to the trade facts; generated, and shown as it stands."""

    file: ClassVar[str] = "how_sure.yaml"
    made_with: str = Field(description="The command that makes this file anew")
    share_percent: CountText = Field(
        description="How far each limit was moved, in per cent of its band's width"
    )
    limits: CountText = Field(description="How many limits were moved")
    facts: CountText = Field(description="How many trade facts were run each time")
    disagree: tuple[Disagreement, ...] = ()
    flips: tuple[Flip, ...] = ()
