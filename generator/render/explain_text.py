"""`handbook explain` on one screen: verdict, with what, why, with which tools, what to do next, if the clip is lost."""

from collections.abc import Iterator, Sequence
from textwrap import shorten, wrap
from typing import Any

from generator.compute.acts import Act
from generator.compute.fit.clip_lost import TABLE, makeshifts
from generator.compute.fit.result import OptionFit, PairFit, RunsNow
from generator.model.dataset import Dataset, Part
from generator.model.shipped import NO_GO, RUNGS
from generator.render.base.lengths import shown_length
from generator.render.base.verdicts import range_in_words
from generator.render.say.acts import act_line, act_questions, where_written
from generator.render.say.fitting import ease_back, flare_words, spacer_words
from generator.render.say.joint import between_plates, clip_short, only_to_its_clip
from generator.render.say.names import named
from generator.render.say.next_step import closer_with, next_step
from generator.render.say.panel import panel_says
from generator.render.say.reasons import Reason, reasons
from generator.render.say.rungs import BY
from generator.render.say.said import plain
from generator.render.say.tools import tools_for

WIDTH = 80
_HEAD = 12
MOST_ASKED = 10
MOST_REASONS = 6
MOST_LETTERS = 200


def explain_text(dataset: Dataset, fit: PairFit, act: Act | None, bike: str | None = None) -> str:
    """One screen of 80 columns, without colours."""
    return "\n".join(line.rstrip() for line in _lines(dataset, fit, act, bike)) + "\n"


def _lines(dataset: Dataset, fit: PairFit, act: Act | None, bike: str | None) -> Iterator[str]:
    yield from _said("link", _labelled(dataset.links[fit.link]))
    on = f", on bike {bike}" if bike else ""
    yield from _said("chain", f"{_labelled(dataset.chains[fit.chain])}{on}")
    yield from _said("verdict", verdict_line(fit, act))
    # how far an open verdict reaches stands beside it
    yield from _said("", panel_says(fit) if fit.best == fit.worst else "Do not count on it." if act else "")
    if fit.runs_now is not None:
        yield from _said("runs now", running_line(fit.runs_now))
    if fit.option is not None and fit.best != NO_GO:
        yield from _with_what(dataset, fit, fit.option)
    # why there is none stands beside the verdict, but for what contradicts what
    found = reasons(dataset, fit, bike)
    yield from _why(fit, found if fit.refused is None else found[1:])
    yield from _next(dataset, fit, act)
    yield from _lost(dataset, fit)
    yield from _said("", f"Calculated as of {dataset.as_of.isoformat()} from data {dataset.data_version}.")


def _why(fit: PairFit, found: Sequence[Reason]) -> Iterator[str]:
    """The chain of reasons of a good verdict; of a bad one what makes it so, and how much more there is."""
    good = fit.worst == fit.best == 0
    # what two dots of the drawing lack alike is said once
    once = {_short(each): each for each in reversed(found)}
    texts = [text for text in reversed(once) if good or once[text].verdict is not None][:MOST_REASONS]
    shown = texts or [_short(each) for each in found[:1]]
    for number, text in enumerate(shown):
        verdict = once[text].verdict
        lowered = f" [{verdict.label}]" if verdict is not None else ""
        yield from _said("" if number else "why", f"- {text}{lowered}", hang=2)
    if len(once) > len(shown):
        yield from _said("", f"  {len(once) - len(shown)} more: --all")


def _short(reason: Reason) -> str:
    return shorten(plain(reason.says), MOST_LETTERS, placeholder=" ...")


def verdict_line(fit: PairFit, act: Act | None) -> str:
    """The word, and how it is known."""
    if fit.best is None or fit.worst is None:
        return "cannot judge"
    if fit.best != fit.worst:
        worst = RUNGS[fit.worst]
        between = f"{range_in_words(fit.best, fit.worst)} by what is known"
        return f"not tested: could be {worst} ({between})" if act else f"counts as {worst} ({between})"
    if fit.worst == 0:
        return f"proper {BY[fit.strength]}, not tried yet" if fit.strength in BY else "proper, dry-fitted"
    return RUNGS[fit.worst]


def running_line(now: RunsNow) -> str:
    """The joint that is closed; the verdict above is for opening it and closing it again."""
    seen = f", looked at on {now.looked_on.isoformat()}" if now.looked_on else ""
    missing = f"; nobody has looked: {', '.join(now.not_looked)}" if now.not_looked else ""
    return f"{range_in_words(now.best, now.worst)} while it stays closed{seen}{missing}"


def _with_what(dataset: Dataset, fit: PairFit, option: OptionFit) -> Iterator[str]:
    clip = dataset.clips.get(option.clip or "")
    closing = f"{named(clip)} ({clip.id})" if clip and clip.record.name else clip_short(option)
    yield from _said("with", "; ".join((closing, between_plates(dataset, option), *only_to_its_clip(option))))
    width, beside = fit.press_to, fit.beside
    if width is not None:
        level = f", the neighbours are {shown_length(beside.nominal).mm}" if beside is not None else ""
        yield from _said("press to", f"{shown_length(width.nominal).mm} over both plates{level}")
    yield from _said("too far", ease_back(dataset, fit).partition(": ")[2])
    if option.spacer:
        yield from _said("spacer", spacer_words(option.spacer))
    if option.closure == "rivet" and dataset.links[fit.link].record.pin_kind != "solid":
        yield from _said("flare", f"{flare_words(fit)}; a crack means a new link")
    yield from _said("tools", "; ".join(tools_for(dataset, fit)))


def _labelled(part: Part[Any]) -> str:
    """`tin-3-red: Red bag in tin 3`; of what has no name its label alone."""
    return f"{part.id}: {named(part)}" if part.record.name else part.id


def _next(dataset: Dataset, fit: PairFit, act: Act | None) -> Iterator[str]:
    if act is None:
        yield from _said("do next", _left_to_do(dataset, fit))
        return
    yield from _said("do next", act_line(dataset, act))
    for question in act_questions(dataset, act)[:MOST_ASKED]:
        yield from _said("", f"- {question}", hang=2)
    where = where_written(dataset, act)
    yield from _said("", f"Write it down: {where}." if where else "")


def _left_to_do(dataset: Dataset, fit: PairFit) -> str:
    """Where nothing of the club helps: what would, or who has to look."""
    if fit.refused is not None:
        return plain(next_step(dataset, fit))
    if fit.best == fit.worst:
        return ""
    return f"Nothing the club can do tells it closer. {closer_with(dataset, fit)}".rstrip()


def _lost(dataset: Dataset, fit: PairFit) -> Iterator[str]:
    """The best that is left when the clip is gone, or that nothing is."""
    if fit.option is None or fit.option.closure != "clip" or fit.worst == NO_GO == fit.best:
        return
    rules = dataset.shelf.other_rules[TABLE]
    found = [each for each in makeshifts(dataset, fit) if each.worst < NO_GO]
    ordered = sorted(found, key=lambda each: (each.worst, each.best))
    shown = [f"{rules[each.rule_id].title}: {range_in_words(each.best, each.worst)}" for each in ordered[:2]]
    told = "; ".join(shown) or "another clip that fits, or push: no makeshift without a look"
    yield from _said("clip lost", told)


def _said(head: str, text: str, hang: int = 0) -> Iterator[str]:
    """Ids and numbers stay whole."""
    indent = " " * (_HEAD + hang)
    first = f"{head:{_HEAD}}"
    yield from wrap(
        text,
        WIDTH,
        initial_indent=first,
        subsequent_indent=indent,
        break_on_hyphens=False,
        break_long_words=False,
    )
