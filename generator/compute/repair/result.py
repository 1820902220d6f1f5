"""What is known of each failure on each bike: the ways to mend it, with verdict, parts, tools and reasons."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from generator.compute.fit.result import Word, word_of
from generator.compute.geometry.axle import AxleMove
from generator.model.shipped import NO_GO, RUNGS

# what keeps a repair from a better word
Cap = Literal[
    "untried",
    "two-clip-joints",
    "many-joints",
    "missing-clip",
    "worn",
    "worn-out",
    "failure",
    "way",
    "tool",
    "tool-untested",
    "axle-unread",
    "opened-once",
]


@dataclass(frozen=True, slots=True)
class Range:
    """Best and worst rung, what it counts as in a plan, and what lowered it; `joint` is what its numbers alone make of the joint."""

    best: int
    worst: int
    counts: int
    caps: tuple[Cap, ...] = ()
    joint: int = 0

    @property
    def word(self) -> Word:
        return word_of(self.best, self.worst)


@dataclass(frozen=True, slots=True)
class Bag:
    """A connecting link made up with its clip, seals and washers under the clip; `seals` as in an option of a pair."""

    link: str
    clip: str | None
    seals: str
    seal_set: str | None
    spacer: str | None = None


@dataclass(frozen=True, slots=True)
class PartUse:
    """So many of one part are used up."""

    kind: Literal["link", "clip", "seal", "plate", "strip"]
    id: str
    count: int = 1


@dataclass(frozen=True, slots=True)
class Job:
    """Something a tool or a supply must do; `able` are those that can, each with the rung it brings, best first."""

    does: str
    on: str
    able: tuple[tuple[str, int], ...]

    def tools(self, rung: int) -> tuple[str, ...]:
        """Those that bring no worse rung."""
        return tuple(tool for tool, brings in self.able if brings <= rung)


@dataclass(frozen=True, slots=True)
class Fitted:
    """One bag (None where no link is needed) in one method: its verdict and the tools its joint takes."""

    bag: Bag | None
    range: Range
    jobs: tuple[Job, ...] = ()


@dataclass(frozen=True, slots=True)
class Method:
    """One way with everything it could be done with: `take` of the bags in `fitted`, best first, and `parts` besides."""

    way: str
    take: int
    fitted: tuple[Fitted, ...]
    parts: tuple[PartUse, ...] = ()
    jobs: tuple[Job, ...] = ()
    change: int = 0
    axle: AxleMove | None = None
    lender: str | None = None


@dataclass(frozen=True, slots=True)
class Lack:
    """Why a way is closed: a code of plan_reasons.yaml and what it is about."""

    code: str
    kind: str
    about: str


@dataclass(frozen=True, slots=True)
class Repair:
    """One way, with definite parts and tools: `tools` has for each job the one that is best."""

    way: str
    range: Range
    bags: tuple[Bag, ...]
    parts: tuple[PartUse, ...]
    jobs: tuple[Job, ...]
    change: int = 0
    axle: AxleMove | None = None
    lender: str | None = None

    @property
    def usable(self) -> bool:
        return self.range.counts < NO_GO

    @property
    def word(self) -> str:
        """What it counts as."""
        return RUNGS[self.range.counts]

    @property
    def strip(self) -> str | None:
        return next((part.id for part in self.parts if part.kind == "strip"), None)


@dataclass(frozen=True, slots=True)
class Case:
    """A failure on a bike.  `repairs` can be counted on, best first; `untested` could be better than no-go and could be
    no-go; `lacks` say why other ways are closed.  `happens` is False where the bike's joint is of another kind.
    """

    bike: str
    failure: str
    happens: bool
    repairs: tuple[Repair, ...] = ()
    untested: tuple[Repair, ...] = ()
    lent: tuple[Repair, ...] = ()
    methods: tuple[Method, ...] = ()
    lacks: tuple[Lack, ...] = ()

    @property
    def rung(self) -> int:
        return self.repairs[0].range.counts if self.repairs else NO_GO

    @property
    def reason(self) -> Lack | None:
        """None where there is a repair."""
        return self.lacks[0] if self.lacks and not self.repairs else None


Repairs = Mapping[tuple[str, str], Case]
