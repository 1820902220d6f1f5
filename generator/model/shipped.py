"""The records that ship with the generator: sizes, sources, instruments, recipes, rules, words."""

from typing import Annotated, ClassVar, Literal

from pydantic import BaseModel, ConfigDict, Field

from generator.model.fields import (
    Answer,
    CountText,
    Force,
    IdText,
    Length,
    Mass,
    NumberText,
    SizeCode,
    SourceRef,
    YesNo,
)
from generator.model.quantity import Evidence
from generator.model.record import ONE_OR_MANY, STRICT

RungWord = Literal["proper", "get-home", "last-resort", "no-go"]
RUNGS: tuple[RungWord, ...] = ("proper", "get-home", "last-resort", "no-go")
PROPER, GET_HOME, LAST_RESORT, NO_GO = range(4)

# what only a hand or an eye saw counts in no group of small faults
Group = Literal["body", "pin", "place", "seal", "clip", "evidence"]
Grounds = Literal["make", "make-unworn", "make-roomy", "own-make", "own-make-roomy", "packet", "play"]
Drawn = Literal["pin", "plate", "clip", "seals", "room"]


Words = Annotated[tuple[str, ...], ONE_OR_MANY]


class Shipped(BaseModel):
    """Unknown keys are refused; a record never changes after it is read."""

    model_config = STRICT | ConfigDict(populate_by_name=True)
    file: ClassVar[str]


class Source(Shipped):
    """Where a value was read, remembered or agreed."""

    file: ClassVar[str] = "sources.yaml"
    title: str = Field(description="What it is, without naming a maker")
    kind: Literal["standard", "handbook", "textbook", "trade", "maker", "practice", "memory"]
    evidence: Evidence = Field(description="The best evidence word a value from here can have")
    year: str | None = None
    seen: str | None = Field(None, description="How it was seen: read, quoted elsewhere, remembered")
    note: str | None = None


class OtherReading(Shipped):
    """A value that contradicts the one used, kept and shown."""

    field: str
    value: Length | Force = Field(alias="is")
    evidence: Evidence = Field(alias="from")
    source: SourceRef
    because: str = Field(description="Why it is not the one used")


class Size(Shipped):
    """One size code, or a neighbour from an industrial standard kept as a check."""

    file: ClassVar[str] = "sizes/*.yaml"
    title: str
    family: Literal["motorcycle", "industrial"] = "motorcycle"
    series: Literal["standard", "heavy"] = "standard"
    base_code: SizeCode | None = Field(None, description="The standard code of a heavy series")
    also_written: Words = ()
    note: str | None = None
    pitch: Length = Field(json_schema_extra={"x-symbol": "p"})
    roller_diameter: Length | None = Field(None, json_schema_extra={"x-symbol": "d1"})
    inner_width: Length | None = Field(None, json_schema_extra={"x-symbol": "b1"})
    pin_diameter: Length | None = Field(None, json_schema_extra={"x-symbol": "d2"})
    bush_bore: Length | None = Field(None, json_schema_extra={"x-symbol": "d3"})
    over_inner_plates: Length | None = Field(None, json_schema_extra={"x-symbol": "b2"})
    between_outer_plates: Length | None = Field(None, json_schema_extra={"x-symbol": "b3"})
    over_riveted_pins: Length | None = Field(None, json_schema_extra={"x-symbol": "b4"})
    plate_height: Length | None = Field(None, json_schema_extra={"x-symbol": "h2"})
    plate_thickness: Length | None = None
    flared_diameter: Length | None = Field(
        None, description="Over the flared ends of a rivet link's pins, as service manuals ask"
    )
    joint_allowance: Length | None = Field(None, json_schema_extra={"x-symbol": "b7"})
    tensile: Force | None = Field(None, json_schema_extra={"x-symbol": "Fu"})
    other_readings: tuple[OtherReading, ...] = ()


class InstrumentKind(Shipped):
    """A kind of instrument and its permissible errors."""

    file: ClassVar[str] = "instruments.yaml"
    title: str
    outside: Length | None = None
    inside: Length | None = None
    depth: Length | None = None
    source: SourceRef


class Usual(BaseModel):
    """Least and most of a dimension, wide of anything sold; never a limit of fit."""

    model_config = STRICT

    least: Length = Field(description="Below this the value is a slip")
    most: Length = Field(description="Above this the value is a slip")
    zero: YesNo = Field(False, description="yes: the value may be zero")


class Recipe(Shipped):
    """How one dimension is read, and what that adds to the instrument's plus-minus."""

    file: ClassVar[str] = "recipes.yaml"
    title: str
    symbol: str | None = Field(None, description="ISO 606 symbol where there is one, else ours")
    fields: Words = Field(description="kind.field the recipe is for, such as link.pin_reach")
    contact: Literal["outside", "inside", "depth", "gauge"] = Field(
        description="Which faces of the instrument touch"
    )
    how: str
    minus: Length = Field(description="Added below the reading")
    plus: Length = Field(description="Added above the reading")
    keep: Literal["mean", "smallest", "largest"] = Field(
        description="Which of several readings counts: places are not repeats"
    )
    usual: Usual | None = Field(None, description="What it is wide of anything sold, to catch slips")
    needs: IdText | None = Field(None, description="Kind of instrument that nothing else stands in for")
    decides: Words = Field(
        (), description="Ids of the checks it bears on; those whose rule names the dimension are added"
    )
    source: SourceRef


class Band(Shipped):
    """Limits of one rung: linear forms that the clearance must not fall below or exceed."""

    low: str | None = None
    high: str | None = None


class Rule(Shipped):
    """One check: a clearance as a linear form, and the band of each rung; or a category and its rungs."""

    file: ClassVar[str] = "rules/*.yaml"
    title: str
    group: Group
    check: IdText | None = Field(None, description="The check it belongs to, when several cases share one")
    same_as: IdText | None = Field(
        None, description="A rule of the joint whose condition, clearance and limits count here too"
    )
    when: dict[str, Words] = Field(default_factory=dict)
    clearance: str | None = None
    proper: Band | None = None
    get_home: Band | None = Field(None, alias="get-home")
    last_resort: Band | None = Field(None, alias="last-resort")
    category: str | None = None
    by: Annotated[tuple[Grounds, ...], ONE_OR_MANY] = Field(
        (), description="Evidence that makes it proper where readings leave it open"
    )
    rungs: dict[str, Words] = Field(
        default_factory=dict, description="category value: rung, or best and worst"
    )
    says: str = Field(description="The check in one sentence")
    words: dict[str, str] = Field(
        default_factory=dict,
        description="What was found, as a sentence: for more, less and equal than nothing with the amount as {n}, for "
        "percent and force, or for each word of a category",
    )
    drawn: Drawn | None = Field(None, description="What it looks at in the drawing of a cut joint")
    source: SourceRef
    evidence: Evidence

    @property
    def bands(self) -> dict[int, Band]:
        """Those there are, by rung."""
        bands = enumerate((self.proper, self.get_home, self.last_resort))
        return {rung: band for rung, band in bands if band is not None}

    @property
    def forms(self) -> tuple[str, ...]:
        """Its clearance and all its limits; none of a rule that goes by a word."""
        limits = (limit for band in self.bands.values() for limit in (band.low, band.high))
        return tuple(form for form in (self.clearance, *limits) if form is not None)


Where = Literal["any", "shoulder", "tried", "between", "clipped"]


class Felt(Shipped):
    """What an answer or a reading of a dry fit proves: low <= form <= high."""

    file: ClassVar[str] = "dry_fit.yaml"
    says: str = Field(description="The answer in words, or what the reading is of")
    answer: str | None = Field(None, description="The field of the trial")
    is_so: Answer = Field(None, alias="is")
    reads: Words = Field(
        (),
        description="Fields of the trial whose sum the form is, in place of an answer; one twice: twice it",
    )
    form: str
    low: str | None = Field(None, description="mm")
    high: str | None = Field(None, description="mm")
    is_at: Literal["equal", "least", "most"] = Field("equal", description="What the reading is of the form")
    where: Where = Field("any", description="Where the plate lay when it was read")
    seats: Words = ()
    lies: Words = Field((), description="How the joint lies between its bushes")
    seals: Words = ()
    clip_with: Words = ()
    this_clip: YesNo = Field(False, description="yes: about this very clip")
    new_clip: YesNo = Field(False, description="yes: only of a clip that was new")
    source: SourceRef
    evidence: Evidence

    @property
    def field(self) -> str:
        return self.answer or self.reads[0]


class Term(Shipped):
    """One word of the trade, in US and UK words."""

    file: ClassVar[str] = "glossary.yaml"
    title: str
    meaning: str
    us: Words = ()
    uk: Words = ()
    also: Words = ()
    source: SourceRef | None = None


class Caution(Shipped):
    """A caution with its hazard, consequence and avoidance."""

    file: ClassVar[str] = "cautions.yaml"
    title: str
    harm: Literal["death-or-serious", "minor-or-moderate", "damage"]
    likelihood: Literal["will", "could", "rare"]
    hazard: str
    consequence: str
    avoid: str
    before: Words = Field((), description="Steps it guards: check, measure, press, clean, ride")
    source: SourceRef


class PrintedLimit(BaseModel):
    """A length at the limit over some pitches, as a manual prints it."""

    model_config = STRICT
    pitches: CountText
    pitch: Length = Field(description="Nominal pitch of the chain the manual speaks of")
    length: Length
    pull: Mass | None = Field(None, description="The weight the chain is pulled with")


class WearLimit(Shipped):
    """A limit of elongation somebody published or advises, in per cent of the nominal length."""

    file: ClassVar[str] = "wear_limits.yaml"
    title: str
    plain: NumberText
    sealed: NumberText
    large_sprocket: NumberText | None = Field(
        None, description="This over the teeth of the larger sprocket is the limit where that is lower"
    )
    printed: PrintedLimit | None = Field(None, description="The length as its source prints it")
    note: str | None = None
    source: SourceRef
    evidence: Evidence
