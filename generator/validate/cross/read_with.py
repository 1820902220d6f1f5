"""Instruments that cannot have read what is said to be read with them."""

from collections.abc import Iterator
from typing import Any

from generator.model.club import Instrument
from generator.model.shipped import Recipe
from generator.model.written import Written
from generator.problems import Problem
from generator.validate.draft import ClubDraft, Draft
from generator.validate.measure import CONTACTS, figure_of

FACES = {"outside": "outside jaws", "inside": "inside jaws", "depth": "a depth rod"}


def instrument_of(draft: Draft[Any], club: ClubDraft) -> Instrument | None:
    """What the record says it was measured with, if the club has it."""
    named = (club.club.instruments or {}) if club.club is not None else {}
    return named.get(getattr(draft.record, "measured_with", None) or "")


def readings_no_such_instrument_gives(club: ClubDraft) -> Iterator[Problem]:
    """A reading whose plus-minus is not written takes that of its instrument, which must have one."""
    recipes = club.shelf.recipe_by_field
    for kind, drafts in club.kinds.items():
        for draft in drafts.values():
            instrument = instrument_of(draft, club)
            if instrument is not None:
                for field in type(draft.record).model_fields:
                    recipe = recipes.get(f"{kind}.{field}")
                    if recipe is not None and _was_read(getattr(draft.record, field)):
                        yield from _not_with_this(draft, field, recipe, instrument, club)


def _was_read(written: object) -> bool:
    return (
        isinstance(written, Written)
        and not written.is_unknown
        and written.form == "read"
        and written.plus_minus is None
        and written.evidence in (None, "measured")
    )


def _not_with_this(
    draft: Draft[Any], field: str, recipe: Recipe, instrument: Instrument, club: ClubDraft
) -> Iterator[Problem]:
    # a kind that is not known is told of by itself
    known = instrument.kind == "own" or instrument.kind in club.shelf.instruments
    if (
        not known
        or recipe.contact == "gauge"
        or figure_of(instrument, recipe.contact, club.shelf) is not None
    ):
        return
    title = draft.record.measured_with
    faces = FACES[recipe.contact]
    fix = "write its plus-minus beside it, such as 14.92 ± 0.05 mm, or the instrument that has " + faces
    if any(figure_of(instrument, contact, club.shelf) is not None for contact in CONTACTS):
        message = f"{field} wants {faces}, which {title} has not, so that the coarsest caliper is assumed"
        yield draft.problem("C490", message, field, fix=fix, level="warning")
    else:
        yield draft.problem(
            "C489", f"{title} carries no plus-minus for {faces}, which {field} wants", field, fix=fix
        )
