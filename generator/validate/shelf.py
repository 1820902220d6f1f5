"""The data that ship with the generator -> the shelf."""

from collections.abc import Mapping
from dataclasses import replace
from typing import TypeVar

from pydantic import BaseModel

from generator.model.care import Allowance, CareShelf, CareTask, Finding, Guide, NeededTool, Practice
from generator.model.dataset import Shelf, SizeCodeEntry
from generator.model.how_sure import HowSure
from generator.model.mending import (
    Failure,
    Kit,
    LeftOut,
    Mending,
    PlanReason,
    RepairStep,
    RepairWay,
    ShelfLife,
)
from generator.model.node import EMPTY, LoadedFolder, key_span
from generator.model.quantity import Quantity
from generator.model.shipped import (
    Caution,
    Felt,
    InstrumentKind,
    Recipe,
    Rule,
    Size,
    Source,
    Term,
    WearLimit,
)
from generator.model.written import Written
from generator.problems import Place, Problem
from generator.rules.vocabulary import checks_by_field
from generator.validate.measure import quantity_of
from generator.validate.shape import shape_file, shape_record

M = TypeVar("M", bound=BaseModel)
JOINT_RULES = "rules/joint.yaml"
GUIDES = "care/"


def build_shelf(folder: LoadedFolder) -> tuple[Shelf, list[Problem]]:
    """The shelf of whatever parsed, and every problem found."""
    problems: list[Problem] = []
    sizes = _all(folder, Size, _files(folder, "sizes/"), problems)
    rules = {name: _one(folder, Rule, name, problems) for name in _files(folder, "rules/")}
    shelf = Shelf(
        sizes={},
        sources=_sorted(_one(folder, Source, Source.file, problems)),
        instruments=_sorted(_one(folder, InstrumentKind, InstrumentKind.file, problems)),
        recipes=_sorted(_one(folder, Recipe, Recipe.file, problems)),
        joint_rules=rules.get(JOINT_RULES, {}),
        other_rules={_stem(name): table for name, table in rules.items() if name != JOINT_RULES},
        glossary=_sorted(_one(folder, Term, Term.file, problems)),
        cautions=_sorted(_one(folder, Caution, Caution.file, problems)),
        wear_limits=_sorted(_one(folder, WearLimit, WearLimit.file, problems)),
        allowances=_one(folder, Allowance, Allowance.file, problems),
        dry_fits=_one(folder, Felt, Felt.file, problems),
        how_sure=_how_sure(folder, problems),
        mending=_mending(folder, problems),
        care=_care(folder, problems),
    )
    entries = {
        code: SizeCodeEntry(code, size, size_dims(size, shelf)) for code, size in _sorted(sizes).items()
    }
    return replace(shelf, sizes=entries, recipes=_with_checks(shelf)), problems


def _with_checks(shelf: Shelf) -> dict[str, Recipe]:
    """A recipe names only the checks that its reading bears on by way of something else."""
    named = checks_by_field(shelf.joint_rules)
    recipes: dict[str, Recipe] = {}
    for id_, recipe in shelf.recipes.items():
        checks = (*(check for field in recipe.fields for check in named.get(field, ())), *recipe.decides)
        recipes[id_] = recipe.model_copy(update={"decides": tuple(dict.fromkeys(checks))})
    return recipes


def _care(folder: LoadedFolder, problems: list[Problem]) -> CareShelf:
    """Findings and tasks keep the order of their files, guides have an order of their own."""
    guides: dict[str, Guide] = {}
    for name in _files(folder, GUIDES):
        if folder.is_broken(name):
            continue
        shaped, faults = shape_record(folder.node(name), (), Guide)
        problems.extend(faults)
        if shaped is not None and shaped.whole:
            guides[name.removeprefix(GUIDES).removesuffix(".md")] = shaped.record
    return CareShelf(
        practices=_one(folder, Practice, Practice.file, problems),
        needs=_one(folder, NeededTool, NeededTool.file, problems),
        findings=_one(folder, Finding, Finding.file, problems),
        tasks=_one(folder, CareTask, CareTask.file, problems),
        guides=dict(sorted(guides.items(), key=lambda pair: pair[1].order)),
    )


def _mending(folder: LoadedFolder, problems: list[Problem]) -> Mending:
    """Failures, ways and steps keep the order of their files: it is the one people read them in."""
    return Mending(
        failures=_one(folder, Failure, Failure.file, problems),
        ways=_one(folder, RepairWay, RepairWay.file, problems),
        steps=_one(folder, RepairStep, RepairStep.file, problems),
        left_out=_one(folder, LeftOut, LeftOut.file, problems),
        kits=_one(folder, Kit, Kit.file, problems),
        reasons=_one(folder, PlanReason, PlanReason.file, problems),
        shelf_lives=_one(folder, ShelfLife, ShelfLife.file, problems),
    )


def _how_sure(folder: LoadedFolder, problems: list[Problem]) -> HowSure | None:
    """A file that is generated; a checkout may be without it."""
    if folder.node(HowSure.file) is EMPTY:
        return None
    shaped, faults = shape_record(folder.node(HowSure.file), (), HowSure)
    problems.extend(faults)
    return shaped.record if shaped is not None and shaped.whole else None


# pitch, roller and width between the inner plates tell sizes apart, and naming rules or size tables bear them out
BORNE_OUT = ("pitch", "roller_diameter", "inner_width")


def size_dims(size: Size, shelf: Shelf) -> dict[str, Quantity]:
    """The published dimensions of a size code; no recipe widens them, only their own plus-minus.

    What somebody remembers and nothing published bears out is not known: one such value was found wrong by more than
    its plus-minus."""
    dims = {}
    for name in type(size).model_fields:
        value = getattr(size, name)
        remembered = isinstance(value, Written) and value.evidence == "from-memory" and name not in BORNE_OUT
        if isinstance(value, Written) and not value.is_unknown and not remembered:
            dims[name] = quantity_of(value, None, None, shelf)
    return dims


def _files(folder: LoadedFolder, start: str) -> list[str]:
    return [name for name in sorted(folder.files) if name.startswith(start)]


def _stem(name: str) -> str:
    return name.rsplit("/", 1)[-1].removesuffix(".yaml")


def _sorted(records: Mapping[str, M]) -> dict[str, M]:
    return {key: records[key] for key in sorted(records)}


def _one(folder: LoadedFolder, model: type[M], name: str, problems: list[Problem]) -> dict[str, M]:
    """The records of one file, in its own order; sizes are stamped codes and reasons have codes, not ids."""
    shaped, faults = shape_file(folder.node(name), model, ids=model not in (Size, PlanReason))
    problems.extend(faults)
    return {key: one.record for key, one in shaped.items() if one.whole}


def _all(folder: LoadedFolder, model: type[M], names: list[str], problems: list[Problem]) -> dict[str, M]:
    """The records of several files of one kind; an id may stand in one of them only."""
    found: dict[str, M] = {}
    places: dict[str, Place] = {}
    for name in names:
        for key, record in _one(folder, model, name, problems).items():
            place = key_span(folder.node(name), (key,))
            if key in found:
                message = f"'{key}' is used a second time"
                problems.append(Problem("C491", message, place, (key,), related=(places[key],)))
            found[key], places[key] = record, place
    return found
