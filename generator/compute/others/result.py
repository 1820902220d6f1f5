"""What is known where parts other than a link and a chain meet."""

from dataclasses import dataclass
from typing import Literal

from generator.compute.fit.result import CheckFit, Fit, Met
from generator.model.reading import Reading

Relation = Literal["clip-link", "seal", "plate", "strip", "tool-chain", "tool-link", "key"]


@dataclass(frozen=True, slots=True)
class PartFit(Fit):
    """Parts other than a chain and a link; a refused one has no checks."""

    relation: Relation
    met: tuple[Met, ...]
    deciding: str | None = None
    slack: float | None = None
    faults_add_up: bool = False
    checks: tuple[CheckFit, ...] = ()

    @property
    def parts(self) -> tuple[Met, ...]:
        return self.met

    @property
    def adds_up(self) -> bool:
        return self.faults_add_up

    @property
    def deciding_check(self) -> CheckFit | None:
        return next((check for check in self.checks if check.id == self.deciding), None)

    @property
    def missing(self) -> tuple[Reading, ...]:
        """Readings that are not there, each once, in rule order."""
        return tuple(dict.fromkeys(reading for check in self.checks for reading in check.missing))

    def has(self, kind: str, id_: str) -> bool:
        return Met(kind, id_) in self.parts


Side = Literal["joint on the chain", "joint on the strip", "bush ends"]


@dataclass(frozen=True, slots=True)
class JointSide:
    """One of the two joints: its range and its deciding check."""

    best: int
    worst: int
    deciding: CheckFit
    adds_up: bool


@dataclass(frozen=True, slots=True)
class NeighbourFit(Fit):
    """A link with one pin in a chain and the other in a strip: the worse of both joints and the bush ends.

    Both joints are made with the same clip and the same seals: `seals` is fitted, left-out, packed or none.
    """

    strip: str
    chain: str
    link: str
    decided_by: Side | None = None
    clip: str | None = None
    seals: str | None = None
    on_chain: JointSide | None = None
    on_strip: JointSide | None = None
    bush_ends: CheckFit | None = None

    @property
    def parts(self) -> tuple[Met, ...]:
        return Met("strip", self.strip), Met("chain", self.chain), Met("link", self.link)

    @property
    def deciding_check(self) -> CheckFit | None:
        side = self._deciding_side
        return side.deciding if side is not None else self.bush_ends

    @property
    def adds_up(self) -> bool:
        side = self._deciding_side
        return side is not None and side.adds_up

    @property
    def _deciding_side(self) -> JointSide | None:
        sides = {"joint on the chain": self.on_chain, "joint on the strip": self.on_strip}
        return sides.get(self.decided_by or "")


@dataclass(frozen=True, slots=True)
class OtherFits:
    """Every meeting of a club's parts, each kind sorted by the ids of its parts."""

    clip_links: tuple[PartFit, ...]
    seals: tuple[PartFit, ...]
    plates: tuple[PartFit, ...]
    strips: tuple[PartFit, ...]
    neighbours: tuple[NeighbourFit, ...]
    tools: tuple[PartFit, ...]
    keys: tuple[PartFit, ...]
    # are seals judged only in the joints they are for, as the club has too many of both for all?
    own_seals_only: bool = False
