"""What ships about repairs: kinds of failure, ways to mend them, single steps, kits, reasons and shelf lives."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Annotated, ClassVar, Literal

from pydantic import Field

from generator.model.fields import CountText, Mass, SourceRef, YesNo
from generator.model.quantity import Evidence
from generator.model.record import ONE_OR_MANY
from generator.model.shipped import RungWord, Shipped, Words

# what of the loop is damaged, as links in a row, or what of the joint
Damage = Literal[
    "clip",
    "plate",
    "joint",
    "outer",
    "inner",
    "outer-inner-outer",
    "inner-outer-inner",
    "joint-and-inner",
    "seals",
    "whole",
    "none",
]
# how a way is reckoned: `work` is hand work whose verdict stands in the data
How = Literal[
    "clip",
    "plate",
    "link",
    "strip",
    "chain",
    "seals",
    "own-outer",
    "makeshift",
    "lend-clip",
    "lend-link",
    "work",
]
# what a tool or a supply does in a step
JobWord = Literal[
    "open", "close", "pliers", "file", "wire", "washers", "ties", "spanner", "strap", "tip", "press", "oil"
]


class RepairStep(Shipped):
    """One numbered step: what to do, and the sign that it is done."""

    file: ClassVar[str] = "repair_steps.yaml"
    do: str = Field(description="The act, a few words")
    sign: str = Field(description="How it goes, and how you see that it is done")
    cautions: Words = Field((), description="Ids of cautions that stand before it")
    job: JobWord | None = Field(None, description="The tool it takes, named beside the step")
    picture: Literal["gap", "filled", "teeth", "clip"] | None = Field(
        None, description="What is drawn beside it"
    )


class RepairWay(Shipped):
    """One way to mend, and the steps it takes."""

    file: ClassVar[str] = "repair_ways.yaml"
    title: str
    says: str = Field(description="What it comes to, in one sentence")
    how: How
    makeshift: Words = Field((), description="Rules of clip_lost.yaml it stands for")
    needs: Annotated[tuple[JobWord, ...], ONE_OR_MANY] = Field(
        (), description="Tools it takes beside those of its joint"
    )
    at_best: RungWord = Field("proper", description="No better verdict, whatever the joint is")
    asks_plate: Literal["press", "slip"] | None = Field(
        None, description="Only where the side plate goes on so"
    )
    seat: Literal["clip"] | None = Field(
        None, description="clip: the plate pressed no further than the clip needs"
    )
    road: YesNo = Field(True, description="no: off the public road only")
    steps: Words
    source: SourceRef
    evidence: Evidence


class Failure(Shipped):
    """One kind of failure: how it looks, why it comes, and the ways to mend it, best first."""

    file: ClassVar[str] = "failures.yaml"
    title: str
    choice: Literal["joint", "outer", "inner", "other"] = Field(
        description="Where the page 'chain broke' lists it"
    )
    looks: str = Field(description="How you know it")
    damage: Damage
    ways: Words = Field(description="Ids of repair_ways.yaml, the better first")
    causes: Words = Field(description="What to look for before anything is fitted")
    cautions: Words = Field((), description="Ids of cautions for all of the work")
    joint: Literal["clip", "rivet"] | None = Field(None, description="Only chains joined so can have it")
    plate: Literal["press", "slip"] | None = Field(None, description="Only where the side plate goes on so")
    sealed: YesNo = Field(False, description="yes: only on a sealed chain")
    at_best: RungWord = Field("proper", description="No better verdict, whatever is fitted")
    often: CountText = Field(description="How often it comes, 1 rare to 5 usual")
    strands: CountText = Field(description="How badly it strands, 1 rides on to 5 stands still")
    after: str = Field(description="What to look at afterwards")
    source: SourceRef
    evidence: Evidence


class LeftOut(Shipped):
    """A repair that is told among riders and not given here."""

    file: ClassVar[str] = "left_out.yaml"
    title: str
    because: str


class KitLine(Shipped):
    """One line of a kit: what, how many, and for whom."""

    what: Literal[
        "own-link", "own-clip", "own-seals", "links-of-size", "strip-of-size", "chain-of-size", "tool"
    ]
    does: str | None = Field(None, description="For a tool: its job in tools.yaml")
    count: CountText = 1


class Kit(Shipped):
    """What the trade says somebody should carry."""

    file: ClassVar[str] = "kits.yaml"
    title: str
    bearer: Literal["rider", "sweep", "van"]
    each: CountText = Field(1, description="1 every one of them, 3 every third")
    limit: Mass = Field(description="Most that such a bearer carries, where the club says nothing")
    lines: tuple[KitLine, ...]
    source: SourceRef
    evidence: Evidence


class PlanReason(Shipped):
    """Why a failure stays uncovered; `{about}` stands for the part it is about."""

    file: ClassVar[str] = "plan_reasons.yaml"
    says: str
    fix: str


class ShelfLife(Shipped):
    """How long a part keeps in its bag."""

    file: ClassVar[str] = "shelf_life.yaml"
    title: str
    years: CountText = Field(description="Fit to use without a look")
    longer: CountText | None = Field(None, description="Further years, after a look; left out: for good")
    source: SourceRef
    evidence: Evidence


@dataclass(frozen=True, slots=True)
class Mending:
    """All of it, each by id in the order of its file."""

    failures: Mapping[str, Failure] = field(default_factory=dict)
    ways: Mapping[str, RepairWay] = field(default_factory=dict)
    steps: Mapping[str, RepairStep] = field(default_factory=dict)
    left_out: Mapping[str, LeftOut] = field(default_factory=dict)
    kits: Mapping[str, Kit] = field(default_factory=dict)
    reasons: Mapping[str, PlanReason] = field(default_factory=dict)
    shelf_lives: Mapping[str, ShelfLife] = field(default_factory=dict)
