"""Nodes -> records: each record of its model, or what parsed of it."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Annotated, Any, Generic, TypeVar

from pydantic import BaseModel, TypeAdapter, ValidationError

from generator.model.chain_parts import NO_PART
from generator.model.fields import IdText
from generator.model.node import Block, Path, key_span, node_at, to_plain
from generator.problems import Problem
from generator.validate.wording import reworded

M = TypeVar("M", bound=BaseModel)

_ID: TypeAdapter[str] = TypeAdapter(IdText)
# names Windows keeps for its devices; an id is a file name of the site
_WINDOWS_NAMES = {
    "con",
    "prn",
    "aux",
    "nul",
    *(f"{port}{n}" for port in ("com", "lpt") for n in range(1, 10)),
}


@dataclass(frozen=True, slots=True)
class Shaped(Generic[M]):
    """A record; `whole` is False when a faulty field was left out (a required one then is None)."""

    record: M
    whole: bool


def shape_file(root: Block, model: type[M], ids: bool = True) -> tuple[dict[str, Shaped[M]], list[Problem]]:
    """Every record of a file that maps ids to records, in the order of the file."""
    shaped: dict[str, Shaped[M]] = {}
    problems: list[Problem] = []
    for key in root.entries:
        if ids:
            problems.extend(_id_problems(root, key))
        record, faults = shape_record(root, (key,), model)
        problems.extend(faults)
        if record is not None:
            shaped[key] = record
    return shaped, problems


def shape_record(root: Block, path: Path, model: type[M]) -> tuple[Shaped[M] | None, list[Problem]]:
    """One record; with faults, the record of the fields that parsed."""
    node = node_at(root, path)
    plain = to_plain(node) if node is not None else None
    try:
        record, faults = model.model_validate(plain), []
    except ValidationError as error:
        faults = list(reworded(error.errors(include_url=False), model, root, path))
        if not isinstance(plain, dict):
            return None, faults
        return Shaped(_of_good_fields(model, plain), False), faults
    whole = not (isinstance(node, Block) and node.broken)
    return Shaped(record, whole), faults


def _of_good_fields(model: type[M], plain: Mapping[str, object]) -> M:
    """A record of the fields that parsed; the models' own defaults for the others, None where there is none."""
    values: dict[str, Any] = {}
    for name, field in model.model_fields.items():
        key = field.alias or name
        try:
            if key in plain:
                values[name] = _adapter(model, name).validate_python(plain[key])
        except ValidationError:
            continue
    for name, field in model.model_fields.items():
        if field.is_required():
            values.setdefault(name, None)
    return model.model_construct(**{(model.model_fields[n].alias or n): v for n, v in values.items()})


@cache
def _adapter(model: type[BaseModel], name: str) -> TypeAdapter[Any]:
    field = model.model_fields[name]
    kind: Any = field.annotation
    for extra in field.metadata:
        kind = Annotated[kind, extra]
    return TypeAdapter(kind)


def _id_problems(root: Block, key: str) -> list[Problem]:
    """An id is the label on the bag, an address and a file name."""
    place = key_span(root, (key,))
    try:
        _ID.validate_python(key)
    except ValidationError as error:
        context = error.errors()[0]["ctx"]
        code, near = error.errors()[0]["type"], context.get("near")
        return [Problem(code, context["message"], place, (key,), context["fix"], near)]
    if key in NO_PART:
        fix = f"write what stands on the bag, such as {key}-1"
        return [Problem("R217", f"'{key}' says that there is no such part, it is no id", place, (key,), fix)]
    if key in _WINDOWS_NAMES:
        fix = f"write another, such as {key}-1"
        return [Problem("R215", f"'{key}' is a name Windows keeps for a device", place, (key,), fix)]
    return []
