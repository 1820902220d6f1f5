"""What to do next, in words: what is handled, what is asked of it, with what and how long that takes."""

from collections.abc import Callable, Iterator, Mapping

from generator.compute.acts import Act
from generator.model.dataset import Dataset
from generator.model.kinds import MODELS
from generator.model.reading import Reading
from generator.render.say.joint import SEALS_SHORT
from generator.render.say.names import (
    PART_WORDS,
    dimension_title,
    listed,
    named,
    parts_of,
    reading_name,
    recipe_of,
    small_named,
)
from generator.render.say.said import small
from generator.render.schema.field_facts import choices_of

# asked in words of their own, as the choices say more than the field does
ASKED: Mapping[tuple[str, str], str] = {
    ("link", "size_code"): "Which code is stamped on its plates, or printed on its packet?",
    ("chain", "size_code"): "Which code is stamped on its outer plates?",
    ("link", "made_for"): "Was it made for plain or for sealed chain?",
    ("link", "came_with"): "Which chain did it come in one box with? Write none where it came without.",
    ("bike", "joint_in_manual"): "Which kind of joint does its manual ask for?",
    ("chain", "kind"): "Is it a plain chain, or has it seals between its plates?",
    ("chain", "elongation"): "How far is it worn, in per cent of its length?",
    ("link", "condition"): "Is it new, fitted before, cracked, drilled, or worn in a step on the pins?",
    ("link", "clip"): "Is there a clip with it? Give the clip a record, and name it here.",
    ("link", "seals"): "Are there seals with it? Give them a record, and name them here, or write none.",
    ("chain", "state"): "Was anything on the chain filed, ground or welded?",
    ("chain", "seal"): "Look between its plates: round rings (O), four-lipped ones (X), others, or none?",
    ("chain", "own_joint"): "How is the chain itself joined: clip, rivet or endless?",
    ("chain", "pull_off"): "Pull it off the rear sprocket: how much of a tooth shows?",
    ("clip", "history"): "Has the clip ever been off its link, or is it bent?",
    ("clip", "worn_step"): "Does a fingernail catch on a worn step, beside where it bears on plate and pins?",
    ("trial", "seals"): "What lay between the plates?",
    (
        "trial",
        "clip_with",
    ): "Did the clip go on with fingers, or snap on with pliers so that no thumb pushes it off?",
    ("trial", "plate_on"): "Did the side plate slide on by hand, or was it pressed?",
    ("trial", "play"): "Have the pins more play in the bushes than the neighbours'?",
}


def act_line(dataset: Dataset, act: Act) -> str:
    """`Dry-fit it: ten questions, about 10 minutes.`"""
    return f"{act_title(dataset, act)} (about {act.effort} minutes)."


def act_title(dataset: Dataset, act: Act) -> str:
    """What is handled, by its label, and with what."""
    return _done(dataset, act, _labelled(act), lambda reading: reading_name(dataset, reading))


def _handled(act: Act) -> tuple[str, str]:
    """Of a joint that is looked at only the part that is asked about, where all questions are about one."""
    asked = {(reading.kind, reading.id) for reading in act.ask}
    return next(iter(asked)) if act.kind == "look" and len(asked) == 1 else act.part


def _labelled(act: Act) -> str:
    kind, id_ = _handled(act)
    if kind != "joint":
        return f"{PART_WORDS[kind]} {id_}"
    chain, _, link = id_.partition("/")
    return f"link {link} {'and' if act.kind == 'look' else 'on'} chain {chain}"


def _done(dataset: Dataset, act: Act, what: str, name: Callable[[Reading], str]) -> str:
    match act.kind:
        case "look":
            return f"Look at {what}"
        case "compare":
            return f"Hold {what} against link {act.using}, fixed plates together"
        case "dry-fit":
            packing = f", {SEALS_SHORT[act.between]}" if act.between in ("left-out", "packed") else ""
            return f"Dry-fit {what} at home{packing}"
        case "measure":
            names = listed([name(reading) for reading in act.ask])
            return f"Measure the {names} with {_instrument(dataset, act.using)}"


def act_subject(dataset: Dataset, act: Act) -> tuple[str, str]:
    """What is handled, by the name people give it, and the label on its bag; of a joint that of its link."""
    kind, id_ = _handled(act)
    if kind != "joint":
        part = parts_of(dataset, kind)[id_]
        return named(part), id_
    chain, _, link = id_.partition("/")
    return f"{named(dataset.links[link])} on {small_named(dataset.chains[chain])}", link


def act_doing(dataset: Dataset, act: Act) -> str:
    """What is done with it, where its name stands beside."""
    return _done(dataset, act, "it", lambda each: small(dimension_title(dataset, each.kind, each.field)))


def act_questions(dataset: Dataset, act: Act) -> tuple[str, ...]:
    """Every question with the field that its answer fills in, and what may be written there."""
    return tuple(f"{_question(dataset, act, reading)} [{_field(reading)}]" for reading in act.ask)


def _field(reading: Reading) -> str:
    """`pull_off: under-half / over-half / most`; that it is not known needs no writing."""
    choices = [word for word in choices_of(MODELS[reading.kind])[reading.field] if word != "unknown"]
    return f"{reading.field}: {' / '.join(choices)}" if choices else reading.field


def _question(dataset: Dataset, act: Act, reading: Reading) -> str:
    asked = ASKED.get((reading.kind, reading.field))
    if asked is not None:
        # a chain may run on several bikes, each with its manual
        return f"Bike {reading.id}: {small(asked)}" if reading.kind == "bike" else asked
    if act.kind == "compare":
        return f"Is its {reading_name(dataset, reading)} the same, or longer or shorter by how much?"
    recipe = recipe_of(dataset, reading.kind, reading.field)
    if recipe is not None:
        return recipe[1].title
    return str(MODELS[reading.kind].model_fields[reading.field].description)


def _instrument(dataset: Dataset, using: str | None) -> str:
    own = dataset.club.instruments.get(using or "")
    return (own.name or using or "") if own is not None else (using or "what reads it")


def where_written(dataset: Dataset, act: Act) -> str:
    """The files and records that the answers go into."""
    return listed(list(dict.fromkeys(_written(dataset, act))))


def _written(dataset: Dataset, act: Act) -> Iterator[str]:
    for reading in act.ask:
        model = MODELS[reading.kind]
        if reading.kind == "trial":
            yield f"a record of {model.file}"
        elif reading.id in parts_of(dataset, reading.kind):
            yield f"{PART_WORDS[reading.kind]} {reading.id} in {model.file}"
