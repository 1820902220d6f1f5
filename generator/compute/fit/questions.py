"""What to find out where a rule asks for a word and not for a length: one question a category."""

from collections.abc import Mapping

from generator.compute.fit.categories import CHAIN_READINGS, LINK_READINGS
from generator.model.reading import Reading
from generator.rules.joined import Joined


def questions(parts: Joined) -> Mapping[str, Reading]:
    chain, clip, seals = parts.chain, parts.clip, parts.seal_set
    found = {
        "wear": Reading(chain.kind, chain.id, "elongation"),
        "joint": Reading(chain.kind, chain.id, "own_joint"),
        "seal": Reading(chain.kind, chain.id, "seal"),
        "thumb": _first_reading(parts),
        "condition": Reading("link", parts.link.id, "pin_step"),
    }
    if clip is not None:
        found["clip-history"] = Reading("clip", clip.id, "history")
    if seals is not None and chain.record.seal != "unknown":
        found["seal"] = Reading("seal", seals.id, "shape")
    return found


def _first_reading(parts: Joined) -> Reading:
    """The part that was never read, and what to read of it first."""
    chain, link = parts.chain, parts.link
    if not any(field in chain.dims for field in CHAIN_READINGS):
        return Reading(chain.kind, chain.id, CHAIN_READINGS[0])
    return Reading("link", link.id, LINK_READINGS[0])
