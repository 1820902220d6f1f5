"""Where a clip bears: fixed plate to its near face pulled outward, and to the far edge of the groove."""

from dataclasses import dataclass

from generator.model.chain_parts import Clip, Link
from generator.model.dataset import Dataset, Part, Shelf
from generator.model.quantity import Quantity
from generator.rules.joined import Behind, Joined, of_part
from generator.rules.stack import counted_bow, stacked


@dataclass(frozen=True, slots=True)
class HoldWay:
    """One way to know a length: its interval, and the readings it rests on."""

    total: Quantity
    rests_on: tuple[Behind, ...]


def _met(ways: list[HoldWay]) -> Quantity | None:
    """What both ways allow, where there are two; the first where they contradict."""
    if len(ways) < 2:
        return ways[0].total if ways else None
    return ways[0].total.meet(ways[1].total) or ways[0].total


def _narrowest(ways: list[HoldWay]) -> list[Behind]:
    return list(min(ways, key=lambda way: way.total.high - way.total.low).rests_on)


def hold_of(dataset: Dataset, link: Part[Link], clip: Part[Clip] | None) -> Quantity | None:
    """Reach + groove - clip, or the clip stop read with a named clip, shifted by the difference of thicknesses; both
    where both are known."""
    return _met(hold_ways(dataset, link, clip))


def hold_ways(dataset: Dataset, link: Part[Link], clip: Part[Clip] | None) -> list[HoldWay]:
    if clip is None:
        return []
    return [*_by_reach(dataset.shelf, link, clip), *_by_stop(dataset, link, clip)]


def _by_reach(shelf: Shelf, link: Part[Link], clip: Part[Clip]) -> list[HoldWay]:
    reach, groove, thickness = link.dims.get("pin_reach"), link.dims.get("groove_width"), stacked(clip, shelf)
    if reach is None or groove is None or thickness is None:
        return []
    parts = (of_part(link, "pin_reach"), of_part(link, "groove_width"), of_part(clip, "thickness"))
    return [HoldWay(reach + groove - thickness, parts)]


def _by_stop(dataset: Dataset, link: Part[Link], clip: Part[Clip]) -> list[HoldWay]:
    """A bowed clip stands off by up to its bow where it is pulled outward."""
    read_with = stop_clip(dataset, link)
    stop = link.dims.get("clip_stop")
    if stop is None:
        return []
    if (link.record.clip_stop_with or link.record.clip) == clip.id:
        return [HoldWay(_less_bow(stop, clip, dataset.shelf), (of_part(link, "clip_stop"),))]
    before, after = (
        stacked(read_with, dataset.shelf) if read_with is not None else None,
        stacked(clip, dataset.shelf),
    )
    if read_with is None or before is None or after is None:
        return []
    rests = (of_part(link, "clip_stop"), of_part(read_with, "thickness"), of_part(clip, "thickness"))
    return [HoldWay(_less_bow(stop, read_with, dataset.shelf) + before - after, rests)]


def _less_bow(stop: Quantity, clip: Part[Clip], shelf: Shelf) -> Quantity:
    return Quantity(
        stop.low, stop.nominal, stop.high + counted_bow(clip, shelf).high, stop.evidence, stop.source
    )


def stop_clip(dataset: Dataset, link: Part[Link]) -> Part[Clip] | None:
    """The clip that the clip stop was read with."""
    return dataset.clips.get(link.record.clip_stop_with or link.record.clip or "")


def edge_of(dataset: Dataset, link: Part[Link]) -> Quantity | None:
    """Fixed plate to the far edge of the groove: reach + groove, or clip stop + bow + clip."""
    return _met(edge_ways(dataset, link))


def edge_ways(dataset: Dataset, link: Part[Link]) -> list[HoldWay]:
    ways = []
    reach, groove, stop = (link.dims.get(name) for name in ("pin_reach", "groove_width", "clip_stop"))
    if reach is not None and groove is not None:
        ways.append(HoldWay(reach + groove, (of_part(link, "pin_reach"), of_part(link, "groove_width"))))
    clip = stop_clip(dataset, link)
    thickness = stacked(clip, dataset.shelf) if clip is not None else None
    if stop is not None and clip is not None and thickness is not None:
        rests = (of_part(link, "clip_stop"), of_part(clip, "thickness"))
        ways.append(HoldWay(_less_bow(stop, clip, dataset.shelf) + thickness, rests))
    return ways


def behind_edge(joined: Joined) -> list[Behind]:
    ways = edge_ways(joined.dataset, joined.link)
    return (
        _narrowest(ways) if ways else [of_part(joined.link, name) for name in ("pin_reach", "groove_width")]
    )


def behind_hold(joined: Joined) -> list[Behind]:
    ways = hold_ways(joined.dataset, joined.link, joined.clip)
    if ways:
        return _narrowest(ways)
    if joined.link.record.closure != "clip":
        # no groove and no clip: whether the plate slides at all is what can be looked at again
        return [of_part(joined.link, "plate_fit")]
    clip = of_part(joined.clip, "thickness") if joined.clip else of_part(joined.link, "clip")
    return [of_part(joined.link, "pin_reach"), of_part(joined.link, "groove_width"), clip]
