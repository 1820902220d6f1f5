"""Values no such part has: a zero, the wrong unit, a slip of the point, readings that scatter."""

from collections.abc import Iterator
from fractions import Fraction
from typing import Any

from generator.model.quantity import NM_PER_MM
from generator.model.shipped import Usual
from generator.model.written import Written
from generator.problems import Problem
from generator.validate.cross.compare import in_mm
from generator.validate.cross.read_with import instrument_of
from generator.validate.draft import ClubDraft, Draft
from generator.validate.measure import half_of_one

MOST_SCATTER = NM_PER_MM * 3 // 10
MM_PER_INCH = Fraction("25.4")


def value_problems(club: ClubDraft) -> Iterator[Problem]:
    """Every written length of every record."""
    recipes = club.shelf.recipe_by_field
    for kind, drafts in club.kinds.items():
        for draft in drafts.values():
            for field in type(draft.record).model_fields:
                written = getattr(draft.record, field)
                if (
                    isinstance(written, Written)
                    and written.unit in ("mm", "in")
                    and written.form != "compared"
                ):
                    recipe = recipes.get(f"{kind}.{field}")
                    yield from _one_value(draft, field, written, recipe.usual if recipe else None, club)


def _one_value(
    draft: Draft[Any], field: str, written: Written, usual: Usual | None, club: ClubDraft
) -> Iterator[Problem]:
    """The first fault of one value; later ones would only follow from it."""
    if usual is not None:
        for check in (_zero, _wrong_unit, _out_of_reason):
            found = check(draft, field, written, usual)
            if found is not None:
                yield found
                return
    yield from _scatter(draft, field, written, club)
    yield from _wider_than_itself(draft, field, written, usual)


def _zero(draft: Draft[Any], field: str, written: Written, usual: Usual) -> Problem | None:
    if usual.zero or 0 not in written.readings:
        return None
    fix = "measure it, or write unknown"
    return draft.problem("L106", f"a length of zero for {field}", field, fix=fix)


def _wrong_unit(draft: Draft[Any], field: str, written: Written, usual: Usual) -> Problem | None:
    """The number is sensible in the other unit and not in this one."""
    factor, other = (MM_PER_INCH, "in") if written.unit == "mm" else (1 / MM_PER_INCH, "mm")
    if any(_within(reading, usual) for reading in written.readings):
        return None
    if not all(_within(reading * factor, usual) for reading in written.readings):
        return None
    number = written.text.strip().removesuffix(str(written.unit)).strip()
    message = f"{written.text.strip()} reads like {'inches' if other == 'in' else 'millimetres'}: {_usual(usual)} is usual"
    place = draft.place(field)
    return Problem("C485", message, place, (draft.id, field), f"write {number} {other}", f"{number} {other}")


def _out_of_reason(draft: Draft[Any], field: str, written: Written, usual: Usual) -> Problem | None:
    if all(_within(reading, usual) for reading in written.readings):
        return None
    fix = "look for a slipped point, or measure again"
    message = f"{written.text.strip()} is unusual: {_usual(usual)} is usual"
    return draft.problem("C486", message, field, fix=fix, level="warning")


def _scatter(draft: Draft[Any], field: str, written: Written, club: ClubDraft) -> Iterator[Problem]:
    """Readings of one thing agree within what a careful hand scatters, or within the plus-minus of each."""
    spread = max(written.readings) - min(written.readings)
    if spread <= MOST_SCATTER or written.form == "goes":
        return
    if spread > 2 * half_of_one(written, f"{draft.kind}.{field}", instrument_of(draft, club), club.shelf):
        message = f"the readings lie {in_mm(int(spread))} apart"
        yield draft.problem("C487", message, field, fix="measure again, or keep the worn place apart")


def _wider_than_itself(
    draft: Draft[Any], field: str, written: Written, usual: Usual | None
) -> Iterator[Problem]:
    """A plus-minus as large as the value says nothing, unless the value may be zero."""
    half, allowed = written.plus_minus, usual is not None and usual.zero
    if half is not None and half >= min(written.readings) and not allowed:
        message = f"a plus-minus of {in_mm(int(half))} is as large as the value"
        yield draft.problem("C488", message, field)


def _within(length: Fraction, usual: Usual) -> bool:
    return usual.least.readings[0] <= length <= usual.most.readings[0] or (usual.zero and length == 0)


def _usual(usual: Usual) -> str:
    return f"{usual.least.text} to {usual.most.text}"
