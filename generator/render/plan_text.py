"""A plan for a terminal: who carries what, what stays uncovered and why, what to do before the ride."""

from collections.abc import Iterator
from textwrap import wrap

from generator.compute.grouped import grouped
from generator.compute.spares.result import GOALS, Load, Plan
from generator.model.dataset import Dataset
from generator.model.shipped import RUNGS
from generator.render.contract.plan_json import UNITS
from generator.render.say.names import parts_of, small_named
from generator.render.say.repair import BEARERS, MOST_NEXT, grams, next_does, next_named, reason_for_all
from generator.render.say.repair import GOALS as GOAL_WORDS

WIDTH = 80


def plan_text(dataset: Dataset, plan: Plan) -> str:
    lines = [
        *_head(dataset, plan),
        *(line for load in plan.loads for line in _load(dataset, load)),
        *_coverage(plan),
        *_uncovered(dataset, plan),
        *_todo(dataset, plan),
        *_proof(plan),
    ]
    return "\n".join(lines) + "\n"


def _head(dataset: Dataset, plan: Plan) -> Iterator[str]:
    name = dataset.rides[plan.ride].name or plan.ride if plan.ride is not None else dataset.club.name
    pieces = sum(item.count for load in plan.loads for item in load.items)
    yield f"{name}: {len(plan.bikes)} bikes, {pieces} parts and tools, {grams(plan.mass)} on bikes"
    yield ""


def _load(dataset: Dataset, load: Load) -> Iterator[str]:
    """A row a part: count, label, name, how many failures it helps with."""
    if not load.items:
        return
    bike = f" {load.bearer.id}" if load.bearer.bike else ""
    yield f"{BEARERS[load.bearer.kind]}{bike}: {grams(load.mass)} of {grams(load.bearer.limit)}"
    for item in load.items:
        name = small_named(parts_of(dataset, item.kind)[item.id])
        yield f"  {item.count} x {item.id:<22} {name[:34]:<34} {grams(item.mass):>7}  for {item.serves}".rstrip()
    yield ""


def _coverage(plan: Plan) -> Iterator[str]:
    """A row a bike: how many failures end at each rung."""
    yield f"{'bike':<8}" + "".join(f"{word:>13}" for word in (*RUNGS[:3], "not mended"))
    for bike, found in grouped(plan.demands, lambda each: each.bike).items():
        counts = [sum(each.rung == rung for each in found) for rung in range(4)]
        yield f"{bike:<8}" + "".join(f"{count:>13}" for count in counts)
    yield ""


def _uncovered(dataset: Dataset, plan: Plan) -> Iterator[str]:
    """Failures alike together: which, on which bikes, why."""
    groups = grouped(
        (each for each in plan.demands if not each.served),
        lambda each: (each.failure, reason_for_all(dataset, each.reason)),
    )
    if groups:
        yield "Not mended with what is carried:"
    for (failure, reason), found in groups.items():
        yield from _folded(f"{failure} on {', '.join(each.bike for each in found)}: {reason}")
    if groups:
        yield ""


def _todo(dataset: Dataset, plan: Plan) -> Iterator[str]:
    for chain, link in plan.dry_fit:
        yield from _folded(f"dry-fit {link} on {chain}: until then it counts as get-home")
    for kind, id_, count in plan.buy:
        yield from _folded(f"buy {count} x {id_} ({small_named(parts_of(dataset, kind)[id_])})")
    for each in plan.next_items[:MOST_NEXT]:
        yield from _folded(f"next most useful: {next_named(dataset, each)} ({each.id}), {next_does(each)}")
    if plan.kit is not None and plan.kit.worse:
        bikes = len({bike for bike, *_ in plan.kit.worse})
        yield from _folded(
            f"the trade's usual kit would weigh {grams(plan.kit.mass)} and leave {len(plan.kit.worse)} failures "
            f"on {bikes} bikes worse"
        )
    yield ""


def _proof(plan: Plan) -> Iterator[str]:
    values = {goal: value for goal, value, _ in plan.proof.goals}
    said = [f"{GOAL_WORDS[goal]} {values[goal] / UNITS[goal][1]:g}" for goal in GOALS[:5]]
    word = "proven and checked again" if plan.proof.rechecked else "NOT proven"
    yield from _folded(f"{word} ({plan.proof.solver}): {', '.join(said)}")


def _folded(text: str) -> list[str]:
    return wrap(text, WIDTH, initial_indent="  ", subsequent_indent="    ", break_on_hyphens=False)
