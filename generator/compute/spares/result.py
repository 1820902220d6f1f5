"""A plan of who carries what, with its proof: values that pages, JSON and the command line print."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Literal

from generator.compute.repair.result import Lack, Repair
from generator.model.shipped import NO_GO

GoalId = Literal[
    "worse-than-last-resort",
    "last-resort",
    "get-home",
    "lesser-joints",
    "mass_mg",
    "cost_cent",
    "van_mass_mg",
    "order",
]
GOALS: tuple[GoalId, ...] = (
    "worse-than-last-resort",
    "last-resort",
    "get-home",
    "lesser-joints",
    "mass_mg",
    "cost_cent",
    "van_mass_mg",
    "order",
)
# told of a long reckoning: what is being done to which goal
Doing = Literal["finding", "proving"]
Tell = Callable[[Doing, GoalId], None]


def unheard(_doing: Doing, _goal: GoalId) -> None:
    """Where nobody waits."""


BearerKind = Literal["leader", "rider", "sweep", "van"]


@dataclass(frozen=True, slots=True)
class Bearer:
    """Somebody who carries; `limit` in mg.  A van reaches the bikes in `reaches`, a rider the whole group."""

    id: str
    kind: BearerKind
    limit: int
    bike: str | None = None


@dataclass(frozen=True, slots=True)
class Carried:
    """So many of one part or tool with one bearer, and how many demands they serve."""

    kind: str
    id: str
    count: int
    mass: int  # mg, of all of them
    serves: int


@dataclass(frozen=True, slots=True)
class Load:
    """What one bearer carries."""

    bearer: Bearer
    items: tuple[Carried, ...]

    @property
    def mass(self) -> int:
        return sum(item.mass for item in self.items)


@dataclass(frozen=True, slots=True)
class Served:
    """One demand: its repair with the parts carried, or why there is none."""

    bike: str
    failure: str
    weight: int
    rung: int
    repair: Repair | None = None
    reason: Lack | None = None
    # (kind, id, count) of what it takes, tools with count 1
    takes: tuple[tuple[str, str, int], ...] = ()

    @property
    def served(self) -> bool:
        return self.rung < NO_GO


@dataclass(frozen=True, slots=True)
class Proof:
    """`goals` in order with the value reached and the bound of the second formulation; `rechecked` only where the plan
    was recomputed in whole numbers and every bound meets its value."""

    solver: str
    goals: tuple[tuple[GoalId, int, int], ...]
    rechecked: bool


@dataclass(frozen=True, slots=True)
class NextItem:
    """One more of this would mend `mends` and mend `betters` better: a part or tool of the club, or, where `pitches` is
    not 0, a new strip of so many pitches made like the chain `id`."""

    kind: str
    id: str
    mass: int
    mends: tuple[tuple[str, str], ...]
    betters: tuple[tuple[str, str], ...] = ()
    pitches: int = 0


@dataclass(frozen=True, slots=True)
class KitView:
    """The trade's kit beside the plan: what it leaves worse, and what it carries for nothing."""

    mass: int
    worse: tuple[tuple[str, str, int, int], ...]  # bike, failure, rung with the kit, rung with the plan
    lacks: tuple[tuple[str, str], ...]  # (kit, what of it the club does not have)
    for_nothing: tuple[tuple[str, str], ...]  # (kind, id)


@dataclass(frozen=True, slots=True)
class Plan:
    """For one ride, or for the whole club where `ride` is None."""

    ride: str | None
    bikes: tuple[str, ...]
    depth: int
    loads: tuple[Load, ...]
    demands: tuple[Served, ...]
    proof: Proof
    buy: tuple[tuple[str, str, int], ...] = ()
    serves_nothing: tuple[tuple[str, str], ...] = ()
    dry_fit: tuple[tuple[str, str], ...] = ()  # chain, link
    next_items: tuple[NextItem, ...] = ()
    kit: KitView | None = None
    aged: tuple[tuple[str, str, str], ...] = ()  # kind, id, look or too-old

    @property
    def mass(self) -> int:
        """What riders carry, in mg."""
        return sum(load.mass for load in self.loads if load.bearer.kind != "van")

    @property
    def carried(self) -> Mapping[tuple[str, str], int]:
        counts: dict[tuple[str, str], int] = {}
        for load in self.loads:
            for item in load.items:
                counts[item.kind, item.id] = counts.get((item.kind, item.id), 0) + item.count
        return counts


@dataclass(frozen=True, slots=True)
class Plans:
    """The club's own list and the plan of each ride by id."""

    club: Plan
    rides: Mapping[str, Plan] = field(default_factory=dict)
