"""What to do at the bench so that an open verdict closes."""

from collections.abc import Iterable, Mapping

from generator.compute.fit.fits import DISAGREE
from generator.compute.fit.result import MeasureNext, PairFit
from generator.compute.next_act import out_of_reach
from generator.model.dataset import Dataset
from generator.model.quantity import NM_PER_MM
from generator.model.reading import Reading
from generator.model.shipped import RUNGS
from generator.render.base.lengths import ShownLength, shown_length
from generator.render.say.clash import measure_again
from generator.render.say.names import listed, reading_name
from generator.render.say.said import Said, joined, small

# what is no reading but a look, a question or a try, by part and field
_QUESTIONS: Mapping[tuple[str, str], str] = {
    (
        "clip",
        "history",
    ): "Ask whether clip {id} has ever been off its link, and write it down; if nobody knows, take a new clip.",
    (
        "chain",
        "seal",
    ): "Look at the section of the seals of chain {id}, round or four-lobed, and write it down.",
    ("seal", "shape"): "Look at the section of seals {id}, round or four-lobed, and write it down.",
    (
        "chain",
        "own_joint",
    ): "Look at how chain {id} itself is joined, pressed, riveted or sliding, and write it down.",
    (
        "chain",
        "elongation",
    ): "Measure how far chain {id} is worn: the length over an even number of pitches, pulled taut.",
    ("chain", "own_link"): "Which link does chain {id} run with? Write its id down as own_link.",
    ("chain", "bike"): "Which bike runs chain {id}? Write the bike down, with this chain.",
    ("link", "clip"): "Which clip belongs to link {id}? Write its id down as clip.",
    (
        "link",
        "pin_step",
    ): "Read the pins of link {id} again, largest and smallest while turning, and write the step down.",
    ("link", "seals"): "Which seals belong to link {id}? Write their id down as seals.",
}
TRY = "Dry-fit it at home and record the trial."


def next_step(dataset: Dataset, fit: PairFit) -> Said:
    """Empty where all is decided."""
    if fit.refused is not None:
        return (measure_again(dataset, fit) if fit.refused == DISAGREE else _refused_step(fit.refused),)
    if fit.best == fit.worst or fit.option is None:
        return ()
    found = fit.measure_next
    if found is None:
        return (_try(fit),)
    return joined((_first(dataset, found, fit), _settles(dataset, found), _afterwards(dataset, found)))


def closer_with(dataset: Dataset, fit: PairFit) -> str:
    """Where nothing of the club tells a verdict closer: what would, if some instrument would."""
    return " ".join(
        f"With {small(dataset.shelf.instruments[kind].title).partition(',')[0]} ({kind} in club.yaml) it could read "
        f"the {listed([reading_name(dataset, each) for each in readings])}."
        for kind, readings in out_of_reach(dataset, fit).items()
    )


def plus_minus(nanometres: int) -> ShownLength:
    """A ± with as many decimals as it has, so that it never reads as more, as less or as nothing."""
    decimals = next((n for n in (2, 3, 4, 5) if nanometres % (NM_PER_MM // 10**n) == 0), 6)
    return shown_length(nanometres, decimals)


def question(reading: Reading, dataset: Dataset) -> str:
    """What to find out, where it is not a length."""
    asked = _QUESTIONS.get((reading.kind, reading.field))
    name = reading_name(dataset, reading)
    return asked.format(id=reading.id) if asked else f"Find out {name} and write it down."


def short_step(dataset: Dataset, found: MeasureNext) -> str:
    """For a cell: the reading, or what to do in its place."""
    name = reading_name(dataset, found.reading)
    if found.how == "dry-fit":
        return "dry-fit it"
    return f"find out: {name}" if found.how == "question" else name


def _try(fit: PairFit) -> str:
    """A dry fit that is recorded already is not asked for again."""
    if fit.strength != "dry-fitted" or fit.worst is None:
        return TRY
    return f"The dry fit that is recorded cannot tell it either: count on {RUNGS[fit.worst]}."


def _first(dataset: Dataset, found: MeasureNext, fit: PairFit) -> Said:
    name = reading_name(dataset, found.reading)
    if found.how == "question":
        return (question(found.reading, dataset),)
    if found.how == "dry-fit":
        return _dry_fit(name, found, _try(fit))
    if found.to_within is None:
        return (f"Measure {name}.",)
    if found.how == "needed":
        return (f"Measure {name} to within ± ", plus_minus(found.to_within), ".")
    if found.how == "together":
        return ("No one reading settles it. ", *_all_of(dataset, found, "Measure "), ".")
    return (
        f"Measure {name}, which nobody has read yet; the best instrument listed reads it to within ± ",
        plus_minus(found.to_within),
        ".",
    )


def _dry_fit(name: str, found: MeasureNext, otherwise: str) -> Said:
    """Nobody is asked for what no instrument can do."""
    if found.needed is None:
        return (
            f"No caliper settles it: it lies too near a limit, mostly because of the {name}. {otherwise}",
        )
    closer = ", closer than any instrument listed reads it. "
    return (
        f"No caliper settles it: it takes the {name} to within ± ",
        plus_minus(found.needed),
        closer + otherwise,
    )


def _all_of(dataset: Dataset, found: MeasureNext, lead: str) -> Iterable[str | ShownLength]:
    for number, (reading, within) in enumerate(((found.reading, found.to_within), *found.also)):
        between = lead if number == 0 else " and " if number == len(found.also) else ", "
        yield f"{between}{reading_name(dataset, reading)}"
        if within is not None:
            yield " to within ± "
            yield plus_minus(within)


def _settles(dataset: Dataset, found: MeasureNext) -> Said:
    """On which condition, and what."""
    if found.settles is None or found.how == "dry-fit":
        return ()
    check = check_name(dataset, found.settles)
    if found.how in ("needed", "together"):
        whole = ", and with it the verdict" if found.settles_pair else ""
        it = "them" if found.also else "it"
        return (f"That settles {check}{whole}, unless a reading brings {it} nearer to a limit than before.",)
    if found.also:
        others = listed([reading_name(dataset, reading) for reading, _ in found.also])
        return (f"With {others} it settles {check}, unless they come out close to a limit.",)
    if found.how == "question" or _by_word(dataset, found.settles):
        return (f"That settles {check}.",)
    return (f"It settles {check}, unless it comes out close to a limit.",)


def _afterwards(dataset: Dataset, found: MeasureNext) -> Said:
    """What is open all the same."""
    if found.then_open:
        names = [check_name(dataset, check) for check in found.then_open]
        many = listed([*names[:2], f"{len(names) - 2} more"] if len(names) > 3 else names)
        verb = "is" if len(names) == 1 else "are"
        then = f": {reading_name(dataset, found.then)} comes next" if found.then is not None else ""
        known = found.how in ("needed", "together")
        whether = "If nothing comes out nearer to a limit," if known else "Unless that rules the pair out,"
        return (f"{whether} {many} {verb} still open then{then}.",)
    if found.decides is not None and not found.settles_pair:
        left = RUNGS[found.decides]
        return (
            f"If it comes out as before, this way is {left} then; another way to join them may be better.",
        )
    return ()


def _by_word(dataset: Dataset, check_id: str) -> bool:
    """Is it a check that asks for a word, so that any reading answers it?"""
    rule = dataset.shelf.joint_rules.get(check_id)
    return rule is not None and rule.category is not None


def check_name(dataset: Dataset, check_id: str) -> str:
    """A check in the middle of a sentence, as its rule is titled."""
    shelf = dataset.shelf
    for table in (shelf.joint_rules, *shelf.other_rules.values()):
        for id_, rule in table.items():
            if check_id in (id_, rule.check):
                return f"‘{rule.title}’"
    return check_id


def _refused_step(reason: str) -> str:
    if "modified" in reason:
        return "Readings do not help with a modified part: let someone who knows chains look at it, or leave it out."
    return "Find it out, write it into the club's file, and the verdict follows."
