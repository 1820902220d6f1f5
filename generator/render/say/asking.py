"""What `handbook add` asks for one record, in the order that settles most, and the words it asks in."""

from collections.abc import Iterator, Mapping

from generator.compute.looks import CHAIN_LOOKS, CLIP_LOOKS, LINK_LOOKS, SEAL_LOOKS
from generator.model.record import Record
from generator.model.shipped import Recipe
from generator.render.say.acts import ASKED
from generator.render.schema.field_facts import FieldFacts, field_facts

LOOKS = {"chain": CHAIN_LOOKS, "link": LINK_LOOKS, "clip": CLIP_LOOKS, "seal": SEAL_LOOKS}
ONLY_WHERE = {
    **dict.fromkeys(("flared", "pin_kind", "hollow_depth"), ("closure", "rivet")),
    **dict.fromkeys(
        ("clip", "clip_stop", "clip_stop_with", "pin_reach", "groove_width", "groove_diameter"),
        ("closure", "clip"),
    ),
    "shoulder_depth": ("plate_fit", "press-to-shoulder"),
}
INTRO = (
    "One question at a time. Enter alone leaves a field out: it counts as not known. ? says more, "
    "a full stop alone ends the questions, and nothing is written before the end."
)
LABEL = "What is written on the bag or tag? Small letters, digits and hyphens"
NOT_NOW = "not finished; take the # away when it is whole"
MUST = "this one must be answered; write unknown where that is a choice"


def questions(kind: str, model: type[Record], recipes: Mapping[str, Recipe]) -> tuple[FieldFacts, ...]:
    """Required fields, what it is called, looks, how it was read, readings by how many checks hang on them, the rest."""
    facts = {fact.name: fact for fact in field_facts(model)}
    looks = [look.field for look in LOOKS.get(kind, ())]
    order = [
        *(name for name, fact in facts.items() if fact.required),
        "name",
        *looks,
        *(name for name, fact in facts.items() if fact.choices and name not in looks),
        "measured_with",
        "measured_on",
        *sorted((name for name, fact in facts.items() if fact.kind == "length"), key=lambda n: _helps(kind, n, recipes)),
    ]  # fmt: skip
    named = [name for name in dict.fromkeys(order) if name in facts]
    return tuple(facts[name] for name in [*named, *(name for name in facts if name not in named)])


def needless(name: str, answers: Mapping[str, str]) -> bool:
    """What a link of another kind does not have is not asked of it."""
    field, value = ONLY_WHERE.get(name, ("", ""))
    return field in answers and answers[field] != value


def _helps(kind: str, name: str, recipes: Mapping[str, Recipe]) -> int:
    """More checks first."""
    recipe = recipes.get(f"{kind}.{name}")
    return -len(recipe.decides) if recipe is not None else 0


def asked(kind: str, fact: FieldFacts) -> str:
    """One line: the question and what may be answered."""
    question = ASKED.get((kind, fact.name), fact.description)
    choices = (
        f" ({' / '.join(fact.choices)})"
        if fact.choices
        else f" (such as {fact.example})"
        if fact.example
        else ""
    )
    return f"{fact.name}: {question}{choices}"


def more(kind: str, fact: FieldFacts, recipes: Mapping[str, Recipe]) -> Iterator[str]:
    """What a question mark is answered with."""
    yield f"{fact.name} holds {fact.holds}."
    recipe = recipes.get(f"{kind}.{fact.name}")
    if recipe is not None:
        yield " ".join(recipe.how.split())
