"""One repair as pages show it: verdict, parts and tools with their places, numbered steps with their cautions."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from markupsafe import Markup

from generator.compute.repair.counting import PITCHES_OUT
from generator.compute.repair.planner import all_parts
from generator.compute.repair.result import Job, Repair
from generator.model.dataset import Dataset
from generator.model.mending import RepairStep
from generator.render.base.components import Need, NeedKind
from generator.render.base.routes import part_route
from generator.render.base.verdicts import ShownVerdict
from generator.render.drawings.clip_direction import clip_direction_drawing
from generator.render.drawings.links_in_row import filled_drawing, gap_drawing
from generator.render.say.cautions import ShortCaution, signal_word
from generator.render.say.names import named, parts_of
from generator.render.say.repair import JOBS, repair_verdict
from generator.render.say.rungs import MEANINGS
from generator.render.say.said import capital

TOOL_SIGNS: dict[str, NeedKind] = {
    "open": "breaker",
    "press": "press",
    "close": "riveter",
    "pliers": "pliers",
    "file": "file",
}
# what takes the place of a step where the joint is another
IN_PLACE = {
    ("plate-on", "slip"): "plate-by-hand",
    ("clip-on", "rivet"): "rivet-over",
    ("clip-on", "screw"): "nuts-on",
}
CLOSING = ("seals-on", "plate-on", "clip-on")


@dataclass(frozen=True, slots=True)
class ShownStep:
    """`cautions` stand before it; `tool` names what it takes."""

    do: str
    sign: str
    cautions: tuple[ShortCaution, ...] = ()
    tool: str = ""
    picture: Markup | str = ""


@dataclass(frozen=True, slots=True)
class ShownRepair:
    """Everything one needs in the hand."""

    title: str
    says: str
    verdict: ShownVerdict
    far: str
    needs: tuple[Need, ...]
    steps: tuple[ShownStep, ...]
    off_road: bool


def shown_repair(dataset: Dataset, failure: str, repair: Repair) -> ShownRepair:
    way = dataset.shelf.mending.ways[repair.way]
    verdict = repair_verdict(repair.range)
    return ShownRepair(
        way.title,
        way.says,
        verdict,
        MEANINGS[verdict.word],
        tuple(needs_of_repair(dataset, repair)),
        tuple(steps_of(dataset, failure, repair)),
        not way.road,
    )


def needs_of_repair(dataset: Dataset, repair: Repair) -> Iterator[Need]:
    """Parts first, then tools with their keys."""
    for part in all_parts(repair):
        record = parts_of(dataset, part.kind)[part.id]
        kept = getattr(record.record, "kept_in", None) or ""
        name = f"{part.count} × {named(record)}" if part.count > 1 else named(record)
        yield Need("part", name, detail=part.id, place=kept, to=part_route(part.kind, part.id))
    for job in repair.jobs:
        yield _tool(dataset, job)


def _tool(dataset: Dataset, job: Job) -> Need:
    """The best that is there; its key, and where both are."""
    tool = dataset.tools[job.able[0][0]]
    key = dataset.tools.get(tool.record.key or "")
    return Need(
        TOOL_SIGNS.get(job.does, "part"),
        named(tool),
        detail=f"with {key.label}" if key is not None else tool.id,
        place=tool.record.kept_in or "",
        to=part_route("tool", tool.id),
    )


def steps_of(dataset: Dataset, failure: str, repair: Repair) -> Iterator[ShownStep]:
    """The steps of the way, as its links close; a caution once, before the first step it guards."""
    mending, told = dataset.shelf.mending, set[str]()
    for id_ in mending.failures[failure].cautions:
        told.add(id_)
    first = tuple(_cautions(dataset, mending.failures[failure].cautions))
    for number, id_ in enumerate(_step_ids(dataset, repair)):
        step = mending.steps[id_]
        new = [each for each in step.cautions if each not in told]
        told.update(new)
        cautions = (*(first if number == 0 else ()), *_cautions(dataset, new))
        yield ShownStep(
            step.do,
            step.sign,
            cautions,
            _tool_of(dataset, step, repair),
            _picture(dataset, failure, step, repair),
        )


def _step_ids(dataset: Dataset, repair: Repair) -> Iterator[str]:
    """What closing asks for depends on the links; a plain chain has no seals, a light one no heads to file."""
    does = {job.does for job in repair.jobs}
    links = [dataset.links[bag.link].record for bag in repair.bags]
    closures = {link.closure for link in links}
    slips = bool(links) and all(link.plate_fit == "slip" for link in links)
    seals = any(bag.seals in ("fitted", "packed") for bag in repair.bags)
    for id_ in dataset.shelf.mending.ways[repair.way].steps:
        if id_ == "file-heads" and "file" not in does:
            continue
        if id_ == "seals-on" and links and not seals:
            continue
        if id_ == "cut-strip" and not _is_cut(dataset, repair):
            continue
        if id_ == "plate-on" and slips:
            yield IN_PLACE["plate-on", "slip"]
        elif id_ == "clip-on" and links:
            yield from dict.fromkeys(IN_PLACE.get(("clip-on", closure), id_) for closure in sorted(closures))
        else:
            yield id_


def _is_cut(dataset: Dataset, repair: Repair) -> bool:
    """Is less of the strip wanted than there is?"""
    strip = repair.strip
    return (
        strip is not None
        and len({job.on for job in repair.jobs if job.does == "open"}) > 0
        and dataset.strips[strip].record.pitches > 1
    )


def _cautions(dataset: Dataset, ids: Sequence[str]) -> Iterator[ShortCaution]:
    for id_ in ids:
        caution = dataset.shelf.cautions[id_]
        yield ShortCaution(signal_word(caution), f"{caution.title}.")


def _tool_of(dataset: Dataset, step: RepairStep, repair: Repair) -> str:
    job = next((job for job in repair.jobs if job.does == step.job and job.able), None)
    if job is None:
        return capital(JOBS[step.job]) if step.job in JOBS and step.job != "press" else ""
    tool = dataset.tools[job.able[0][0]]
    key = dataset.tools.get(tool.record.key or "")
    return f"{named(tool)}, {key.label}" if key is not None else named(tool)


def _picture(dataset: Dataset, failure: str, step: RepairStep, repair: Repair) -> Markup | str:
    damage = dataset.shelf.mending.failures[failure].damage
    gap = PITCHES_OUT.get(damage)
    if step.picture == "gap" and gap is not None:
        return gap_drawing(gap)
    if (
        step.picture in ("filled", "teeth")
        and gap is not None
        and (step.picture == "filled" or len(repair.bags) == 1)
    ):
        return filled_drawing(gap, repair.change) if gap + repair.change > 0 else ""
    if step.picture == "clip" and not repair.bags:
        return clip_direction_drawing(f"clip-{failure}")
    return ""
