"""What a valid club folder and the shipped data mean together: parts with their dimensions."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from functools import cached_property
from typing import Generic, TypeVar

from generator.model.care import Allowance, CareShelf
from generator.model.chain_parts import Chain, Clip, Link, SealSet, SidePlate, Strip
from generator.model.club import Club, RuleOverride
from generator.model.how_sure import HowSure
from generator.model.mending import Mending
from generator.model.quantity import Quantity
from generator.model.record import Record
from generator.model.shipped import (
    Caution,
    Felt,
    InstrumentKind,
    Recipe,
    Rule,
    Size,
    Source,
    Term,
    WearLimit,
)
from generator.model.tools_and_bikes import Bike, Tool
from generator.model.trials_and_rides import Ride, Trial
from generator.model.wear_row import Event

R = TypeVar("R", bound=Record, covariant=True)


@dataclass(frozen=True, slots=True)
class Part(Generic[R]):
    """One record and its dimensions by field name; what is not known is absent.

    Of a chain and a strip `elongation` is in parts per million.  `compared` holds by how much (signed) a link
    differs from the one it was held against; `places` the smallest to the largest of readings of which only one
    counts, such as the thinnest place of a clip.  `called` is its name up to the first comma, the whole where another
    of its kind would be called the same; the label of its bag without a name."""

    kind: str
    id: str
    record: R
    dims: Mapping[str, Quantity]
    compared: Mapping[str, Quantity] = field(default_factory=dict)
    places: Mapping[str, Quantity] = field(default_factory=dict)
    called: str = ""

    @property
    def label(self) -> str:
        return self.record.name or self.id


@dataclass(frozen=True, slots=True)
class SizeCodeEntry:
    """A size code and its published dimensions by field name."""

    code: str
    record: Size
    dims: Mapping[str, Quantity]


# without slots, which leave a cached property no place
@dataclass(frozen=True)
class Shelf:
    """What ships with the generator, validated."""

    sizes: Mapping[str, SizeCodeEntry]
    sources: Mapping[str, Source]
    instruments: Mapping[str, InstrumentKind]
    recipes: Mapping[str, Recipe]
    joint_rules: Mapping[str, Rule]
    other_rules: Mapping[str, Mapping[str, Rule]]
    glossary: Mapping[str, Term]
    cautions: Mapping[str, Caution]
    wear_limits: Mapping[str, WearLimit]
    allowances: Mapping[str, Allowance]
    dry_fits: Mapping[str, Felt]
    how_sure: HowSure | None = None
    mending: Mending = field(default_factory=Mending)
    care: CareShelf = field(default_factory=CareShelf)

    @cached_property
    def recipe_by_field(self) -> Mapping[str, Recipe]:
        """`kind.field` -> how it is read."""
        return {field: recipe for recipe in self.recipes.values() for field in recipe.fields}


@dataclass(frozen=True, slots=True)
class TrialFacts:
    """A trial with its readings as intervals by field name."""

    id: str
    record: Trial
    dims: Mapping[str, Quantity]


@dataclass(frozen=True, slots=True)
class WearReading:
    """One line of wear_log.csv, lengths in nm."""

    on: date
    chain: str
    hours: str
    pitches: int
    inside: Quantity
    outside: Quantity
    place: str
    new_chain: bool
    line: int
    event: Event = "reading"


@dataclass(frozen=True, slots=True)
class Dataset:
    """A whole valid club, ready to compute with; every mapping is sorted by id."""

    club: Club
    as_of: date
    as_of_from: str
    data_version: str
    shelf: Shelf
    chains: Mapping[str, Part[Chain]]
    links: Mapping[str, Part[Link]]
    clips: Mapping[str, Part[Clip]]
    seals: Mapping[str, Part[SealSet]]
    plates: Mapping[str, Part[SidePlate]]
    strips: Mapping[str, Part[Strip]]
    tools: Mapping[str, Part[Tool]]
    bikes: Mapping[str, Part[Bike]]
    trials: Mapping[str, TrialFacts]
    rides: Mapping[str, Ride]
    overrides: Mapping[str, RuleOverride]
    wear_log: tuple[WearReading, ...] = ()
    # where each record stands in its file, for "see the record" on its page: (kind, id) -> (file, line)
    places: Mapping[tuple[str, str], tuple[str, int]] = field(default_factory=dict)
