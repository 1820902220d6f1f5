"""Why a pair came out as it did: the joint from the pin to the bike, in the order of the dots in its drawing."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import get_args

from generator.compute.fit.result import CheckFit, OptionFit, PairFit
from generator.model.dataset import Dataset
from generator.model.shipped import NO_GO, RUNGS, Drawn
from generator.render.base.lengths import shown_length
from generator.render.base.verdicts import ShownVerdict, range_in_words, range_verdict
from generator.render.say.around import joint_around
from generator.render.say.checks import Around, rule_of, told, with_limit
from generator.render.say.clash import clash_sentences
from generator.render.say.days import days_in_words
from generator.render.say.names import listed, reading_name
from generator.render.say.rungs import UNTRIED
from generator.render.say.said import Said, capital, joined, small
from generator.render.say.tried import failed_note, tried_in_part
from generator.rules.rooms import ROOM, bikes_with

PLACES: tuple[Drawn, ...] = get_args(Drawn)
MOST_OF_A_PLACE = 2  # checks of one place said in full


@dataclass(frozen=True, slots=True)
class Reason:
    """One sentence of why; `place` is the dot it belongs to, None where the drawing cannot show it, and `verdict`
    what it makes of the joint, None where that is proper."""

    place: Drawn | None
    says: Said
    verdict: ShownVerdict | None = None


def reasons(dataset: Dataset, fit: PairFit, bike: str | None = None) -> tuple[Reason, ...]:
    """What the drawing cannot show first, where it lowers the verdict; then a reason a place; what was tried last."""
    option = fit.option
    if option is None:
        refused: Said = (f"No verdict can be given: {fit.refused}.",)
        return tuple(Reason(None, says) for says in (refused, *clash_sentences(dataset, fit)))
    around = joint_around(dataset, fit.chain, fit.link, option)
    told = [*_added_up(dataset, option), *_undrawn(around, option)]
    for place in PLACES:
        checks = [c for c in option.checks if rule_of(dataset, c.rule_id).drawn == place]
        told += _of_place(dataset, fit, place, checks, around, bike)
    return (*told, *_tried(fit, option))


def _undrawn(around: Around, option: OptionFit) -> Iterator[Reason]:
    checks = [
        c for c in option.checks if rule_of(around.dataset, c.rule_id).drawn is None and c.id != "dry-fit"
    ]
    failed = [c for c in option.checks if c.id == "dry-fit" and c.worst > 0]
    for check in _worst_first([*failed, *checks], option):
        if check.worst > 0:
            yield Reason(None, with_limit(check, around), _verdict(check))


def _of_place(
    dataset: Dataset,
    fit: PairFit,
    place: Drawn,
    checks: Sequence[CheckFit],
    around: Around,
    bike: str | None,
) -> Iterator[Reason]:
    """What lowers the verdict there, the gravest first, or what the first check of the place found."""
    ordered = _worst_first(checks, fit.option)
    low = [check for check in ordered if check.worst > 0]
    led: Said = _plate(fit) if place == "plate" else ()
    shown = low or ([] if led and place == "plate" else ordered[:1])
    gone = [check for check in shown if check.clearance is None and check.category is None]
    found = [check for check in shown if check not in gone]
    # a length may be known, and not the limit it is held against
    half_known = [check for check in found if check.missing and check.best < check.worst]
    said = joined(
        [
            led,
            *(_in_full_or_short(check, around, fit) for check in found[:MOST_OF_A_PLACE]),
            _named(dataset, found[MOST_OF_A_PLACE:]),
            _not_known(dataset, [*gone, *half_known]),
            _left_to_make(
                dataset, [check for check in shown if check.by_make and check.clearance is not None]
            ),
        ]
    )
    if place == "room" and shown:
        said = joined((said, _room(dataset, fit.chain, bike)))
    if said:
        worst = max(low, key=lambda c: (c.worst, c.best), default=None)
        yield Reason(place, said, _verdict(worst) if worst else None)


def _in_full_or_short(check: CheckFit, around: Around, fit: PairFit) -> Said:
    """Both ends of what the readings allow only where that makes the verdict."""
    decides = check.id == (fit.option.deciding if fit.option else None)
    return told(check, around) if decides else with_limit(check, around)


def _named(dataset: Dataset, checks: Sequence[CheckFit]) -> Said:
    """What stands in the numbers only."""
    titles = [small(rule_of(dataset, check.rule_id).title) for check in checks]
    return (f"Also short of proper: {listed(titles)}.",) if titles else ()


def _not_known(dataset: Dataset, checks: Sequence[CheckFit]) -> Said:
    """Every reading that is missing once, however many checks ask for it; what make or hand stands for by itself."""
    made = [small(rule_of(dataset, c.rule_id).title) for c in checks if c.by_make]
    said: Said = (f"By make, not read: {listed(made)}.",) if made else ()
    return joined([said, _not_read(dataset, [check for check in checks if not check.by_make])])


def _left_to_make(dataset: Dataset, checks: Sequence[CheckFit]) -> Said:
    """What is read, but not closely enough."""
    titles = [small(rule_of(dataset, check.rule_id).title) for check in checks if not check.missing]
    return (f"By make, where the readings leave it open: {listed(titles)}.",) if titles else ()


def _not_read(dataset: Dataset, checks: Sequence[CheckFit]) -> Said:
    if not checks:
        return ()
    gone = dict.fromkeys(reading for check in checks for reading in check.missing)
    shown = [small(rule_of(dataset, c.rule_id).title) for c in checks if c.settled_by_trial]
    if len(shown) == len(checks) or not gone:
        return (f"Shown by hand: {listed(shown)}.",) if shown else ()
    return (f"Not known: {listed([reading_name(dataset, reading) for reading in gone])}.",)


def _worst_first(checks: Iterable[CheckFit], option: OptionFit | None) -> list[CheckFit]:
    """What decides before its equals; else in the order of the rules."""
    deciding = option.deciding if option else None
    return sorted(checks, key=lambda c: (-c.worst, -c.best, c.id != deciding))


def _verdict(check: CheckFit) -> ShownVerdict:
    return range_verdict(check.best, check.worst)


def _plate(fit: PairFit) -> Said:
    """Where the plate sits, as the eye sees it."""
    width, level = fit.press_to, fit.beside
    if width is None:
        return ()
    if level is None or abs(width.nominal - level.nominal) > 150_000:
        return ("Plate pressed home is ", shown_length(width.nominal), " over both outer plates.")
    return ("Plate level with its neighbours at ", shown_length(width.nominal), ".")


def _room(dataset: Dataset, chain: str, bike: str | None) -> Said:
    """The room of one bike, or the least of those that run the chain."""
    bikes = [b for b in bikes_with(dataset, chain) if bike is None or b.id == bike]
    read = [(b.dims[ROOM], b.id) for b in bikes if ROOM in b.dims]
    if not read:
        return ("The room beside the chain was not measured.",) if bikes else ()
    room, id_ = min(read, key=lambda found: found[0].nominal)
    return ("There are ", shown_length(room.nominal), f" on {id_}.")


def _added_up(dataset: Dataset, option: OptionFit) -> Iterator[Reason]:
    """Four groups at get-home make last-resort."""
    if option.adds_up:
        low = [small(rule_of(dataset, c.rule_id).title) for c in option.checks if c.worst >= 1]
        said = f"Small faults add up to {range_in_words(option.best, option.worst)}: {listed(low)}."
        yield Reason(None, (said,), range_verdict(option.best, option.worst))


def _tried(fit: PairFit, option: OptionFit) -> Iterator[Reason]:
    went = [t.on for t in fit.tried if t.id in option.trials and t.word == "went-together"]
    if went:
        yield Reason(None, (f"Tried by hand {days_in_words(went)}: it went together.",))
    elif fit.worst is not None and fit.worst < NO_GO and not fit.tried:
        yield Reason(None, ("Nobody has tried it by hand yet.",))
    for trial in fit.tried:
        if trial.open:
            yield Reason(None, (tried_in_part(trial),))


def short_reason(dataset: Dataset, fit: PairFit) -> Said:
    """One sentence for a row, and a dry fit that failed another way."""
    failed = failed_note(fit)
    return joined((_in_one(dataset, fit), (f"{capital(failed)}.",) if failed else ()))


def _in_one(dataset: Dataset, fit: PairFit) -> Said:
    option = fit.option
    if option is None:
        return (f"{(fit.refused or '').capitalize()}: look at it, do not fit it.",)
    if option.adds_up:
        return next(iter(_added_up(dataset, option))).says
    around = joint_around(dataset, fit.chain, fit.link, option)
    check = option.deciding_check
    if fit.worst == 0:
        return joined((_plate(fit), (_how_known(fit, option),)))
    if fit.best != fit.worst and fit.worst is not None:
        return joined(((f"Could be {RUNGS[fit.worst]}: do not count on it.",), told(check, around)))
    return with_limit(check, around)


def _how_known(fit: PairFit, option: OptionFit) -> str:
    went = [t.on for t in fit.tried if t.id in option.trials and t.word == "went-together"]
    if went:
        return f"Tried by hand {days_in_words(went)}."
    return f"{UNTRIED[fit.strength]}: dry-fit it at home before you count on it."


def reason_title(dataset: Dataset, fit: PairFit) -> str:
    """The check that decides, in a word or two; or why there is no verdict."""
    if fit.option is None:
        return fit.refused or ""
    return rule_of(dataset, fit.option.deciding_check.rule_id).title
