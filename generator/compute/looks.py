"""The looks that a part, or a joint in use, has not had: closed questions whose answer can lower a verdict."""

from collections.abc import Callable, Collection, Iterator
from dataclasses import dataclass
from typing import Any

from generator.compute.fit.result import CheckFit, PairFit
from generator.compute.fit.wear_state import wear_limit_ppm
from generator.model.chain_parts import NO_PART
from generator.model.dataset import Dataset, Part
from generator.model.reading import Reading
from generator.rules.rooms import bikes_with

FELT = ("pin", "place", "seal", "clip")


@dataclass(frozen=True, slots=True)
class Look:
    """A field that a look fills in, the checks it can settle (by id or rule id; a group in angle brackets), and of
    which parts it is asked."""

    field: str
    settles: tuple[str, ...] = ()
    asked: Callable[[Any], bool] = lambda _: True

    def reaches(self, check: CheckFit) -> bool:
        return bool({check.id, check.rule_id, f"<{check.group}>"} & set(self.settles))


def _clip(link: Part[Any]) -> bool:
    return bool(link.record.closure == "clip")


def _rivet(link: Part[Any]) -> bool:
    return bool(link.record.closure == "rivet")


def _seals(link: Part[Any]) -> bool:
    return bool(link.record.made_for != "plain")


def _in_use(chain: Part[Any]) -> bool:
    return bool(chain.record.in_use)


def _sealed_in_use(chain: Part[Any]) -> bool:
    return bool(chain.record.in_use) and chain.record.kind == "sealed"


def _wear_unknown(chain: Part[Any]) -> bool:
    return "elongation" not in chain.dims


def tape_of(dataset: Dataset) -> str | None:
    """Wear is read over many pitches: with a tape or a rule, if the club has one."""
    long = (id_ for id_, each in dataset.club.instruments.items() if each.kind in ("tape", "steel-rule"))
    return next(long, None)


def _read_all_the_same(dataset: Dataset, chain: Part[Any]) -> bool:
    """Where even the best answer of a pull-off leaves a chain perhaps worn, a club with a tape reads it at once."""
    best = dataset.shelf.allowances["pull-off-under-half"].to_ppm
    return tape_of(dataset) is not None and wear_limit_ppm(dataset, chain) < best


def _used_and_new_unread(clip: Part[Any]) -> bool:
    return clip.record.history in ("never-off", "off-once") and "thickness_new" not in clip.dims


_JOINT = tuple(f"<{group}>" for group in FELT)
_PACKET = ("<clip>", "<place>", "<pin>", "stick-out", "stick-out-unread")
# by kind of part, in the order in which an answer says most
JOINT_LOOKS = (
    Look("plates_level", _JOINT, _in_use),
    Look("plate_loose", _JOINT, _in_use),
    Look("clip_seated", _JOINT, _in_use),
    Look("bends_freely", _JOINT, _in_use),
    Look("seals_whole", _JOINT, _sealed_in_use),
    Look("rub_marks", ("rub-marks", *_JOINT), _in_use),
    Look("plates_no_higher", ("plate-height",), _in_use),
)
LINK_LOOKS = (
    Look("size_code"),
    Look("plate_fit"),
    Look("made_for"),
    Look("condition", ("link-condition", "plate-pressed-before")),
    Look("flared", ("flared-before",), _rivet),
    Look("half_link", ("half-link",)),
    Look("clip", ("<clip>",), _clip),
    Look("seals", ("<seal>",), _seals),
    Look("came_with", (*_PACKET, "plate-section", "plate-height", "<seal>")),
)
CHAIN_LOOKS = (
    Look("size_code"),
    Look("kind"),
    Look("state", ("chain-state",)),
    Look("seal", ("seal-kind", "looks-sealed")),
    # of a joint in use it is asked with the others
    Look("rub_marks", ("rub-marks",), lambda chain: not chain.record.in_use),
    Look("pull_off", ("chain-worn", "pin-entry"), _wear_unknown),
    Look("own_joint", ("joint-kind",)),
)
CLIP_LOOKS = (
    Look("history", ("clip-history",)),
    Look("made_bowed", ("clip-bow",)),
    Look("worn_step", ("clip-wear",), _used_and_new_unread),
)
SEAL_LOOKS = (Look("covers_bush", ("bush-ring",)), Look("shape", ("seal-kind",)))
BIKE_LOOKS = (Look("joint_in_manual", ("manual-joint",)),)
# fields of a chain or a link without which no verdict is given
JUDGED_BY = ("size_code", "kind", "seal", "state", "made_for", "plate_fit", "condition", "flared")
# fields that must be written, so that unknown there is no answer yet
REQUIRED = ("size_code", "kind", "made_for", "plate_fit", "shape", "history")


def looks_open(
    dataset: Dataset, fit: PairFit, checks: Collection[CheckFit]
) -> Iterator[tuple[Reading, Look]]:
    """What nobody has looked at and what leaves the verdict open; where there is none, everything that stands in the
    way of one."""
    for looks, part in _parts(dataset, fit):
        for look in looks:
            wanted = fit.refused is not None or any(look.reaches(check) for check in checks)
            needless = look.field == "pull_off" and _read_all_the_same(dataset, part)
            if wanted and look.asked(part) and not needless and _unanswered(part, look.field):
                yield Reading(part.kind, part.id, look.field), look


def _parts(dataset: Dataset, fit: PairFit) -> Iterator[tuple[tuple[Look, ...], Part[Any]]]:
    chain, link, option = dataset.chains[fit.chain], dataset.links[fit.link], fit.option
    if chain.record.own_link == link.id:
        yield JOINT_LOOKS, chain
    yield LINK_LOOKS, link
    clip = dataset.clips.get((option.clip if option else link.record.clip) or "")
    if clip is not None:
        yield CLIP_LOOKS, clip
    yield CHAIN_LOOKS, chain
    seals = dataset.seals.get((option.seal_set if option else link.record.seals) or "")
    if seals is not None:
        yield SEAL_LOOKS, seals
    for bike in bikes_with(dataset, chain.id):
        yield BIKE_LOOKS, bike


def _unanswered(part: Part[Any], field: str) -> bool:
    """`unknown` written down is an answer, save where the field must be written."""
    value = getattr(part.record, field)
    if value not in (None, NO_PART[1]):
        return False
    return field in REQUIRED or field not in part.record.model_fields_set
