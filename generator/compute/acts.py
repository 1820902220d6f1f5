"""What can still be found out about a pair: one handling of one part or joint, with what the club owns."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any, Literal

from generator.compute.fit.refused import size_refused
from generator.compute.fit.result import CheckFit, PairFit
from generator.compute.fit.trials import same_between
from generator.compute.looks import FELT, JUDGED_BY, looks_open, tape_of
from generator.compute.reading_cost import best_owned
from generator.model.dataset import Dataset, Part
from generator.model.reading import Reading
from generator.model.shipped import PROPER
from generator.model.written import Written
from generator.rules.kin import in_use
from generator.validate.told import COMPARABLE

ActKind = Literal["look", "dry-fit", "compare", "measure"]
# common practice, no source: minutes that one handling takes
EFFORT: Mapping[ActKind, int] = {"look": 2, "compare": 4, "measure": 4, "dry-fit": 10}
# common practice, no source: how likely one act shows a fault, and how likely one that reaches all open checks ends it
FAULT, ENDS = Fraction(15, 100), Fraction(70, 100)
MOST_LOOKS = 8
MOST_PLACES = 3
# what hangs on the wear of the chain
WORN = frozenset(("chain-worn", "pin-entry"))
WEAR, THUMB = "elongation", "rule-of-thumb"


@dataclass(frozen=True, slots=True)
class Act:
    """`kind` of handling; `part` is what is handled (kind and id; for a joint: joint and chain/link); `ask` are the
    fields it fills in; `using` is an instrument of the club or the link to hold against; `between` is what lies between
    the plates in a dry fit; `reaches` are the checks that it can settle; `effort` is in minutes."""

    kind: ActKind
    part: tuple[str, str]
    ask: tuple[Reading, ...]
    using: str | None
    reaches: frozenset[str]
    effort: int
    between: str | None = None

    @property
    def key(self) -> tuple[object, ...]:
        """The same handling for several pairs."""
        return (self.kind, self.part, self.using, self.between, self.ask if self.kind == "measure" else ())


def untried(fit: PairFit) -> bool:
    """Proper by numbers or by make."""
    return fit.worst == PROPER and fit.strength != "dry-fitted"


def acts_for(dataset: Dataset, fit: PairFit) -> Iterator[Act]:
    """Everything that can still be found out about the pair; while a size code is not known nothing else helps."""
    codes = _codes_not_known(dataset, fit)
    if codes:
        yield _act("look", (codes[0].kind, codes[0].id), codes[:1], None, ())
        return
    checks = open_checks(fit)
    for make in (_look, _dry_fit, _compare, _measure):
        act = make(dataset, fit, checks)
        if act is not None:
            yield act


def _codes_not_known(dataset: Dataset, fit: PairFit) -> list[Reading]:
    pair: tuple[Part[Any], ...] = (dataset.links[fit.link], dataset.chains[fit.chain])
    return [
        Reading(part.kind, part.id, "size_code")
        for part in pair
        if size_refused(dataset, part.record.size_code, part.kind)
    ]


def open_checks(fit: PairFit) -> Mapping[str, CheckFit]:
    """Those that leave the verdict open, of the way the verdict is for."""
    option = fit.option
    return {} if option is None else {check.id: check for check in option.checks if check.best < check.worst}


def worth(act: Act, checks: Mapping[str, CheckFit]) -> Fraction:
    """Chance to end it, per minute."""
    if not checks:
        return Fraction(1, act.effort)
    share = sum((_settles(act, checks[id_]) for id_ in act.reaches & checks.keys()), Fraction(0)) / len(
        checks
    )
    return (FAULT * share + (ENDS if share == 1 else 0)) / act.effort


def _settles(act: Act, check: CheckFit) -> Fraction:
    """How much of what a check lacks the act brings: one reading of several does not settle it alone."""
    if act.kind in ("look", "dry-fit"):
        return Fraction(1)
    return Fraction(len(set(act.ask) & set(check.missing)) or 1, max(1, len(check.missing)))


def running_look(dataset: Dataset, fit: PairFit) -> Act:
    """One sheet of looks at a joint that is closed and runs."""
    sheet = list(_joint_sheet(dataset, fit))
    return _act("look", ("joint", f"{fit.chain}/{fit.link}"), sheet, None, ("runs-now",))


def _joint_sheet(dataset: Dataset, fit: PairFit) -> Iterator[Reading]:
    """The looks at the joint that runs, then what of its link they hang on."""
    chain, link = dataset.chains[fit.chain], dataset.links[fit.link]
    assert fit.runs_now is not None
    yield from (Reading("chain", chain.id, field) for field in fit.runs_now.not_looked)
    if link.record.came_with is None:
        yield Reading("link", link.id, "came_with")
    if link.record.condition == "unknown":
        yield Reading("link", link.id, "condition")


def _look(dataset: Dataset, fit: PairFit, checks: Mapping[str, CheckFit]) -> Act | None:
    """One sheet of looks at both parts and the joint they make."""
    found = list(looks_open(dataset, fit, checks.values()))[:MOST_LOOKS]
    # a pair that cannot be judged stays so whatever else is found out
    if not found or (fit.refused is not None and not any(look.field in JUDGED_BY for _, look in found)):
        return None
    reaches = [id_ for id_, check in checks.items() if any(look.reaches(check) for _, look in found)]
    return _act(
        "look", ("joint", f"{fit.chain}/{fit.link}"), [reading for reading, _ in found], None, reaches
    )


def _act(
    kind: ActKind,
    part: tuple[str, str],
    ask: Sequence[Reading],
    using: str | None,
    reaches: Iterable[str],
    between: str | None = None,
) -> Act:
    return Act(kind, part, tuple(ask), using, frozenset(reaches), EFFORT[kind], between)


def _dry_fit(dataset: Dataset, fit: PairFit, checks: Mapping[str, CheckFit]) -> Act | None:
    """Once, with all its words; not of two parts that cannot be judged, not of a joint that is closed and runs, and not
    again what a trial has answered."""
    chain, link = dataset.chains[fit.chain], dataset.links[fit.link]
    if fit.option is None or in_use(chain, link):
        return None
    joint = f"{fit.chain}/{fit.link}"
    answered = _answered(dataset, fit)
    asked = [field for field in dry_fit_questions(dataset, fit.link) if field not in answered]
    reaches = {id_ for id_, check in checks.items() if check.group in FELT or check.id in SEEN_IN_A_DRY_FIT}
    if "enters" in answered or not asked or not (reaches or untried(fit)):
        return None
    ask = [Reading("trial", joint, field) for field in asked]
    return _act("dry-fit", ("joint", joint), ask, _jaws(dataset), reaches, fit.option.seals)


_STICK_OUT = ("stick-out", "stick-out-unread", "stick-out-other", "stick-out-other-unread")
SEEN_IN_A_DRY_FIT = ("plate-height", *_STICK_OUT)


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
        asked += ["width_at_joint", "width_at_neighbour", "tip_stand_out"]
        asked += ["tips_beyond_heads", "heads_beyond_heads"]
    return tuple(asked)


def _answered(dataset: Dataset, fit: PairFit) -> frozenset[str]:
    """What trials of the two with the same between their plates answered, or say that nobody could; pins that do not
    go in do so whatever lies there."""
    assert fit.option is not None
    between = (*same_between(fit.option.seals), "unknown")
    trials = (
        t.record for t in dataset.trials.values() if (t.record.chain, t.record.link) == (fit.chain, fit.link)
    )
    told = (t for t in trials if t.seals in between or t.enters is False)
    return frozenset(field for trial in told for field in trial.model_fields_set)


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
    """The dimension whose reading reaches most of what is open: up to three places of it, with one instrument."""
    found = _worth_reading(fit, checks)
    acts = [_reading_act(dataset, reading, checks) for reading in found if measurable(dataset, reading)]
    return max(acts, key=lambda act: (worth(act, checks), len(act.reaches)), default=None)


def _worth_reading(fit: PairFit, checks: Mapping[str, CheckFit]) -> list[Reading]:
    """What is missing, and what would have to be read closer."""
    missing = [reading for check in checks.values() for reading in check.missing]
    closer = fit.measure_next
    asked = [closer.reading, *(each for each, _ in closer.also)] if closer and closer.how != "dry-fit" else []
    worn = [Reading("chain", fit.chain, WEAR)] if checks.keys() & WORN else []
    return list(dict.fromkeys((*missing, *worn, *asked)))


def _reading_act(dataset: Dataset, reading: Reading, checks: Mapping[str, CheckFit]) -> Act:
    """With the other places of the same part that are read the same way and are missing too."""
    recipe = dataset.shelf.recipe_by_field.get(f"{reading.kind}.{reading.field}")
    alike = [
        each
        for check in checks.values()
        for each in check.missing
        if recipe and each.id == reading.id and f"{each.kind}.{each.field}" in recipe.fields
    ]
    ask = list(dict.fromkeys((reading, *alike)))[:MOST_PLACES]
    reaches = [id_ for id_, check in checks.items() if set(ask) & {*check.missing, *check.rests_on}]
    if reading.field == WEAR:
        reaches = [id_ for id_ in checks if id_ in WORN]
    using = best_owned(dataset, reading.kind, reading.field) or tape_of(dataset) or "a tape"
    return _act("measure", (reading.kind, reading.id), ask, using, reaches)


def measurable(dataset: Dataset, reading: Reading) -> bool:
    """Has the club what reads it, and was it not read with that as often as places count?  Wear is read with a tape."""
    part: Part[Any] | None = getattr(dataset, f"{reading.kind}s", {}).get(reading.id)
    if part is None:
        return False
    if reading.field == WEAR:
        known = part.dims.get(WEAR)
        return reading.kind == "chain" and (known is None or known.evidence != "measured")
    using = best_owned(dataset, reading.kind, reading.field)
    if using is None:
        return False
    written = getattr(part.record, reading.field, None)
    if not isinstance(written, Written):
        return True
    read_so = written.form == "read" and part.record.measured_with == using
    return not (written.is_unknown or read_so or written.plus_minus is not None)
