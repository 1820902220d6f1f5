"""What cannot be true of a clip, a seal set, a spare strip or a tool by itself."""

from collections.abc import Iterator

from generator.model.chain_parts import Clip, SealSet, Strip
from generator.model.quantity import NM_PER_MM
from generator.model.tools_and_bikes import Tool
from generator.problems import Problem
from generator.validate.cross.compare import in_mm, must_fit
from generator.validate.draft import Draft

# no clip that ever held a motorcycle chain was thinner or thicker when new; common practice, no source
THINNEST_NEW, THICKEST_NEW = NM_PER_MM * 6 // 10, NM_PER_MM * 18 // 10
DRIVEN_TOOLS = ("press", "breaker", "riveter")


def clip_new_out_of_reason(clip: Draft[Clip]) -> Iterator[Problem]:
    """A new clip is 0.6 to 1.8 mm thick."""
    new = clip.dims.get("thickness_new")
    if new is not None and (new.high < THINNEST_NEW or new.low > THICKEST_NEW):
        message = f"a new clip {in_mm(new.nominal)} thick: none is under 0.6 or over 1.8 mm"
        told = "thickness_new" if clip.record.thickness_new is not None else "worn_step"
        yield clip.problem("C441", message, told)


def clip_grew(clip: Draft[Clip]) -> Iterator[Problem]:
    """A clip only ever gets thinner."""
    words = "the clip is {} thick now and was {} when new"
    yield from must_fit(clip, "C442", "thickness", "thickness_new", words)


def mouth_wider_than_seat(clip: Draft[Clip]) -> Iterator[Problem]:
    """The tips close in front of the seat, or the clip would not stay on; a bent clip has lost that."""
    if clip.record.history == "bent":
        return
    words = "the mouth is {} wide, the seat behind it only {}"
    yield from must_fit(clip, "C443", "mouth", "seat_width", words)


def seal_inside_out(seal: Draft[SealSet]) -> Iterator[Problem]:
    """A ring is wider outside than inside."""
    words = "inner diameter {}, outer diameter {}"
    yield from must_fit(seal, "C451", "inner_diameter", "outer_diameter", words)


def even_strip(strip: Draft[Strip]) -> Iterator[Problem]:
    """Inner links at both ends make the count odd."""
    pitches = strip.record.pitches
    if pitches is not None and pitches % 2 == 0:
        message = f"{pitches} pitches with inner links at both ends"
        yield strip.problem("C461", message, "pitches", fix=f"count again: {pitches - 1} or {pitches + 1}")


def plain_strip_with_seals(strip: Draft[Strip]) -> Iterator[Problem]:
    """A plain strip has no seals, a sealed one has."""
    kind, seal = strip.record.kind, strip.record.seal
    if (kind == "plain" and seal not in ("none", "unknown")) or (kind == "sealed" and seal == "none"):
        yield strip.problem(
            "C462", f"a {kind} strip with seal: {seal}", "seal", related=(strip.place("kind"),)
        )


def tool_without_key(tool: Draft[Tool]) -> Iterator[Problem]:
    """A tool turned by a key is no use without it, and the key is what gets forgotten."""
    if tool.whole and tool.record.does in DRIVEN_TOOLS and tool.record.key is None:
        fix = "write key: with the id of its key"
        yield tool.problem(
            "C465", f"a {tool.record.does} without the key that turns it", "does", fix=fix, level="warning"
        )


def key_with_key(tool: Draft[Tool]) -> Iterator[Problem]:
    """A key needs no key."""
    if tool.record.does == "key" and tool.record.key is not None:
        yield tool.problem("C466", "a key that needs a key", "key", related=(tool.place("does"),))


CLIP_RULES = (clip_new_out_of_reason, clip_grew, mouth_wider_than_seat)
SEAL_RULES = (seal_inside_out,)
STRIP_COUNT_RULES = (even_strip, plain_strip_with_seals)
TOOL_RULES = (tool_without_key, key_with_key)
