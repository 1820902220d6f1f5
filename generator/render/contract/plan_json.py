"""A plan as published in data/v1/plan.json and by `plan --json`."""

from collections.abc import Iterator, Mapping

from generator.compute.repair.result import Repair
from generator.compute.spares.result import GoalId, KitView, Load, NextItem, Plan, Served
from generator.model.dataset import Dataset
from generator.model.shipped import RUNGS
from generator.render.contract.envelope import Plain, document
from generator.render.say.repair import reason_text

# goal -> its name in the file, and how many of our units make one of its own
UNITS: Mapping[GoalId, tuple[str, int]] = {
    "worse-than-last-resort": ("worse-than-last-resort", 1),
    "last-resort": ("last-resort", 1),
    "get-home": ("get-home", 1),
    "lesser-joints": ("lesser-joints", 1),
    "mass_mg": ("mass_g", 1000),
    "cost_cent": ("cost", 100),
    "van_mass_mg": ("van_mass_g", 1000),
    "order": ("order", 1),
}


def plan_document(dataset: Dataset, plan: Plan) -> Plain:
    """Schema plan/1: bearers as they are told, demands by bike and failure."""
    bearers = {item: load.bearer.id for load in reversed(plan.loads) for item in _carried(load)}
    body = {
        "club": dataset.club.id,
        "ride": plan.ride,
        "bikes": list(plan.bikes),
        "depth": plan.depth,
        "status": "optimal" if plan.proof.rechecked else "not-proven",
        "proof": _proof(plan),
        "bearers": [_bearer(load) for load in plan.loads],
        "buy": [{"kind": kind, "id": id_, "count": count} for kind, id_, count in plan.buy],
        "demands": [_demand(dataset, each, bearers) for each in plan.demands],
        "unserved": [_unserved(dataset, each) for each in plan.demands if not each.served],
        "serves_nothing": [id_ for _, id_ in plan.serves_nothing],
        "dry_fit": [f"{chain}/{link}" for chain, link in plan.dry_fit],
        "next_item": [_next(each) for each in plan.next_items],
        "kit": _kit(plan.kit) if plan.kit is not None else None,
    }
    return document("plan/1", dataset, body)


def _carried(load: Load) -> Iterator[tuple[str, str]]:
    yield from ((item.kind, item.id) for item in load.items)


def _proof(plan: Plan) -> Plain:
    return {
        "solver": plan.proof.solver,
        "gap": 0,
        "rechecked": plan.proof.rechecked,
        "goals": [
            {"id": UNITS[goal][0], "value": _in_unit(goal, value), "bound": _in_unit(goal, bound)}
            for goal, value, bound in plan.proof.goals
        ],
    }


def _in_unit(goal: GoalId, value: int) -> float | int:
    by = UNITS[goal][1]
    return value // by if value % by == 0 else value / by


def _bearer(load: Load) -> Plain:
    items = [
        {"id": i.id, "kind": i.kind, "count": i.count, "mass_g": i.mass / 1000, "serves": i.serves}
        for i in load.items
    ]
    return {
        "id": load.bearer.id,
        "kind": load.bearer.kind,
        "mass_g": load.mass / 1000,
        "limit_g": load.bearer.limit / 1000,
        "items": items,
    }


def _demand(
    dataset: Dataset,
    each: Served,
    bearers: Mapping[tuple[str, str], str],
) -> Plain:
    return {
        "bike": each.bike,
        "failure": each.failure,
        "weight": each.weight,
        "served": each.served,
        "rung": each.rung,
        "word": RUNGS[each.rung],
        "way": each.repair.way if each.repair is not None else None,
        "items": [
            {"id": id_, "kind": kind, "count": count, "bearer": bearers[kind, id_]}
            for kind, id_, count in each.takes
        ],
        "pairs": _pairs(dataset, each.bike, each.repair),
        "pitches_change": each.repair.change if each.repair is not None else 0,
        "reason": reason_text(dataset, each.reason) if each.reason is not None else None,
    }


def _pairs(dataset: Dataset, bike: str, repair: Repair | None) -> list[str]:
    """The joints it makes, as in fits.json."""
    chain = dataset.bikes[bike].record.chain
    return list(dict.fromkeys(f"{chain}/{bag.link}" for bag in (repair.bags if repair is not None else ())))


def _unserved(dataset: Dataset, each: Served) -> Plain:
    lack = each.reason
    return {
        "bike": each.bike,
        "failure": each.failure,
        "code": lack.code if lack is not None else None,
        "reason": reason_text(dataset, lack) if lack is not None else None,
    }


def _next(each: NextItem) -> Plain:
    return {
        "id": each.id,
        "kind": each.kind,
        "new_pitches": each.pitches or None,
        "mass_g": each.mass / 1000,
        "would": "; ".join(
            f"{verb} {', '.join(f'{bike} {failure}' for bike, failure in found)}"
            for verb, found in (("mend", each.mends), ("mend better", each.betters))
            if found
        ),
    }


def _kit(kit: KitView) -> Plain:
    return {
        "mass_g": kit.mass / 1000,
        "worse": [
            {"bike": bike, "failure": failure, "with_kit": RUNGS[with_kit], "with_plan": RUNGS[with_plan]}
            for bike, failure, with_kit, with_plan in kit.worse
        ],
        "lacks": [{"kit": id_, "what": what} for id_, what in kit.lacks],
        "for_nothing": [id_ for _, id_ in kit.for_nothing],
    }
