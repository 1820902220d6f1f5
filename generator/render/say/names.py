"""What readings and parts are called in a sentence."""

from collections.abc import Mapping

from generator.model.dataset import Dataset, Part
from generator.model.kinds import KINDS
from generator.model.reading import Reading
from generator.model.record import Record
from generator.model.shipped import Recipe
from generator.render.say.said import capital, small

PART_WORDS = {**{id_: kind.word for id_, kind in KINDS.items()}, "size": "size code"}


# what a check can lack that is not a dimension
_NOT_DIMENSIONS = {
    ("link", "clip"): "a clip for link {id}",
    ("link", "seals"): "the seals of link {id}",
    ("link", "plate_fit"): "whether the side plate of link {id} slides on or needs a press",
    ("chain", "bike"): "the bike that runs chain {id}",
    ("chain", "own_link"): "the link that chain {id} runs with",
}


def parts_of(dataset: Dataset, kind: str) -> Mapping[str, Part[Record]]:
    """All parts of a kind by id."""
    found: Mapping[str, Part[Record]] = getattr(dataset, KINDS[kind].stem)
    return found


def named(part: Part[Record]) -> str:
    """What people call it, with a capital; the label of its bag where nobody gave it a name."""
    return capital(small_named(part)) if part.record.name else part.id


def small_named(part: Part[Record]) -> str:
    """The same in the middle of a sentence."""
    return part.called or part.label


def recipe_of(dataset: Dataset, kind: str, field: str) -> tuple[str, Recipe] | None:
    """The way a dimension is read, with its id."""
    name = f"{kind}.{field}"
    return next(((id_, r) for id_, r in dataset.shelf.recipes.items() if name in r.fields), None)


# one way to read two of them, so that its title would stand twice on the page of the part
_READ_ALIKE = {
    ("bike", "adjuster_forward"): "Adjuster travel left forward",
    ("bike", "adjuster_back"): "Adjuster travel left back",
    ("bike", "clearance_clip_side"): "Room beside the chain, clip side",
    ("bike", "clearance_other_side"): "Room beside the chain, other side",
    ("bike", "slack_low"): "Least slack of the manual",
    ("bike", "slack_high"): "Most slack of the manual",
    ("link", "fixed_plate_thickness"): "Fixed plate thickness",
    ("trial", "joint_gap_clip_side"): "Gap at the joint, clip side",
    ("trial", "joint_gap_other_side"): "Gap at the joint, other side",
    ("trial", "neighbour_gap_clip_side"): "Gap at the neighbour, clip side",
    ("trial", "neighbour_gap_other_side"): "Gap at the neighbour, other side",
    ("trial", "heads_beyond_heads"): "Heads of the link beyond the riveted heads",
    ("trial", "tips_beyond_heads"): "Pin tips beyond the riveted heads",
    ("trial", "width_at_joint"): "Over the plates at the joint",
    ("trial", "width_at_neighbour"): "Over the plates of the neighbour",
}


_LENGTHS = {"over ": "width", "between ": "distance"}


def dimension_title(dataset: Dataset, kind: str, field: str) -> str:
    """`Pin reach to the groove`; no two fields of a kind have the same."""
    if (kind, field) in _READ_ALIKE:
        return _READ_ALIKE[kind, field]
    found = recipe_of(dataset, kind, field)
    return found[1].title if found else field.replace("_", " ").capitalize()


def reading_name(dataset: Dataset, reading: Reading) -> str:
    """`pin reach to the groove of link tin-3-red`."""
    special = _NOT_DIMENSIONS.get((reading.kind, reading.field))
    if special:
        return special.format(id=reading.id)
    word = PART_WORDS[reading.kind]
    title = _noun(small(dimension_title(dataset, reading.kind, reading.field)))
    # what the title says already is not said again of the part
    for whose in (f" of the {word}", f" of a {word}"):
        title = title.removesuffix(whose)
    return f"{title} of {word} {reading.id}"


def _noun(title: str) -> str:
    """A title may say only where a length lies."""
    lies = next((word for word in ("over ", "between ") if title.startswith(word)), "")
    return f"{_LENGTHS[lies]} {title}" if lies else title


def listed(names: list[str]) -> str:
    """`a, b and c`."""
    if len(names) < 2:
        return "".join(names)
    return f"{', '.join(names[:-1])} and {names[-1]}"
