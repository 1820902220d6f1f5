"""What is known about each pair, as values that pages, JSON and the command line print."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from typing import Literal

from generator.compute.fit.tried import Tried
from generator.model.quantity import Evidence, Quantity
from generator.model.reading import Reading
from generator.model.shipped import RUNGS, Group

Word = Literal["proper", "get-home", "last-resort", "no-go", "measure-first", "cannot-judge"]


def word_of(best: int | None, worst: int | None) -> Word:
    """The one word of a range of rungs; None for both where no verdict is given."""
    if best is None or worst is None:
        return "cannot-judge"
    return RUNGS[best] if best == worst else "measure-first"


@dataclass(frozen=True, slots=True)
class Span:
    """Low, nominal and high of a computed length in nm (of a force in mN, of a share in millionths of a per cent)."""

    low: float
    nominal: float
    high: float


@dataclass(frozen=True, slots=True)
class EdgeFit:
    """One limit of one rung; `at` and `slack` are None where a dimension is missing."""

    rung: int
    side: str
    at: float | None
    slack: Span | None


@dataclass(frozen=True, slots=True)
class CheckFit:
    """One check of one option; a categorical check has no clearance and no edges."""

    id: str
    rule_id: str
    group: Group
    best: int
    worst: int
    evidence: Evidence
    unit: Literal["mm", "kN", "%"] = "mm"
    clearance: Span | None = None
    missing: tuple[Reading, ...] = ()
    edges: tuple[EdgeFit, ...] = ()
    rests_on: tuple[Reading, ...] = ()
    category: str | None = None
    settled_by_trial: bool = False
    # proper by what is known of the make of both, or of one packet, where readings leave it open
    by_make: bool = False


# needed: the widest plus-minus that settles it.  reachable: never read so far, the best that a listed instrument
# gives.  together: several readings that settle it only as a whole.  question: no length, but something to find out.
# dry-fit: closer than any listed instrument reads.
How = Literal["needed", "reachable", "together", "question", "dry-fit"]


@dataclass(frozen=True, slots=True)
class MeasureNext:
    """The reading that would settle most, and how close it must be (nm; None: no listed instrument can, or no length).

    `settles` is the check that is decided by readings of `to_within` that come out where they were or further from
    its limits.  `then_open` are the checks that still leave the verdict open where the readings come out as before,
    `then` what to measure for the first of them; where there are none, `decides` is the rung that is left, and
    `settles_pair` says that no other way to join the parts can be better.  `also` are the readings without which the
    first does not settle it.  `needed` is what a dry fit stands in for.
    """

    reading: Reading
    to_within: int | None
    how: How = "needed"
    settles: str | None = None
    also: tuple[tuple[Reading, int | None], ...] = ()
    needed: int | None = None
    then_open: tuple[str, ...] = ()
    then: Reading | None = None
    decides: int | None = None
    settles_pair: bool = False


@dataclass(frozen=True, slots=True)
class OptionFit:
    """One way to join the pair, with its checks."""

    closure: str
    clip: str | None
    seals: str
    seal_set: str | None
    # made: the plate stops by itself; neighbours: pressed level with them; clip: pressed no further than its clip
    seat: str
    # washers under the clip on each pin
    spacer: str | None
    best: int
    worst: int
    deciding: str
    slack: float | None
    adds_up: bool
    trials: tuple[str, ...]
    went_together: bool
    checks: tuple[CheckFit, ...]

    @property
    def deciding_check(self) -> CheckFit:
        return next(check for check in self.checks if check.id == self.deciding)


@dataclass(frozen=True, slots=True)
class RunsNow:
    """Best and worst rung while the joint stays closed; `not_looked` are the looks that nobody has taken since it was
    closed on `since`.  Opened again it is a new joint, which is what the pair's own verdict speaks of."""

    best: int
    worst: int
    since: date | None
    looked_on: date | None
    not_looked: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Flare:
    """How wide rivet pins are flared: what manuals of the size ask for, and the least that holds on this pin."""

    target: Quantity | None
    least: Quantity | None


@dataclass(frozen=True, slots=True)
class Clash:
    """Answers of dry fits, as (trial, field), and the readings that cannot be true beside them.

    `proven` are the ends in nm that one answer sets to a length, None where it sets none, and `read` what the readings
    make of the same length; both are None where answers contradict one another."""

    told: tuple[tuple[str, str], ...]
    readings: tuple[Reading, ...]
    proven: tuple[int | None, int | None] | None = None
    read: tuple[int, int] | None = None


@dataclass(frozen=True, slots=True)
class Met:
    """One of the parts that meet."""

    kind: str
    id: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Fit:
    """The verdict on parts that meet, whichever they are: its best and worst rung, or why there is none."""

    best: int | None = None
    worst: int | None = None
    refused: str | None = None
    measure_next: MeasureNext | None = None
    evidence: Evidence = "unknown"

    @property
    def parts(self) -> tuple[Met, ...]:
        raise NotImplementedError

    @property
    def deciding_check(self) -> CheckFit | None:
        raise NotImplementedError

    @property
    def adds_up(self) -> bool:
        """Is the verdict that of small faults added up?"""
        raise NotImplementedError

    @property
    def word(self) -> Word:
        return word_of(self.best, self.worst)

    def id_of(self, kind: str) -> str:
        return next(part.id for part in self.parts if part.kind == kind)


@dataclass(frozen=True, slots=True)
class PairFit(Fit):
    """One chain and one link: best of bests to best of worsts over its options."""

    chain: str
    link: str
    # False where pitch or size family already rule it out: a row says all there is to say
    own_page: bool
    option: OptionFit | None = None
    own_clip_option: OptionFit | None = None
    chance_percent: Mapping[str, int] | None = None
    tried: tuple[Tried, ...] = ()
    # why readings and dry fits contradict each other, where that is why it is refused
    clashes: tuple[Clash, ...] = ()
    # best and worst rung if nothing is said about its clip
    without_clip: tuple[int, int] | None = None
    # where the chain runs with this very link: what that joint is worth while it stays closed
    runs_now: RunsNow | None = None
    # over both outer plates at the joint once its plate is where it belongs, and over the plates beside it
    press_to: Quantity | None = None
    beside: Quantity | None = None
    flare: Flare | None = None
    # how many links the record stands for, and how many of them dry fits have spoken of
    pieces: int = 1
    pieces_tried: int = 0

    @property
    def parts(self) -> tuple[Met, ...]:
        return Met("chain", self.chain), Met("link", self.link)

    @property
    def deciding_check(self) -> CheckFit | None:
        return self.option.deciding_check if self.option is not None else None

    @property
    def adds_up(self) -> bool:
        return self.option is not None and self.option.adds_up

    @property
    def counts_as(self) -> int | None:
        """The rung that a verdict is worth which nothing the club can do will narrow: its worst."""
        return self.worst

    @property
    def failed_otherwise(self) -> tuple[Tried, ...]:
        """Dry fits that failed, but not the way the verdict is for."""
        told = self.option.trials if self.option is not None else ()
        return tuple(trial for trial in self.tried if trial.failed and trial.id not in told)

    @property
    def strength(self) -> Literal["dry-fitted", "by-make", "by-numbers"]:
        if self.option is not None and self.option.went_together:
            return "dry-fitted"
        by_make = self.option is not None and any(check.by_make for check in self.option.checks)
        return "by-make" if by_make else "by-numbers"
