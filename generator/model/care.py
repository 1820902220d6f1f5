"""What ships for keeping chains from failing: figures of practice, findings, tasks of care, and the pages of the guide."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import ClassVar, Literal

from pydantic import BaseModel, Field

from generator.model.fields import CountText, IdText, Length, NumberText, SourceRef
from generator.model.quantity import PPM_OF_PERCENT, Evidence
from generator.model.record import STRICT
from generator.model.shipped import Shipped, Words

Job = Literal["press", "breaker", "riveter", "pliers", "key", "file", "other"]
Picture = Literal[
    "press", "pliers", "grease", "goggles", "breaker", "caliper", "riveter", "key", "file", "part"
]


class Practice(Shipped):
    """A figure that a page prints: a length, or a number with its unit, perhaps up to another."""

    file: ClassVar[str] = "practice.yaml"
    title: str
    length: Length | None = None
    to_length: Length | None = None
    number: NumberText | None = None
    to: NumberText | None = None
    unit: str = ""
    source: SourceRef
    evidence: Evidence
    note: str | None = None


class Allowance(Practice):
    """A figure that the engine takes for granted where nobody read or looked closer."""

    file: ClassVar[str] = "allowances.yaml"

    @property
    def nm(self) -> int:
        assert self.length is not None
        return int(self.length.readings[0])

    @property
    def ppm(self) -> int:
        """A share in parts per million; of two the lower."""
        return _ppm(self.number)

    @property
    def to_ppm(self) -> int:
        return _ppm(self.to)


def _ppm(per_cent: str | None) -> int:
    assert per_cent is not None
    return int(Fraction(per_cent) * PPM_OF_PERCENT)


class NeededTool(Shipped):
    """What a job needs; `does` finds the club's own tools of that job."""

    file: ClassVar[str] = "needs.yaml"
    title: str
    picture: Picture
    does: Job | None = None
    note: str | None = None


class Finding(Shipped):
    """What is seen or felt on a chain, what it means and what to do."""

    file: ClassVar[str] = "inspection.yaml"
    title: str
    looks_at: Literal["clip", "seals", "sprockets", "chain", "guide", "slack"]
    look: str = Field(description="How to look")
    sees: str
    means: str
    do: str
    ride: Literal["ride", "get-home", "stop"] = Field(description="What it does to the day")
    page: IdText | None = Field(None, description="The page of the guide that helps")
    source: SourceRef
    evidence: Evidence


class CareTask(Shipped):
    """Something done again and again; `every` are figures of practice.yaml, whichever comes first counts."""

    file: ClassVar[str] = "care.yaml"
    title: str
    do: str
    kind: Literal["plain", "sealed", "any"] = "any"
    climate: Literal["any", "dry", "wet", "humid", "coast"] = "any"
    when: str
    hours: IdText | None = Field(None, description="Figure of practice: hours between two of these")
    months: IdText | None = Field(None, description="Figure of practice: months between two of these")
    distance: IdText | None = Field(None, description="Figure of practice: distance between two of these")
    page: IdText
    source: SourceRef
    evidence: Evidence


class GuideStep(BaseModel):
    """One action; `sign` says how to know that it is done."""

    model_config = STRICT
    do: str
    sign: str | None = None
    picture: IdText | None = None
    caution: IdText | None = None
    to: tuple[str, str] | None = Field(
        None, description="Address in the handbook where it is looked up, and its name"
    )


class IfNot(BaseModel):
    """What to do where a step does not come out."""

    model_config = STRICT
    sees: str
    do: str
    page: IdText | None = None


class Guide(Shipped):
    """A page of the guide, in the head of its file in handbook_src; texts may print figures by their names."""

    file: ClassVar[str] = "care/*.md"
    title: str
    description: str
    group: Literal["ride", "measure", "joint", "care"]
    order: CountText
    who: str
    when: str
    lead: str
    tools: tuple[IdText, ...] = ()
    cautions: tuple[IdText, ...] = ()
    steps: tuple[GuideStep, ...]
    done_when: Words
    if_not: tuple[IfNot, ...]
    disagree: Words = ()
    next: tuple[IdText, ...] = ()
    search: Words = ()


@dataclass(frozen=True, slots=True)
class CareShelf:
    """All of it by id; guides in the order of reading."""

    practices: Mapping[str, Practice] = field(default_factory=dict)
    needs: Mapping[str, NeededTool] = field(default_factory=dict)
    findings: Mapping[str, Finding] = field(default_factory=dict)
    tasks: Mapping[str, CareTask] = field(default_factory=dict)
    guides: Mapping[str, Guide] = field(default_factory=dict)
