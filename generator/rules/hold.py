"""Where a clip bears: fixed plate to the near face of the clip pulled outward, and how that is known."""

from dataclasses import dataclass

from generator.model.chain_parts import Clip, Link
from generator.model.dataset import Dataset, Part
from generator.model.quantity import Quantity
from generator.rules.joined import Behind, Joined, of_part


@dataclass(frozen=True, slots=True)
class HoldWay:
    """One way to know it: its interval, and the readings it rests on."""

    total: Quantity
    rests_on: tuple[Behind, ...]


def hold_of(dataset: Dataset, link: Part[Link], clip: Part[Clip] | None) -> Quantity | None:
    """Reach + groove - clip, or the clip stop read with a named clip, shifted by the difference of thicknesses; both
    where both are known."""
    known = [way.total for way in hold_ways(dataset, link, clip)]
    if len(known) < 2:
        return known[0] if known else None
    return known[0].meet(known[1]) or known[0]


def hold_ways(dataset: Dataset, link: Part[Link], clip: Part[Clip] | None) -> list[HoldWay]:
    if clip is None:
        return []
    return [*_by_reach(link, clip), *_by_stop(dataset, link, clip)]


def _by_reach(link: Part[Link], clip: Part[Clip]) -> list[HoldWay]:
    parts = (of_part(link, "pin_reach"), of_part(link, "groove_width"), of_part(clip, "thickness"))
    reach, groove, thickness = (part.quantity for part in parts)
    if reach is None or groove is None or thickness is None:
        return []
    return [HoldWay(reach + groove - thickness, parts)]


def _by_stop(dataset: Dataset, link: Part[Link], clip: Part[Clip]) -> list[HoldWay]:
    stop = link.dims.get("clip_stop")
    read_with = link.record.clip_stop_with or link.record.clip
    if stop is None:
        return []
    if read_with == clip.id:
        return [HoldWay(stop, (of_part(link, "clip_stop"),))]
    named = dataset.clips.get(read_with or "")
    before = named.dims.get("thickness") if named is not None else None
    after = clip.dims.get("thickness")
    if named is None or before is None or after is None:
        return []
    rests = (of_part(link, "clip_stop"), of_part(named, "thickness"), of_part(clip, "thickness"))
    return [HoldWay(stop + before - after, rests)]


def behind_hold(joined: Joined) -> list[Behind]:
    ways = hold_ways(joined.dataset, joined.link, joined.clip)
    if ways:
        return list(min(ways, key=lambda way: way.total.high - way.total.low).rests_on)
    if joined.link.record.closure != "clip":
        # no groove and no clip: whether the plate slides at all is what can be looked at again
        return [of_part(joined.link, "plate_fit")]
    clip = of_part(joined.clip, "thickness") if joined.clip else of_part(joined.link, "clip")
    return [of_part(joined.link, "pin_reach"), of_part(joined.link, "groove_width"), clip]
