"""The cells that every table of fits shares: verdict, clip, seals, deciding check, number, next reading."""

from generator.compute.fit.by_bike import OnBike
from generator.compute.fit.result import CheckFit, PairFit
from generator.model.dataset import Dataset
from generator.render.base.lengths import shown_high, shown_length, shown_low
from generator.render.base.table import Cell, Column
from generator.render.base.verdicts import ShownVerdict, shown_verdict
from generator.render.say.joint import clip_short, seals_and_seat
from generator.render.say.next_step import short_step

VERDICT = Column("Verdict", "verdict")
WAY_COLUMNS = (Column("Clip"), Column("Seals"), Column("Deciding check"))
NUMBER_COLUMNS = (
    Column("Found", "number"),
    Column("at least", "number"),
    Column("at most", "number"),
    Column("Measure next"),
)
UNDECIDED = "not known"


def verdict_of(fit: PairFit | OnBike) -> ShownVerdict:
    return shown_verdict(fit.word, fit.best, fit.worst)


def way_cells(dataset: Dataset, fit: PairFit) -> tuple[Cell, ...]:
    """Which clip, which seals, and what decides."""
    option = fit.option
    if option is None:
        return (Cell("none"), Cell("none"), Cell(fit.refused or ""))
    own = dataset.links[fit.link].record.clip
    note = "not its own" if option.clip is not None and option.clip != own else ""
    return (
        Cell(clip_short(option), note=note),
        Cell(seals_and_seat(option)),
        Cell(deciding_title(dataset, fit), note="small faults add up" if option.adds_up else ""),
    )


def deciding_title(dataset: Dataset, fit: PairFit) -> str:
    if fit.option is None:
        return fit.refused or ""
    return dataset.shelf.joint_rules[fit.option.deciding_check.rule_id].title


def number_cells(dataset: Dataset, fit: PairFit) -> tuple[Cell, ...]:
    """The deciding clearance with both ends, and the reading that would settle it."""
    lengths = clearance_cells(fit.option.deciding_check) if fit.option else (Cell(),) * 3
    return (*lengths, Cell(next_short(dataset, fit)))


def clearance_cells(check: CheckFit) -> tuple[Cell, Cell, Cell]:
    """Nominal with the name of what it is, low and high; empty where the check is not about a length."""
    if check.unit != "mm" or check.category is not None:
        return (Cell(),) * 3
    if check.clearance is None:
        return (Cell(UNDECIDED),) * 3
    span = check.clearance
    nominal, low, high = shown_length(round(span.nominal)), shown_low(span.low), shown_high(span.high)
    return Cell(length=nominal), Cell(length=low), Cell(length=high)


def next_short(dataset: Dataset, fit: PairFit) -> str:
    found = fit.measure_next
    if found is None:
        return "nothing" if fit.best == fit.worst and fit.refused is None else "look at it"
    return short_step(dataset, found)
