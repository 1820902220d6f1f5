"""The size codes changed one value at a time, against the outside figures."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cache
from itertools import product
from types import ModuleType
from typing import Any

from generator.model.shipped import Size
from generator.model.written import Written
from tests.outside import test_industrial_sizes, test_motorcycle_sizes, test_naming, test_wear_lengths
from tests.outside.figures import sizes

MODULES: tuple[ModuleType, ...] = (
    test_motorcycle_sizes,
    test_industrial_sizes,
    test_naming,
    test_wear_lengths,
)


@dataclass(frozen=True)
class SizeMutant:
    """One change of one size code; no record is the change that drops the code."""

    code: str
    what: str
    field: str
    record: Size | None

    def __str__(self) -> str:
        return f"size {self.code}: {self.what}"

    @property
    def is_remembered(self) -> bool:
        written = getattr(sizes()[self.code], self.field, None)
        return isinstance(written, Written) and written.evidence == "from-memory"


def size_mutants() -> Iterator[SizeMutant]:
    for code, size in sorted(sizes().items()):
        yield SizeMutant(code, "code dropped", "", None)
        for field in type(size).model_fields:
            written = getattr(size, field)
            if isinstance(written, Written):
                yield from _value_mutants(code, size, field, written)
        if size.series == "heavy":
            yield _changed(code, size, "series", "standard", "series becomes standard")
        if size.base_code is not None:
            yield _changed(code, size, "base_code", None, "base code dropped")


def _value_mutants(code: str, size: Size, field: str, written: Written) -> Iterator[SizeMutant]:
    for step, what in ((1, "one nanometre more"), (-1, "one nanometre less")):
        moved = replace(written, readings=tuple(reading + Fraction(step) for reading in written.readings))
        yield _changed(code, size, field, moved, f"{field} {what}")
    if field != "pitch":
        yield _changed(code, size, field, None, f"{field} dropped")


def _changed(code: str, size: Size, field: str, value: object, what: str) -> SizeMutant:
    return SizeMutant(code, what, field, size.model_copy(update={field: value}))


@cache
def checks() -> list[tuple[Callable[..., None], dict[str, Any]]]:
    """Every outside check with every set of its parameters."""
    found = []
    for module in MODULES:
        for name, function in sorted(vars(module).items()):
            if name.startswith("test_"):
                found += [(function, parameters) for parameters in _parameters(function)]
    return found


def _parameters(function: Any) -> Iterator[dict[str, Any]]:
    marks = [mark.args for mark in getattr(function, "pytestmark", []) if mark.name == "parametrize"]
    names = [[name.strip() for name in (m[0].split(",") if isinstance(m[0], str) else m[0])] for m in marks]
    for values in product(*(m[1] for m in marks)):
        found: dict[str, Any] = {}
        for names_of_mark, value in zip(names, values, strict=True):
            found |= dict(zip(names_of_mark, value if len(names_of_mark) > 1 else (value,), strict=True))
        yield found


def fails() -> bool:
    """Does any outside check fail on the sizes as they are now?"""
    for function, parameters in checks():
        try:
            function(**parameters)
        except Exception:  # a check that breaks is a check that fails
            return True
    return False


def size_killed(mutant: SizeMutant) -> bool:
    """The checks read one shared table of sizes; it is changed for a moment."""
    shared, before = sizes(), sizes()[mutant.code]
    try:
        if mutant.record is None:
            del shared[mutant.code]
        else:
            shared[mutant.code] = mutant.record
        return fails()
    finally:
        shared[mutant.code] = before
