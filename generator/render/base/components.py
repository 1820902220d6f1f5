"""What the components of the face are filled with; `site_overrides/handbook/macros.html` prints them."""

from dataclasses import dataclass, field
from typing import Literal

from generator.render.base.lengths import ShownLength
from generator.render.base.verdicts import ShownVerdict

Said = tuple[str | ShownLength, ...]  # a sentence whose lengths are shown in both units
NeedKind = Literal[
    "press", "pliers", "grease", "goggles", "breaker", "caliper", "riveter", "key", "file", "part"
]


@dataclass(frozen=True, slots=True)
class FitRow:
    """One verdict of a list: plate, name and tags, what goes in, one sentence of reason.

    `to` makes the whole row a link; with `numbers` the row opens instead and `to` is the button inside.
    """

    verdict: ShownVerdict
    name: str
    tags: tuple[str, ...] = ()
    goes_in: str = ""  # clip, seals, where they are kept
    why: Said = ()
    to: str = ""
    numbers: tuple["KeyFact", ...] = ()
    id: str = ""
    button: str = "All about this pair"
    label: str = ""  # instead of the word of the verdict, such as "not tested"


@dataclass(frozen=True, slots=True)
class Chip:
    """How many of a verdict there are; `to` is the anchor of their section, without its sign."""

    word: str
    label: str
    count: int
    to: str


@dataclass(frozen=True, slots=True)
class KeyFact:
    """A name and what is known: one of a length set large, a sentence, texts with their bag label."""

    name: str
    said: Said = ()
    large: ShownLength | None = None
    tags: tuple[tuple[str, str], ...] = ()  # label and address, which may be empty


@dataclass(frozen=True, slots=True)
class Need:
    """A tool, its key, and where both are; `gone` says that there is none, and what to do."""

    kind: NeedKind
    name: str
    detail: str = ""
    place: str = ""
    gone: str = ""
    to: str = ""


@dataclass(frozen=True, slots=True)
class GoRow:
    """A line of a list that goes somewhere; `counts` draws a strip of verdicts below the name."""

    to: str
    name: str
    tag: str = ""
    place: str = ""
    detail: str = ""
    counts: tuple[tuple[str, int], ...] = ()


@dataclass(frozen=True, slots=True)
class TrailWay:
    """A large way in; `picture` is a file of `site_overrides/drawings`, without its ending."""

    to: str
    name: str
    detail: str
    picture: str


@dataclass(frozen=True, slots=True)
class Mark:
    """A cell of a grid of verdicts; `says` is read aloud.  The word `far` is another pitch: no-go, and drawn flat."""

    word: str
    says: str
    to: str = ""


@dataclass(frozen=True, slots=True)
class GridRow:
    """`band` opens a group and has no cells."""

    name: str
    tag: str = ""
    to: str = ""
    marks: tuple[Mark, ...] = field(default=())
    band: bool = False
