"""One repair as pages show it: verdict, parts and tools with their places, numbered steps with their cautions."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from markupsafe import Markup

from generator.compute.repair.counting import PITCHES_OUT
from generator.compute.repair.planner import all_parts
from generator.compute.repair.result import Repair
from generator.model.dataset import Dataset
from generator.model.mending import RepairStep
from generator.render.drawings.links_in_row import filled_drawing, gap_drawing
from generator.render.say.cautions import ShortCaution, signal_word
from generator.render.say.names import parts_of, small_named
from generator.render.say.repair import JOBS
from generator.render.say.said import capital

# steps that only some joints ask for: the step, its words, and whether a repair asks for it
PLATES = {"press": "Pressed plate", "slip": "Plate that slides on"}
CLOSED = {
    "clip": ("clip-on", "Clip link"),
    "rivet": ("rivet-over", "Rivet link"),
    "screw": ("nuts-on", "Screw link"),
}


@dataclass(frozen=True, slots=True)
class ShownStep:
    """`cautions` stand before it; `only` says which joints it is for, `tool` what it takes."""

    do: str
    sign: str
    cautions: tuple[ShortCaution, ...] = ()
    only: str = ""
    tool: str = ""
    picture: Markup | str = ""


def steps_of(dataset: Dataset, failure: str, repairs: Sequence[Repair]) -> Iterator[ShownStep]:
    """The steps of one way, as the links of all these repairs close; a caution once, before the first step it guards."""
    mending, told = dataset.shelf.mending, set(dataset.shelf.mending.failures[failure].cautions)
    first = tuple(_cautions(dataset, mending.failures[failure].cautions))
    for number, (id_, only) in enumerate(_step_ids(dataset, repairs)):
        step = mending.steps[id_]
        new = [each for each in step.cautions if each not in told]
        told.update(new)
        cautions = (*(first if number == 0 else ()), *_cautions(dataset, new))
        yield ShownStep(
            step.do, step.sign, cautions, only, _tool_of(step), _picture(dataset, failure, id_, repairs)
        )


def _step_ids(dataset: Dataset, repairs: Sequence[Repair]) -> Iterator[tuple[str, str]]:
    """With the joints it is for, where they differ."""
    links = [dataset.links[bag.link].record for repair in repairs for bag in repair.bags]
    plates = {"slip" if link.plate_fit == "slip" else "press" for link in links}
    closures = sorted({link.closure for link in links})
    for id_ in dataset.shelf.mending.ways[repairs[0].way].steps:
        if id_ == "plate-on" and links:
            yield from _each_plate(plates)
        elif id_ == "clip-on" and links:
            for closure in closures:
                step, words = CLOSED[closure]
                yield step, words if len(closures) > 1 else ""
        elif _asked(dataset, id_, repairs):
            yield id_, ""


def _each_plate(plates: set[str]) -> Iterator[tuple[str, str]]:
    for word, step in (("press", "plate-on"), ("slip", "plate-by-hand")):
        if word in plates:
            yield step, PLATES[word] if len(plates) > 1 else ""


def _asked(dataset: Dataset, id_: str, repairs: Sequence[Repair]) -> bool:
    """Heads to file, seals to fit and a strip to cut, where any of the repairs has them."""
    if id_ == "file-heads":
        return any(job.does == "file" for repair in repairs for job in repair.jobs)
    if id_ == "seals-on":
        bags = [bag for repair in repairs for bag in repair.bags]
        return not bags or any(bag.seals in ("fitted", "packed") for bag in bags)
    if id_ == "cut-strip":
        return any(repair.strip and dataset.strips[repair.strip].record.pitches > 1 for repair in repairs)
    return True


def _cautions(dataset: Dataset, ids: Sequence[str]) -> Iterator[ShortCaution]:
    """In a line; in full at the foot of the page."""
    for id_ in ids:
        caution = dataset.shelf.cautions[id_]
        yield ShortCaution(signal_word(caution), f"{caution.title}.")


def _tool_of(step: RepairStep) -> str:
    return JOBS[step.job] if step.job is not None else ""


def _picture(dataset: Dataset, failure: str, id_: str, repairs: Sequence[Repair]) -> Markup | str:
    """Of the gap, of what fills it in the first repair, of the way round a clip goes."""
    wanted = dataset.shelf.mending.steps[id_].picture
    gap = PITCHES_OUT.get(dataset.shelf.mending.failures[failure].damage)
    change = repairs[0].change
    if wanted == "gap" and gap is not None:
        return gap_drawing(gap)
    single = len(repairs[0].bags) == 1
    if gap is not None and gap + change > 0 and (wanted == "filled" or (wanted == "teeth" and single)):
        return filled_drawing(gap, change)
    return ""


def hand_text(dataset: Dataset, repair: Repair) -> str:
    """Every part with its label and its place."""
    said = []
    for part in all_parts(repair):
        record = parts_of(dataset, part.kind)[part.id]
        kept = getattr(record.record, "kept_in", None)
        many = f"{part.count} × " if part.count > 1 else ""
        said.append(f"{many}{small_named(record)} ({part.id}{f', {kept}' if kept else ''})")
    return capital("; ".join(said))


def tools_text(dataset: Dataset, repair: Repair) -> str:
    """The best tool for each job, its key, its place."""
    said = []
    for id_ in dict.fromkeys(job.able[0][0] for job in repair.jobs):
        tool = dataset.tools[id_]
        key = dataset.tools.get(tool.record.key or "")
        where = f" ({tool.record.kept_in})" if tool.record.kept_in else ""
        said.append(f"{small_named(tool)}{f' with {key.label}' if key is not None else ''}{where}")
    return capital("; ".join(said))
