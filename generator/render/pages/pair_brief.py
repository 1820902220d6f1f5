"""The checks and the ways of one pair in lines of text, for clubs with too many pairs to give each its tables.

Goes in: a book and a fit.  Comes out: lines and sentences with the numbers of every check, and every way.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from generator.compute.fit.result import CheckFit, PairFit
from generator.compute.fit.ways import Way
from generator.compute.grouped import grouped
from generator.model.dataset import Dataset
from generator.model.shipped import RUNGS
from generator.render.base.lengths import ShownLength, shown_high, shown_length, shown_low
from generator.render.base.verdicts import range_in_words
from generator.render.pages.book import Book
from generator.render.pages.pair_tables import check_limits, check_remark
from generator.render.say.categories import Joint, joint_of
from generator.render.say.joint import clip_short, seals_short
from generator.render.say.said import Said, joined


@dataclass(frozen=True, slots=True)
class Line:
    """What comes to one verdict for one reason."""

    word: str
    says: Said


def check_lines(dataset: Dataset, fit: PairFit) -> tuple[Line, ...]:
    """Each check that is not proper for sure, worst first; the others together in one line a kind of length."""
    if fit.option is None:
        return ()
    joint = joint_of(dataset, fit.chain, fit.link, fit.option)
    checks = sorted(fit.option.checks, key=lambda check: (-check.worst, -check.best))
    strained = [check for check in checks if check.worst > 0]
    lines = [Line(range_in_words(c.best, c.worst), _in_full(joint, c)) for c in strained]
    sound = joined([_in_short(joint, check) for check in checks if check.worst == 0], "; ")
    return (*lines, Line(RUNGS[0], (*sound, "."))) if sound else tuple(lines)


def _in_full(joint: Joint, check: CheckFit) -> Said:
    """Name, clearance with both ends, limits, and what is not known; what decides is said in full elsewhere."""
    if check.id == joint.option.deciding:
        return joined((_in_short(joint, check), ("it decides, see Why.",)), ": ")
    rest = joined((_said(_unswitched(check_limits(check, joint))), _said(check_remark(joint, check))))
    return joined((joined((_in_short(joint, check), _ends(check)), ", "), rest), ". ")


def _said(text: str) -> Said:
    return (text,) if text else ()


def _in_short(joint: Joint, check: CheckFit) -> Said:
    title = joint.dataset.shelf.joint_rules[check.rule_id].title
    if check.clearance is None or check.unit != "mm":
        return (title,)
    return (f"{title} {_both(shown_length(round(check.clearance.nominal)))}",)


def _ends(check: CheckFit) -> Said:
    if check.clearance is None or check.unit != "mm":
        return ()
    low, high = shown_low(check.clearance.low), shown_high(check.clearance.high)
    return (_range(low, high),)


def _both(shown: ShownLength) -> str:
    """Both units at once: the switch would cost as many bytes again."""
    return f"{shown.mm} ({shown.inch})"


def _range(low: ShownLength, high: ShownLength) -> str:
    """Each unit once."""
    ends = (f"{low.mm.removesuffix(' mm')} to {high.mm}", f"{low.inch.removesuffix(' in')} to {high.inch}")
    return f"{ends[0]} ({ends[1]})"


def _unswitched(said: Said) -> str:
    """Sentences with both units where the switch would choose one."""
    written, at = "", 0
    while at < len(said):
        match said[at : at + 3]:
            case (ShownLength() as low, " to ", ShownLength() as high):
                written, at = written + _range(low, high), at + 3
            case (ShownLength() as length, *_):
                written, at = written + _both(length), at + 1
            case (str() as words, *_):
                written, at = written + words, at + 1
    return written


def way_lines(book: Book, fit: PairFit) -> tuple[Line, ...]:
    """Every way, best first, those of one verdict and one reason together."""
    ways = book.ways_of(fit)
    rules = book.dataset.shelf.joint_rules
    every = tuple(dict.fromkeys(_sealed(way) for way in ways))
    groups = grouped(ways, lambda way: (range_in_words(way.best, way.worst), rules[way.rule_id].title))
    return tuple(Line(word, (f"{title}: {_clips(group, every)}",)) for (word, title), group in groups.items())


def _sealed(way: Way) -> str:
    return seals_short(way).replace("packed with washers", "packed").replace("(", "").replace(")", "")


def _clips(ways: Iterable[Way], every: Sequence[str]) -> str:
    """`clip-a, clip-b (seals in)`; how it is sealed is left out where that makes no difference."""
    by_clip = {clip: tuple(map(_sealed, group)) for clip, group in grouped(ways, clip_short).items()}
    by_seals: dict[tuple[str, ...], list[str]] = {}
    for clip, seals in by_clip.items():
        by_seals.setdefault(seals, []).append(clip)
    return "; ".join(
        ", ".join(clips) + ("" if len(seals) == len(every) else f" ({', '.join(seals)})")
        for seals, clips in by_seals.items()
    )
