"""Every clip on every clip link: does it enter, grip, snap and last?"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial

from generator.compute.fit.history import bow_word, clip_history
from generator.compute.fit.read_again import part_if
from generator.compute.fit.refused import size_refused
from generator.compute.fit.trials import Bound, Shifted, bounds
from generator.compute.grouped import some_at_a_time
from generator.compute.others.judge import judge_meetings
from generator.compute.others.meeting import Meeting, Value, first_reason, met, of_quantity, read
from generator.compute.others.result import PartFit
from generator.compute.others.size_codes import pitch_of
from generator.model.chain_parts import Clip, Link
from generator.model.dataset import Dataset, Part
from generator.model.pin_wear import link_condition
from generator.model.quantity import Quantity
from generator.model.reading import Reading
from generator.model.shipped import NO_GO
from generator.rules.kin import own_packet_new
from generator.rules.stack import behind_stacked, counted_bow, stacked
from generator.rules.symbols import ROWS, clip_dims
from generator.rules.table import rules_of

# those that are read off the clip itself; ks and bw are what follows from them
CLIP_FIELDS = {row.name: row.field for row in ROWS if row.parts == ("clip",) and row.field}
SPACING = "clip-link-spacing"
MET_AT_A_TIME = 4000


@dataclass(frozen=True, slots=True)
class _OfLink:
    """What every clip meets on one link."""

    link: Part[Link]
    refused: str | None
    condition: str
    values: Mapping[str, Value]


def clip_link_fits(dataset: Dataset) -> tuple[PartFit, ...]:
    """Some clips at a time, so that the numbers behind a large club's need not all be held at once."""
    links = [
        _OfLink(
            link,
            link_refused(dataset, link),
            link_condition(link, dataset.shelf),
            _values_of_link(dataset, link),
        )
        for link in dataset.links.values()
        if link.record.closure == "clip"
    ]
    proven = dict(_proven(dataset))
    groups = some_at_a_time(dataset.clips.values(), MET_AT_A_TIME, lambda _: len(links))
    return tuple(fit for group in groups for fit in _fits(dataset, group, links, proven))


def _fits(
    dataset: Dataset,
    clips: Sequence[Part[Clip]],
    links: Sequence[_OfLink],
    proven: Mapping[tuple[str, str], tuple[Bound, ...]],
) -> Iterator[PartFit]:
    meetings = [
        _meeting(dataset, clip, values, of_link, proven.get((clip.id, of_link.link.id), ()))
        for clip in clips
        for values in (_values_of_clip(dataset, clip),)
        for of_link in links
    ]
    rules = rules_of(dataset, "clip_link")
    # where the seats cannot line up with the pins nothing else is worth asking
    lined_up = [replace(meeting, stopped_by=(SPACING,)) for meeting in meetings]
    first = judge_meetings(lined_up, rules, "clip_link", dataset)
    worth = [m for m, fit in zip(meetings, first, strict=True) if fit.best is not None and fit.best < NO_GO]
    whole = {fit.parts: fit for fit in judge_meetings(worth, rules, "clip_link", dataset)}
    return (whole.get(fit.parts, fit) for fit in first)


def _meeting(
    dataset: Dataset,
    clip: Part[Clip],
    values: Mapping[str, Value],
    of_link: _OfLink,
    proven: tuple[Bound, ...],
) -> Meeting:
    link = of_link.link
    return Meeting(
        "clip-link",
        met(clip, link),
        refused=of_link.refused,
        values={**values, **of_link.values},
        values_if=partial(_values_if, dataset, clip, link),
        case={"closure": "clip"},
        words={
            "bow": bow_word(clip, dataset.shelf),
            "clip-history": clip_history(dataset, clip, link),
            "condition": of_link.condition,
        },
        asks={
            "clip-history": Reading("clip", clip.id, "history"),
            "condition": Reading("link", link.id, "pin_step"),
        },
        proven=proven,
        grounds=("packet",) if own_packet_new(dataset, link, clip.id) else (),
    )


def link_refused(dataset: Dataset, link: Part[Link]) -> str | None:
    """Why no verdict can be given on anything that goes with this link."""
    return size_refused(dataset, link.record.size_code, "link") or first_reason(
        (
            (link.record.condition == "unknown", "the condition of the link is not known"),
            (link.record.condition == "modified", "the link was modified"),
        )
    )


def _values_of_clip(dataset: Dataset, clip: Part[Clip]) -> Mapping[str, Value]:
    dims = clip_dims(clip)
    dims = {**dims, "bow": counted_bow(clip, dataset.shelf)}
    of_clip = {
        symbol: of_quantity("clip", clip.id, field, dims.get(field)) for symbol, field in CLIP_FIELDS.items()
    }
    of_clip["ks"] = Value(stacked(clip, dataset.shelf), behind_stacked(clip, dataset.shelf))
    return of_clip


def _values_of_link(dataset: Dataset, link: Part[Link]) -> Mapping[str, Value]:
    of_link = {"gw": read(link, "groove_width"), "gd": read(link, "groove_diameter")}
    return of_link | {"pl": pitch_of(dataset, link.record.size_code)}


def _values_if(
    dataset: Dataset, clip: Part[Clip], link: Part[Link], again: Mapping[Reading, Quantity]
) -> Mapping[str, Value]:
    """The same with readings taken again: how thick a clip bears hangs on two."""
    for reading, value in again.items():
        clip, link = part_if(clip, reading, value), part_if(link, reading, value)
    return {**_values_of_clip(dataset, clip), **_values_of_link(dataset, link)}


def _proven(dataset: Dataset) -> Iterator[tuple[tuple[str, str], tuple[Bound, ...]]]:
    """What dry fits, on whatever chain, showed of a clip on its link."""
    found: dict[tuple[str, str], tuple[Bound, ...]] = {}
    for trial in dataset.trials.values():
        link = dataset.links[trial.record.link]
        clip = trial.record.clip or link.record.clip
        fit = link.record.plate_fit
        if clip is not None and fit != "unknown":
            case = {"plate_fit": fit, "seat": "made", "closure": "clip"}
            new = clip in dataset.clips and dataset.clips[clip].record.history in ("new", "never-off")
            said = tuple(bounds(dataset.shelf.dry_fits, Shifted(trial), case, new))
            found[(clip, link.id)] = (*found.get((clip, link.id), ()), *said)
    yield from found.items()
