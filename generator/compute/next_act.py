"""What to do next about a pair whose verdict is open: one handling of one part or joint, with what the club owns."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any, Literal

from generator.compute.fit.result import CheckFit, PairFit
from generator.compute.looks import looks_open
from generator.compute.reading_cost import best_owned
from generator.model.dataset import Dataset, Part, TrialFacts
from generator.model.reading import Reading
from generator.model.shipped import PROPER
from generator.validate.told import COMPARABLE

ActKind = Literal["look", "dry-fit", "compare", "measure"]
# common practice, no source: minutes that one handling takes
EFFORT: Mapping[ActKind, int] = {"look": 2, "compare": 4, "measure": 4, "dry-fit": 10}
# common practice, no source: how likely one act shows a fault, and how likely one that reaches all open checks ends it
FAULT, ENDS = Fraction(15, 100), Fraction(70, 100)
MOST_LOOKS = 8
# groups of checks that a hand feels when the joint is put together
FELT = ("pin", "place", "seal", "clip")
TRIED_WITH_CLIP = ("clip_on", "clip_with", "thumb")


@dataclass(frozen=True, slots=True)
class Act:
    """`kind` of handling; `part` is what is handled (kind and id; for a joint: joint and chain/link); `ask` are the
    fields it fills in; `using` is an instrument of the club or the link to hold against; `reaches` are the checks that
    it can settle; `effort` is in minutes."""

    kind: ActKind
    part: tuple[str, str]
    ask: tuple[Reading, ...]
    using: str | None
    reaches: frozenset[str]
    effort: int

    @property
    def key(self) -> tuple[object, ...]:
        """The same handling for several pairs."""
        return (self.kind, self.part, self.using, self.ask if self.kind == "measure" else ())


def next_act(dataset: Dataset, fit: PairFit) -> Act | None:
    """The act with the highest chance to end it per effort; None where the verdict stands."""
    if not is_open(fit):
        return None
    open_checks = _open_checks(fit)
    acts = [act for act in acts_for(dataset, fit) if act.reaches or fit.refused is not None]
    return max(acts, key=lambda act: (_worth(act, open_checks), -act.effort), default=None)


def stands(dataset: Dataset, fit: PairFit) -> bool:
    """One rung is left, or nothing that the club can do changes the worst one: it then counts as that."""
    return (fit.refused is None and fit.best == fit.worst) or next_act(dataset, fit) is None


def is_open(fit: PairFit) -> bool:
    """Several rungs are left, or nobody can judge it yet, and the parts are of one family; a joint that is proper by
    numbers or by make is still to be tried."""
    if not fit.own_page:
        return False
    return fit.refused is not None or fit.best != fit.worst or _untried(fit)


def _untried(fit: PairFit) -> bool:
    return fit.worst == PROPER and fit.strength != "dry-fitted"


def acts_for(dataset: Dataset, fit: PairFit) -> Iterator[Act]:
    """Everything that can still be found out about the pair."""
    checks = _open_checks(fit)
    for make in (_look, _dry_fit, _compare, _measure):
        act = make(dataset, fit, checks)
        if act is not None:
            yield act


def _open_checks(fit: PairFit) -> Mapping[str, CheckFit]:
    """Those that leave the verdict open, of the way the verdict is for."""
    option = fit.option
    return {} if option is None else {check.id: check for check in option.checks if check.best < check.worst}


def _worth(act: Act, checks: Mapping[str, CheckFit]) -> Fraction:
    """Chance to end it, per minute."""
    if not checks:
        return Fraction(1, act.effort)
    share = Fraction(len(act.reaches & checks.keys()), len(checks))
    return (FAULT * share + (ENDS if share == 1 else 0)) / act.effort


def _look(dataset: Dataset, fit: PairFit, checks: Mapping[str, CheckFit]) -> Act | None:
    """One sheet of looks at both parts and the joint they make."""
    option = fit.option
    found = looks_open(dataset, fit.chain, fit.link, option.clip if option else None, _seal_set(dataset, fit))
    ask = found[:MOST_LOOKS]
    if not ask:
        return None
    in_use = any(reading.kind == "chain" and reading.field in IN_USE for reading in ask)
    reaches = frozenset(
        id_ for id_, check in checks.items() if _by_look(check) or (in_use and check.group in FELT)
    )
    return _act("look", ("joint", f"{fit.chain}/{fit.link}"), ask, None, reaches)


IN_USE = ("in_use", "plates_level", "clip_seated", "bends_freely", "seals_whole", "plate_loose", "rub_marks")


def _by_look(check: CheckFit) -> bool:
    return check.category is not None and not any(reading.field == "elongation" for reading in check.missing)


def _seal_set(dataset: Dataset, fit: PairFit) -> str | None:
    return (fit.option.seal_set if fit.option else None) or dataset.links[fit.link].record.seals


def _act(
    kind: ActKind, part: tuple[str, str], ask: Sequence[Reading], using: str | None, reaches: Iterable[str]
) -> Act:
    return Act(kind, part, tuple(ask), using, frozenset(reaches), EFFORT[kind])


def _dry_fit(dataset: Dataset, fit: PairFit, checks: Mapping[str, CheckFit]) -> Act | None:
    """Once, with all its words; not of two parts that cannot be judged, and not again what a trial has answered."""
    if fit.option is None:
        return None
    joint = f"{fit.chain}/{fit.link}"
    answered = _answered(dataset, fit)
    asked = [field for field in dry_fit_questions(dataset, fit.link) if field not in answered]
    reaches = {id_ for id_, check in checks.items() if check.group in FELT}
    if "enters" in answered or not asked or not (reaches or _untried(fit)):
        return None
    ask = [Reading("trial", joint, field) for field in asked]
    return _act("dry-fit", ("joint", joint), ask, _jaws(dataset), reaches)


def dry_fit_questions(dataset: Dataset, link: str) -> tuple[str, ...]:
    """What a whole dry fit of a link tells, in the order in which it is seen."""
    record = dataset.links[link].record
    asked = ["seals", "enters", "play", "plate_on", "bends"]
    if record.closure == "clip":
        asked += ["clip_on", "clip_with"]
    asked += ["plate_moves", "plates_no_higher"]
    if record.plate_fit == "press":
        asked.append("plates_level")
    if _jaws(dataset):
        asked += ["width_at_joint", "width_at_neighbour"]
    return tuple(asked)


def _answered(dataset: Dataset, fit: PairFit) -> frozenset[str]:
    """What trials of the two answered, or say that nobody could."""
    trials = (t for t in dataset.trials.values() if (t.record.chain, t.record.link) == (fit.chain, fit.link))
    return frozenset(field for trial in trials for field in _answers(trial))


def _answers(trial: TrialFacts) -> Iterator[str]:
    yield from trial.record.model_fields_set


def _jaws(dataset: Dataset) -> str | None:
    return best_owned(dataset, "trial", "width_at_joint")


def _compare(dataset: Dataset, fit: PairFit, checks: Mapping[str, CheckFit]) -> Act | None:
    """Against a loose link of the same kind that goes on this chain and was read or tried."""
    link = dataset.links[fit.link]
    if link.record.compared_with is not None or fit.option is None:
        return None
    other = next((each for each in dataset.links.values() if _stands_beside(each, link)), None)
    if other is None:
        return None
    known = [field for field in COMPARABLE if field in other.dims and field not in link.dims]
    reaches = {id_ for id_, check in checks.items() if _lacks(check, link.id, known)}
    if not reaches:
        return None
    ask = [Reading("link", link.id, field) for field in known]
    return _act("compare", ("link", link.id), ask, other.id, reaches)


def _stands_beside(other: Part[Any], link: Part[Any]) -> bool:
    same = ("size_code", "closure", "plate_fit")
    alike = all(getattr(other.record, field) == getattr(link.record, field) for field in same)
    return other.id != link.id and alike and other.record.compared_with is None and other.record.count > 0


def _lacks(check: CheckFit, link: str, fields: Sequence[str]) -> bool:
    """Would the check be known if these fields of the link were?"""
    return bool(check.missing) and all(each.id == link and each.field in fields for each in check.missing)


def _measure(dataset: Dataset, fit: PairFit, checks: Mapping[str, CheckFit]) -> Act | None:
    """The reading that would settle most, where an instrument of the club can."""
    found = fit.measure_next
    if found is None or found.how in ("dry-fit", "question"):
        return None
    for reading in (found.reading, *(each for each, _ in found.also)):
        using = best_owned(dataset, reading.kind, reading.field)
        if using is not None and not _read_as_well(dataset, reading, using):
            reaches = {id_ for id_, check in checks.items() if reading in (*check.missing, *check.rests_on)}
            return _act(
                "measure", (reading.kind, reading.id), [reading], using, reaches or {found.settles or ""}
            )
    return None


def _read_as_well(dataset: Dataset, reading: Reading, using: str) -> bool:
    """Was it read with this instrument already, as often as places count?"""
    table: Mapping[str, Part[Any]] = getattr(dataset, f"{reading.kind}s", {})
    part = table.get(reading.id)
    if part is None or reading.field not in part.dims:
        return False
    written = getattr(part.record, reading.field)
    again = len(getattr(written, "readings", ())) < MOST_PLACES
    return part.record.measured_with == using and not (again and part.dims[reading.field].text)


MOST_PLACES = 3
