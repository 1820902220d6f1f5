"""How a joint is put together, in words: which clip, which seals, which closure."""

from collections.abc import Mapping
from typing import Protocol

from generator.model.dataset import Dataset
from generator.render.say.names import named
from generator.render.say.said import capital

SEALS_SHORT: Mapping[str, str] = {
    "fitted": "seals in",
    "left-out": "seals left out",
    "packed": "packed with washers",
    "none": "no seals",
}
CLOSURES: Mapping[str, str] = {
    "rivet": "pins riveted",
    "screw": "screwed up with its own plate",
}


RINGS: Mapping[str, str] = {"O": "O-rings", "X": "X-rings", "washer": "washers"}


class Joining(Protocol):
    """What options and ways have in common."""

    @property
    def closure(self) -> str: ...
    @property
    def clip(self) -> str | None: ...
    @property
    def seals(self) -> str: ...
    @property
    def seal_set(self) -> str | None: ...
    @property
    def seat(self) -> str: ...
    @property
    def spacer(self) -> str | None: ...


def goes_in(dataset: Dataset, joining: Joining | None) -> str:
    """`New blue clip, four O-rings`: for a row, without labels."""
    if joining is None:
        return ""
    clip = dataset.clips.get(joining.clip or "")
    closing = named(clip) if clip else capital(CLOSURES.get(joining.closure, "no clip written down"))
    return ", ".join((f"{closing}, {between_plates(dataset, joining)}", *set_otherwise(joining)))


def between_plates(dataset: Dataset, joining: Joining) -> str:
    """`four O-rings`, `seals left out`."""
    seal_set = dataset.seals.get(joining.seal_set or "")
    if joining.seals == "fitted":
        return f"four {RINGS.get(seal_set.record.shape if seal_set else '', 'seals')}"
    return SEALS_SHORT[joining.seals]


def link_kept(dataset: Dataset, link: str) -> str:
    """Where a link is kept, and that none is left."""
    record = dataset.links[link].record
    if record.count == 0:
        return "none left in the bag"
    return record.kept_in or ""


def clip_short(joining: Joining) -> str:
    """For a cell: the bag label, or what closes the joint instead."""
    if joining.closure != "clip":
        return CLOSURES[joining.closure]
    return joining.clip or "no clip written down"


def seals_short(joining: Joining) -> str:
    words = SEALS_SHORT[joining.seals]
    return f"{words} ({joining.seal_set})" if joining.seals == "packed" and joining.seal_set else words


def seals_and_seat(joining: Joining) -> str:
    """`seals in, a washer (thin-washers) on each pin under the clip`: all that tells two ways with one clip apart."""
    return ", ".join((seals_short(joining), *set_otherwise(joining)))


def set_otherwise(joining: Joining) -> tuple[str, ...]:
    """What is not as the link was made to be joined."""
    washers = (f"a washer ({joining.spacer}) on each pin under the clip",) if joining.spacer else ()
    return (*only_to_its_clip(joining), *washers)


def only_to_its_clip(joining: Joining) -> tuple[str, ...]:
    return ("plate pressed only as far as its clip",) if joining.seat == "clip" else ()
