"""Two dimensions that must not cross, judged over their whole intervals."""

from collections.abc import Callable, Iterator
from typing import Any

from generator.model.quantity import NM_PER_MM, Quantity
from generator.problems import Level, Place, Problem
from generator.validate.draft import ClubDraft, Draft

OwnRule = Callable[[Draft[Any]], Iterator[Problem]]
ClubRule = Callable[[Draft[Any], ClubDraft], Iterator[Problem]]


def in_mm(length: int) -> str:
    """A length for a message."""
    text = f"{length / NM_PER_MM:.3f}".rstrip("0").rstrip(".")
    return f"{text} mm"


def crossing(less: Quantity | None, more: Quantity | None) -> Level | None:
    """How sure it is that `less` is more than `more`."""
    if less is None or more is None:
        return None
    if less.low > more.high:
        return "error"
    return "warning" if less.nominal > more.nominal else None


def must_fit(
    draft: Draft[Any], code: str, less: str, more: str, words: str, fix: str = ""
) -> Iterator[Problem]:
    """The field `less` cannot be more than the field `more` of the same record.

    `words` has a place for each of the two lengths.
    """
    level = crossing(draft.dims.get(less), draft.dims.get(more))
    if level is not None:
        message = words.format(in_mm(draft.dims[less].nominal), in_mm(draft.dims[more].nominal))
        yield draft.problem(code, message, less, fix=fix, level=level, related=(draft.place(more),))


def places(draft: Draft[Any], *fields: str) -> tuple[Place, ...]:
    """Where the fields of a record stand, for those its author wrote."""
    return tuple(draft.place(field) for field in fields if draft.has(field))
