"""What `handbook add` asks for one record, in the order that settles most, and the words it asks in."""

from collections.abc import Iterator, Mapping, Sequence

from generator.compute.looks import CHAIN_LOOKS, CLIP_LOOKS, LINK_LOOKS, SEAL_LOOKS
from generator.model.record import Record
from generator.model.shipped import Recipe
from generator.render.say.acts import ASKED
from generator.render.say.add_questions import LABELS, OF_ALL, OF_KIND
from generator.render.schema.field_facts import FieldFacts, field_facts

LOOKS = {"chain": CHAIN_LOOKS, "link": LINK_LOOKS, "clip": CLIP_LOOKS, "seal": SEAL_LOOKS}
# of a joint that runs closed
RUNNING = ("own_clip", "own_seals", "in_use_since", "looked_on", "plates_level", "plates_no_higher", "clip_seated",
           "bends_freely", "seals_whole", "plate_loose")  # fmt: skip
# a question that is asked before others because they hang on it
LED_BY: Mapping[str, Sequence[str]] = {
    "chain": ("state", "pull_off", "seal", "own_joint", "own_link", "in_use", *RUNNING),
    "trial": ("clip", "seals", "washers", "spacers", "enters"),
}
# by kind: asked only where another question was answered so, or not yet asked at all
ONLY_WHERE: Mapping[str, Mapping[str, tuple[str, tuple[str, ...]]]] = {
    "link": {
        **dict.fromkeys(("flared", "pin_kind", "hollow_depth"), ("closure", ("rivet",))),
        **dict.fromkeys(
            ("clip", "clip_stop", "clip_stop_with", "pin_reach", "groove_width", "groove_diameter"),
            ("closure", ("clip",)),
        ),
        "shoulder_depth": ("plate_fit", ("press-to-shoulder",)),
    },
    "chain": {
        **dict.fromkeys(("seals_seen", "seal_thickness"), ("kind", ("sealed", "unknown"))),
        "own_link": ("own_joint", ("clip-slip", "clip-press", "rivet", "unknown")),
    },
    "trial": {"washers": ("seals", ("packed", "unknown")), "clip_with": ("clip_on", ("yes",))},
}
# asked only where the other question was answered, and so
ONLY_AFTER: Mapping[str, Mapping[str, tuple[str, tuple[str, ...]]]] = {
    "chain": dict.fromkeys(RUNNING, ("in_use", ("yes",))),
}
# pins that do not go in leave nothing else to see
AFTER_ENTERING = ("plate_on", "clip_on", "clip_with", "bends", "plate_moves", "play", "plates_level", "plates_no_higher",
                  "left_in_use", "thrown_later", "width_at_joint", "tip_stand_out", "tips_beyond_heads",
                  "heads_beyond_heads", "joint_gap_clip_side", "joint_gap_other_side")  # fmt: skip
MOST_KNOWN = 8
INTRO = (
    "One question at a time. Enter alone leaves a field out: it counts as not known. ? says more, "
    "a full stop alone ends the questions, and nothing is written before the end."
)
LABEL = "What is written on the bag or tag? Small letters, digits and hyphens"
NOT_NOW = "not finished; take the # away when it is whole"
MUST = "this one must be answered; write unknown where that is a choice"
STUCK = "? says what may be written; Ctrl-D ends the questions and keeps the answers so far"

TO_COME = "write it again if that record is still to come, or Enter to leave it out"
AS_STAMPED = "write it again if that is what is stamped, or unknown"
MUST_BE_THERE = (
    "write one that is there, or leave off with Ctrl-C: what was answered stays in the file behind a #"
)


def questions(kind: str, model: type[Record], recipes: Mapping[str, Recipe]) -> tuple[FieldFacts, ...]:
    """Required fields, what it is called, looks, how it was read, readings by how many checks hang on them, the rest."""
    facts = {fact.name: fact for fact in field_facts(model)}
    looks = [look.field for look in LOOKS.get(kind, ())]
    order = [
        *(name for name, fact in facts.items() if fact.required),
        "name",
        *LED_BY.get(kind, ()),
        *looks,
        *(name for name, fact in facts.items() if fact.choices and name not in looks),
        "count",
        "measured_with",
        "measured_on",
        *sorted((name for name, fact in facts.items() if fact.kind == "length"), key=lambda n: _helps(kind, n, recipes)),
    ]  # fmt: skip
    named = [name for name in dict.fromkeys(order) if name in facts]
    return tuple(facts[name] for name in [*named, *(name for name in facts if name not in named)])


def label_question(kind: str) -> str:
    return f"{LABELS[kind]} Small letters, digits and hyphens" if kind in LABELS else LABEL


def needless(kind: str, fact: FieldFacts, answers: Mapping[str, str]) -> bool:
    """What a part of another kind does not have is not asked of it, nor what can be answered in one way only."""
    if len(fact.choices) == 1 or (
        (kind, answers.get("enters")) == ("trial", "no") and fact.name in AFTER_ENTERING
    ):
        return True
    if (kind, fact.name, answers.get("kind")) == ("chain", "seals_whole", "plain"):
        return True
    asked_first, values = ONLY_AFTER.get(kind, {}).get(fact.name, ("", ()))
    if asked_first and answers.get(asked_first) not in values:
        return True
    field, values = ONLY_WHERE.get(kind, {}).get(fact.name, ("", ()))
    return field in answers and answers[field] not in values


def _helps(kind: str, name: str, recipes: Mapping[str, Recipe]) -> int:
    """More checks first."""
    recipe = recipes.get(f"{kind}.{name}")
    return -len(recipe.decides) if recipe is not None else 0


def asked(kind: str, fact: FieldFacts, known: Sequence[str] | None = None) -> str:
    """One line: the question and what may be answered; `known` are the records of the club that it may name."""
    return f"{fact.name}: {_question(kind, fact)} ({_answers(fact, known)})".removesuffix(" ()")


def _question(kind: str, fact: FieldFacts) -> str:
    written = ASKED.get((kind, fact.name)) or OF_KIND.get((kind, fact.name)) or OF_ALL.get(fact.name)
    if written is None and fact.kind == "length":
        return f"{fact.description}: what do you read?"
    return written or fact.description


def _answers(fact: FieldFacts, known: Sequence[str] | None) -> str:
    if fact.choices:
        return " / ".join(fact.choices) + (", or several: [a, b]" if fact.is_list else "")
    if fact.kind == "length":
        return "such as 5.24 mm or 5/8 in"
    if fact.kind == "count":
        return "a number"
    if known is None or fact.kind == "size":
        return f"such as {fact.example}" if fact.example else ""
    more = f" and {len(known) - MOST_KNOWN} more" if len(known) > MOST_KNOWN else ""
    return f"there is: {', '.join(known[:MOST_KNOWN])}{more}" if known else "none is written down yet"


def more(kind: str, fact: FieldFacts, recipes: Mapping[str, Recipe]) -> Iterator[str]:
    """What a question mark is answered with."""
    yield f"{fact.name} holds {fact.holds}."
    if fact.description != _question(kind, fact):
        yield f"{fact.description}."
    recipe = recipes.get(f"{kind}.{fact.name}")
    if recipe is not None:
        yield " ".join(recipe.how.split())
