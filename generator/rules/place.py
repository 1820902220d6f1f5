"""Where a pressed plate was put, as the last dry fit that pressed it saw it: how far outside its neighbours."""

from collections.abc import Iterator
from dataclasses import dataclass

from generator.model.chain_parts import Chain, Link
from generator.model.dataset import Dataset, Part, Shelf, TrialFacts
from generator.model.quantity import Quantity
from generator.model.reading import Reading
from generator.rules.joined import NO_END, ONE, Behind, Joined, of_part
from generator.rules.kin import by_make

SOMEWHERE = Quantity(-NO_END, 0, NO_END, "unknown")
GAPS = ("joint_gap_clip_side", "joint_gap_other_side", "neighbour_gap_clip_side", "neighbour_gap_other_side")
WIDTHS = ("width_at_joint", "width_at_neighbour")


@dataclass(frozen=True, slots=True)
class Placed:
    """`place` is the inside width at the joint less that of its neighbours."""

    place: Quantity
    behind: tuple[Behind, ...]


def pressings(dataset: Dataset, chain: str, link: str) -> Iterator[TrialFacts]:
    """The dry fits of this pair that pressed the plate home, newest first."""
    found = [
        trial
        for trial in dataset.trials.values()
        if (trial.record.chain, trial.record.link) == (chain, link) and trial.record.plate_on == "pressed"
    ]
    yield from sorted(found, key=lambda trial: (trial.record.on, trial.id), reverse=True)


def placed(joined: Joined) -> Placed | None:
    """None where it was not pressed, or nobody looked how far; only what was pressed on the same packing tells."""
    if joined.link.record.plate_fit != "press" or joined.seat != "neighbours":
        return None
    for trial in pressings(joined.dataset, joined.chain.id, joined.link.id):
        if trial.record.seals in (joined.seals, "unknown"):
            return seen_place(joined.chain, joined.link, trial, joined.dataset.shelf)
    return None


def seen_place(chain: Part[Chain], link: Part[Link], trial: TrialFacts, shelf: Shelf) -> Placed | None:
    found = [*_by_widths(chain, link, trial, shelf), *_by_gaps(trial), *_by_edge(trial, shelf)]
    if not found:
        return None
    both = found[0].place
    for other in found[1:]:
        both = both.meet(other.place) or both
    return Placed(both, tuple(each for one in found for each in one.behind))


def fixed_plate(link: Part[Link], shelf: Shelf) -> Quantity | None:
    """As read, else about as thick as the side plate."""
    own, side = link.dims.get("fixed_plate_thickness"), link.dims.get("side_plate_thickness")
    if own is not None or side is None:
        return own
    within = shelf.allowances["fixed-like-side"].nm
    return Quantity(max(side.low - within, 0), side.nominal, side.high + within, "common-practice")


def _more_plate(chain: Part[Chain], link: Part[Link], shelf: Shelf) -> tuple[Quantity | None, list[Behind]]:
    """Side and fixed plate less two outer plates of the chain."""
    side, fixed, outer = (
        link.dims.get("side_plate_thickness"),
        fixed_plate(link, shelf),
        chain.dims.get("plate_thickness"),
    )
    within = 2 * shelf.allowances["plates-alike"].nm
    alike = Quantity(-within, 0, within, "common-practice")
    behind = [of_part(link, "side_plate_thickness"), of_part(link, "fixed_plate_thickness"),
              of_part(chain, "plate_thickness", 2 * ONE)]  # fmt: skip
    read = None if side is None or fixed is None or outer is None else side + fixed - outer - outer
    if by_make(chain, link):
        return (alike if read is None else read.meet(alike) or read), behind
    return read, behind


def _by_widths(chain: Part[Chain], link: Part[Link], trial: TrialFacts, shelf: Shelf) -> Iterator[Placed]:
    joint, neighbour = (trial.dims.get(name) for name in WIDTHS)
    more, behind = _more_plate(chain, link, shelf)
    if joint is not None and neighbour is not None:
        own = [Behind(Reading("trial", trial.id, name), ONE, trial.dims[name]) for name in WIDTHS]
        # without the thickness of the plates the widths say that it was looked at, and not yet where it lies
        place = SOMEWHERE if more is None else joint - neighbour - more
        yield Placed(place, (*own, *behind))


def _by_gaps(trial: TrialFacts) -> Iterator[Placed]:
    gaps = [trial.dims.get(name) for name in GAPS]
    if None not in gaps:
        clip, other, of_clip, of_other = (gap for gap in gaps if gap is not None)
        behind = tuple(Behind(Reading("trial", trial.id, name), ONE, trial.dims[name]) for name in GAPS)
        yield Placed(clip + other - of_clip - of_other, behind)


def _by_edge(trial: TrialFacts, shelf: Shelf) -> Iterator[Placed]:
    if trial.record.plates_level is not None:
        inside, outside = (shelf.allowances[id_].nm for id_ in ("level", "level-outside"))
        level = Quantity(-inside, 0, outside, "common-practice")
        seen = level if trial.record.plates_level else SOMEWHERE
        yield Placed(seen, (Behind(Reading("trial", trial.id, "plates_level"), ONE, seen),))
