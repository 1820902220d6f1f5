"""What the record models refuse, in plain words and at the deepest place that exists."""

import re
from collections.abc import Iterator, Mapping, Sequence
from difflib import get_close_matches
from typing import Any, get_args

from pydantic import BaseModel

from generator.model.length import block_fault_key
from generator.model.node import Block, Path, Scalar, key_span, node_at, part_of, span_of, to_plain
from generator.problems import Place, Problem

# error types of the models that mean the same to the person who wrote the file
_NOT_ONE_VALUE = ("string_type",)
_NOT_A_BLOCK = ("model_type", "model_attributes_type", "dict_type", "mapping_type")
_NOT_A_LIST = ("tuple_type", "list_type")

MOST_EDITS = 2
# what people write where one of our choices is meant
MEANT: Mapping[str, Sequence[str]] = {
    **dict.fromkeys(("o-ring", "oring", "o ring", "o-rings", "o-seal", "round"), ("O",)),
    **dict.fromkeys(("x-ring", "xring", "x ring", "x-rings", "x-seal", "quad"), ("X",)),
    **dict.fromkeys(
        ("spring clip", "spring-clip", "split link", "circlip", "master link", "fish clip"), ("clip",)
    ),
    **dict.fromkeys(("riveted", "rivet link", "peened", "soft link"), ("rivet",)),
    **dict.fromkeys(("screwed", "nuts", "bolted", "bolts"), ("screw",)),
    **dict.fromkeys(
        ("by hand", "hand", "slides", "slide-on", "slide on", "loose fit", "slip fit"), ("slip", "by-hand")
    ),
    **dict.fromkeys(("press fit", "press-fit", "tight", "pressed on", "with a press"), ("press", "pressed")),
    **dict.fromkeys(
        ("used", "old", "second hand", "second-hand", "fitted", "once"), ("fitted-once", "off-once")
    ),
    **dict.fromkeys(("twice",), ("fitted-twice",)),
    **dict.fromkeys(("brand new", "unused", "in packet", "never used"), ("new",)),
    **dict.fromkeys(("?", "don't know", "dont know", "not known", "n/a", "na", "-", "no idea"), ("unknown",)),
    **dict.fromkeys(("true", "y", "on", "yeah", "ja", "1"), ("yes",)),
    **dict.fromkeys(("false", "n", "off", "nope", "0"), ("no",)),
    **dict.fromkeys(("unsealed", "standard", "without seals", "no seals"), ("plain", "none")),
    **dict.fromkeys(("o-ring chain", "x-ring chain", "with seals", "seals"), ("sealed",)),
    **dict.fromkeys(("size", "sizes", "fits"), ("size_code", "takes")),
    **dict.fromkeys(("where", "place", "location", "stored", "box", "tin"), ("kept_in",)),
    **dict.fromkeys(("quantity", "qty", "amount", "number", "stock", "how_many"), ("count",)),
    **dict.fromkeys(("weight",), ("mass",)),
    **dict.fromkeys(("price",), ("cost",)),
    **dict.fromkeys(("brand", "make", "stamp", "stamped"), ("letters",)),
    **dict.fromkeys(("front", "front_sprocket", "countershaft"), ("front_teeth",)),
    **dict.fromkeys(("rear", "back", "rear_sprocket"), ("rear_teeth",)),
}


def edits(one: str, other: str) -> int:
    """Letters to change, put in, take out or swap with the next, to make one word of the other."""
    before: list[int] = []
    row = list(range(len(other) + 1))
    for i, letter in enumerate(one, start=1):
        last, before, row = before, row, [i]
        for j, against in enumerate(other, start=1):
            swapped = i > 1 and j > 1 and letter == other[j - 2] and one[i - 2] == against
            steps = [row[j - 1] + 1, before[j] + 1, before[j - 1] + (letter != against)]
            row.append(min([*steps, last[j - 2] + 1] if swapped else steps))
    return row[-1]


def nearest(word: str, choices: Sequence[str]) -> str | None:
    """What people mean by a word that is no choice; else the one that one slip of the hand would turn into it, the
    only one that is a part of it or that it is a part of, or one within two slips; else the most alike."""
    small = word.casefold().strip()
    meant = [choice for choice in choices if choice in MEANT.get(small, ())]
    alike = meant or [choice for choice in choices if choice.casefold() == small]
    close = sorted((edits(small, choice.casefold()), choice) for choice in choices)
    slips = [(far, choice) for far, choice in close[:1] if far <= MOST_EDITS and far < len(small)]
    near = alike or [choice for far, choice in slips if far == 1] or _sharing_a_word(small, choices)
    near = near or [choice for _, choice in slips]
    near = near or get_close_matches(word, choices, 1) or get_close_matches(small, choices, 1)
    return near[0] if near else None


def _sharing_a_word(small: str, choices: Sequence[str]) -> list[str]:
    """The only choice that is a word of what was written, or of which that is a word."""

    def words(text: str) -> list[str]:
        return re.split("[-_ ]", text.casefold())

    found = [choice for choice in choices if small in words(choice) or choice.casefold() in words(small)]
    return found if len(found) == 1 else []


def reworded(errors: Sequence[Any], model: type[BaseModel], root: Block, path: Path) -> Iterator[Problem]:
    """One problem per fault: a value that fits none of two kinds, a key that is missing because it is misspelt."""
    seen: set[tuple[str | int, ...]] = set()
    misspelt: set[tuple[str, ...]] = set()
    for error in sorted(errors, key=lambda one: one["type"] == "missing"):
        loc = tuple(error["loc"])
        about_keys = error["type"] in ("missing", "extra_forbidden")
        spot = (*loc, "key") if about_keys else _existing(root, path, loc)
        if spot in seen:
            continue
        seen.add(spot)
        problem = _one(error, model, root, path, loc)
        if problem is None or (problem.code == "R202" and problem.path in misspelt):
            continue
        if problem.did_you_mean and problem.code == "R201":
            misspelt.add((*problem.path[:-1], problem.did_you_mean))
        yield problem


def _existing(root: Block, path: Path, loc: tuple[str | int, ...]) -> tuple[str | int, ...]:
    """The steps of `loc` that are there in the file; tags of unions are not."""
    kept: list[str | int] = []
    for step in loc:
        if node_at(root, (*path, *kept, step)) is None:
            break
        kept.append(step)
    return tuple(kept)


def _one(
    error: Mapping[str, Any], model: type[BaseModel], root: Block, path: Path, loc: tuple[str | int, ...]
) -> Problem | None:
    kind = error["type"]
    if kind == "missing":
        return _missing(model, root, path, loc)
    if kind == "extra_forbidden":
        return _unknown_key(model, root, path, loc)
    steps = tuple(str(step) for step in (*path, *_existing(root, path, loc)))
    place = _value_place(root, path, loc)
    if "message" in error.get("ctx", {}):
        return _custom(error, root, path, loc, steps)
    if kind == "literal_error":
        return _choice(error, root, path, loc, steps)
    if kind == "string_too_long":
        most = error["ctx"]["max_length"]
        fix = f"cut it to {most} characters"
        return Problem("R204", f"{len(error['input'])} characters are too many here", place, steps, fix)
    if kind in _NOT_A_BLOCK:
        return Problem("R213", "keys with values are needed here, not one text or a list", place, steps)
    if kind in _NOT_A_LIST:
        return Problem("R214", "a list is needed here, not keys with values", place, steps)
    if kind in _NOT_ONE_VALUE:
        return Problem("R205", "one text is needed here, not a list or a block", place, steps)
    raise AssertionError(f"the models refuse in a way nobody has put into words: {kind}")


def _missing(model: type[BaseModel], root: Block, path: Path, loc: tuple[str | int, ...]) -> Problem | None:
    """A required key that is not there; one whose value was refused already is not reported again."""
    parent = node_at(root, (*path, *loc[:-1]))
    name = str(loc[-1])
    if isinstance(parent, Block) and name in parent.broken:
        return None
    owner = model_at(model, loc[:-1])
    field = _field(owner, name)
    steps = tuple(str(step) for step in (*path, *loc))
    place = span_of(root, (*path, *loc[:-1]))
    return Problem("R202", f"'{name}' is missing", place, steps, f"add {name}{_asked(field)}")


def _asked(field: Any) -> str:
    """What to write there, as a sentence, with its choices."""
    if field is None or not field.description:
        return ""
    choices = [word for word in get_args(field.annotation) if isinstance(word, str)]
    among = f" Write {', '.join(choices[:-1])} or {choices[-1]}." if len(choices) > 1 else ""
    end = "" if field.description[-1] in ".?" else "."
    return f": {field.description}{end}{among}"


def _unknown_key(model: type[BaseModel], root: Block, path: Path, loc: tuple[str | int, ...]) -> Problem:
    owner = model_at(model, loc[:-1])
    names = [field.alias or name for name, field in owner.model_fields.items()]
    word = str(loc[-1])
    steps = tuple(str(step) for step in (*path, *loc))
    near = nearest(word, names)
    fix = f"write {near}" if near else f"take it out, or use one of {', '.join(names)}"
    place = key_span(root, (*path, *loc))
    return Problem("R201", f"there is no key '{word[:60]}' here", place, steps, fix, near)


def _custom(
    error: Mapping[str, Any], root: Block, path: Path, loc: tuple[str | int, ...], steps: tuple[str, ...]
) -> Problem:
    """A refusal of our own field types, which brings its code, words and caret along."""
    context = error["ctx"]
    code, message, fix = error["type"], context["message"], context["fix"]
    full = (*path, *_existing(root, path, loc))
    node = node_at(root, full)
    offset, width = context.get("offset", 0), context.get("width", 0)
    if isinstance(node, Block) and code.startswith("L"):
        plain = {key: to_plain(entry.value) for key, entry in node.entries.items()}
        key = block_fault_key(plain, code, message)
        if key is not None:
            full, steps = (*full, key), (*steps, key)
            node = node_at(root, full)
            if code == "L120":
                return Problem(code, message, key_span(root, full), steps, fix)
    if loc and loc[-1] == "[key]":
        return Problem(code, message, key_span(root, full), steps, fix, context.get("near"))
    place = part_of(node, offset, width) if isinstance(node, Scalar) else span_of(root, full)
    return Problem(code, message, place, steps, fix, context.get("near"))


def _choice(
    error: Mapping[str, Any], root: Block, path: Path, loc: tuple[str | int, ...], steps: tuple[str, ...]
) -> Problem:
    choices = re.findall(r"'([^']*)'", error["ctx"]["expected"])
    word = error["input"]
    # a list of one word is that word with brackets round it
    only = word[0] if isinstance(word, list) and len(word) == 1 else word
    near = nearest(only, choices) if isinstance(only, str) else None
    fix = f"write {near}" if near else f"write one of {', '.join(choices)}"
    place = _value_place(root, path, loc)
    if not isinstance(word, str):
        return Problem("R205", "one word is needed here, not a list or a block", place, steps, fix, near)
    return Problem("R203", f"'{word[:60]}' is not a choice here", place, steps, fix, near)


def _value_place(root: Block, path: Path, loc: tuple[str | int, ...]) -> Place:
    if loc and loc[-1] == "[key]":
        return key_span(root, (*path, *loc[:-1]))
    return span_of(root, (*path, *loc))


def model_at(model: type[BaseModel], loc: Sequence[str | int]) -> type[BaseModel]:
    """The model that owns the keys at `loc`; ids and positions on the way do not change it."""
    for step in loc:
        field = _field(model, str(step))
        inner = _model_in(field.annotation) if field is not None else None
        model = inner or model
    return model


def _field(model: type[BaseModel], name: str) -> Any:
    for own, field in model.model_fields.items():
        if name in (own, field.alias):
            return field
    return None


def _model_in(annotation: Any) -> type[BaseModel] | None:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation
    return next((found for part in get_args(annotation) if (found := _model_in(part))), None)
