"""The records of the club and of the shelf as published files, with their schemas."""

from collections.abc import Iterable, Mapping
from typing import Any

from pydantic import BaseModel

from generator.model.care import Allowance, CareTask, Finding, Practice
from generator.model.club import Club, RuleOverride
from generator.model.dataset import Dataset, Shelf
from generator.model.kinds import KINDS, PART_KINDS
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
from generator.model.trials_and_rides import Ride
from generator.model.wear_row import WearRow
from generator.render.contract.envelope import Plain, document
from generator.render.downloads.record_json import quantity_json, record_json
from generator.render.schema.records import list_schema, single_schema

PART_LISTS: Mapping[str, type[BaseModel]] = {
    KINDS[kind].stem: KINDS[kind].model for kind in (*PART_KINDS, "trial")
}
PLAIN_LISTS: Mapping[str, type[BaseModel]] = {"rides": Ride, "overrides": RuleOverride}
SHELF_LISTS: Mapping[str, type[BaseModel]] = {
    "sources": Source,
    "instruments": InstrumentKind,
    "recipes": Recipe,
    "glossary": Term,
    "cautions": Caution,
    "wear_limits": WearLimit,
    "allowances": Allowance,
    "dry_fits": Felt,
}
CARE_LISTS: Mapping[str, type[BaseModel]] = {"practices": Practice, "findings": Finding, "tasks": CareTask}
TABLE = {"table": {"type": "string", "description": "The rule table it stands in"}}


def record_documents(dataset: Dataset) -> dict[str, Plain]:
    """File name -> document; every list is sorted by id."""
    lists = {name: _parts(getattr(dataset, name).values()) for name in PART_LISTS}
    lists |= {name: _records(getattr(dataset, name)) for name in PLAIN_LISTS}
    lists |= {name: _records(getattr(dataset.shelf, name)) for name in SHELF_LISTS}
    lists |= {name: _records(getattr(dataset.shelf.care, name)) for name in CARE_LISTS}
    lists["sizes"] = [{"id": s.code} | record_json(s.record, s.dims) for s in dataset.shelf.sizes.values()]
    lists["fit_rules"] = _rules(dataset.shelf)
    lists["wear_log"] = _wear_log(dataset)
    files = {
        f"{name}.json": document(f"{name}/1", dataset, {"club": dataset.club.id, name: records})
        for name, records in lists.items()
    }
    return files | {"club.json": document("club/1", dataset, {"club": record_json(dataset.club, {})})}


def record_schemas() -> dict[str, Plain]:
    """File name -> schema of the file of that name."""
    models: dict[str, type[BaseModel]] = {
        **PART_LISTS,
        **PLAIN_LISTS,
        **SHELF_LISTS,
        **CARE_LISTS,
        "sizes": Size,
        "wear_log": WearRow,
    }
    schemas = {f"{name}.json": list_schema(name, model) for name, model in models.items()}
    schemas["fit_rules.json"] = list_schema("fit_rules", Rule, TABLE)
    return schemas | {"club.json": single_schema("club", Club)}


def _parts(parts: Iterable[Any]) -> list[Plain]:
    return [{"id": part.id} | record_json(part.record, part.dims) for part in parts]


def _records(records: Mapping[str, BaseModel]) -> list[Plain]:
    return [{"id": id_} | record_json(record, {}) for id_, record in sorted(records.items())]


def _rules(shelf: Shelf) -> list[Plain]:
    tables = {"joint": shelf.joint_rules, **shelf.other_rules}
    found = [
        {"id": id_, "table": name} | record_json(rule, {})
        for name, rules in tables.items()
        for id_, rule in rules.items()
    ]
    return sorted(found, key=lambda rule: (rule["table"], rule["id"]))


def _wear_log(dataset: Dataset) -> list[Plain]:
    """In the order of the file; the id is the line it stands in."""
    return [
        {
            "id": str(row.line),
            "chain": row.chain,
            "date": row.on.isoformat(),
            "hours": None if row.hours == "unknown" else float(row.hours),
            "pitches": row.pitches,
            "inside": _length(row.inside),
            "outside": _length(row.outside),
            "place": row.place,
            "new_chain": row.new_chain,
            "event": row.event,
        }
        for row in dataset.wear_log
    ]


def _length(quantity_: Quantity) -> Plain:
    return quantity_json("length", quantity_, quantity_.text)
