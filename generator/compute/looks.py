"""The looks that a part, or a joint in use, has not had: closed questions whose answer can lower a verdict."""

from collections.abc import Callable, Iterator, Mapping
from typing import Any

from generator.model.chain_parts import NO_PART, Chain, Clip, Link
from generator.model.dataset import Dataset, Part
from generator.model.reading import Reading

Asked = Callable[[Any, Dataset], bool]


def _always(_: Any, __: Dataset) -> bool:
    return True


def _rivets(link: Part[Link], _: Dataset) -> bool:
    return link.record.closure == "rivet"


def _closed_by_clip(link: Part[Link], _: Dataset) -> bool:
    return link.record.closure == "clip"


def _with_seals(link: Part[Link], _: Dataset) -> bool:
    return link.record.made_for != "plain"


def _no_wear_known(chain: Part[Chain], _: Dataset) -> bool:
    return "elongation" not in chain.dims


def _in_use(chain: Part[Chain], _: Dataset) -> bool:
    return bool(chain.record.in_use)


def _sealed(chain: Part[Chain], dataset: Dataset) -> bool:
    return _in_use(chain, dataset) and chain.record.kind == "sealed"


def _says_sealed(chain: Part[Chain], _: Dataset) -> bool:
    return chain.record.kind == "sealed"


def _lies_bowed(clip: Part[Clip], _: Dataset) -> bool:
    return clip.record.history in ("new", "never-off") and "bow" in clip.dims


# by kind of part: field, and when it is asked; in the order in which an answer says most
LOOKS: Mapping[str, tuple[tuple[str, Asked], ...]] = {
    "link": (
        ("size_code", _always),
        ("plate_fit", _always),
        ("made_for", _always),
        ("condition", _always),
        ("flared", _rivets),
        ("half_link", _always),
        ("pin_kind", _rivets),
        ("clip", _closed_by_clip),
        ("seals", _with_seals),
        ("came_with", _always),
    ),
    "chain": (
        ("size_code", _always),
        ("kind", _always),
        ("state", _always),
        ("pull_off", _no_wear_known),
        ("seal", _says_sealed),
        ("own_joint", _always),
    ),
    "joint": (
        ("plates_level", _in_use),
        ("plate_loose", _in_use),
        ("clip_seated", _in_use),
        ("bends_freely", _in_use),
        ("seals_whole", _sealed),
        ("rub_marks", _in_use),
        ("plates_no_higher", _in_use),
    ),
    "clip": (("history", _always), ("made_bowed", _lies_bowed)),
    "seal": (("covers_bush", _always), ("shape", _always)),
}


def looks_open(
    dataset: Dataset, chain: str, link: str, clip: str | None, seals: str | None
) -> tuple[Reading, ...]:
    """Everything a look at these parts would settle and nobody has written down."""
    of_chain, of_link = dataset.chains[chain], dataset.links[link]
    parts: list[tuple[str, Part[Any] | None]] = [
        ("joint", of_chain if of_chain.record.own_link == link else None),
        ("link", of_link),
        ("chain", of_chain),
        ("clip", dataset.clips.get(clip or "")),
        ("seal", dataset.seals.get(seals or "")),
    ]
    return tuple(
        reading for kind, part in parts if part is not None for reading in _open(kind, part, dataset)
    )


def _open(kind: str, part: Part[Any], dataset: Dataset) -> Iterator[Reading]:
    for field, asked in LOOKS[kind]:
        value = getattr(part.record, field)
        unknown = value in (None, NO_PART[1])
        if unknown and field not in part.record.model_fields_set and asked(part, dataset):
            yield Reading(part.kind, part.id, field)
        elif value == NO_PART[1] and field in (
            "size_code",
            "kind",
            "made_for",
            "plate_fit",
            "shape",
            "history",
        ):
            # required fields may say unknown until somebody has looked
            yield Reading(part.kind, part.id, field)
