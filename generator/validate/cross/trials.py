"""What a dry fit cannot have shown: answers that exclude each other, or that the readings exclude."""

from collections.abc import Iterator
from itertools import combinations

from generator.model.chain_parts import Clip, Link
from generator.model.dry_fit import open_answers
from generator.model.quantity import Quantity
from generator.model.trials_and_rides import Trial
from generator.problems import Problem
from generator.validate.cross.compare import in_mm, places
from generator.validate.draft import ClubDraft, Draft

ANSWERS = ("enters", "clip_on", "bends", "plate_moves")


def answers_exclude(trial: Draft[Trial]) -> Iterator[Problem]:
    """Where the pins do not enter, nothing later was tried."""
    if trial.record.enters is False:
        for field in ("clip_on", "bends"):
            if getattr(trial.record, field) is True:
                message = f"the pins did not enter, yet {field} says yes"
                yield trial.problem("T501", message, field, related=places(trial, "enters"))


def pins_against_readings(trial: Draft[Trial], club: ClubDraft) -> Iterator[Problem]:
    """`enters` says whether the pin is thinner than the bush is wide."""
    chain, link = club.find("chain", trial.record.chain), club.find("link", trial.record.link)
    bore = chain.dims.get("bush_bore") if chain is not None else None
    pin = link.dims.get("pin_diameter") if link is not None else None
    if chain is None or link is None or bore is None or pin is None or trial.record.enters is None:
        return
    room = bore - pin
    if (trial.record.enters and room.high < 0) or (not trial.record.enters and room.low > 0):
        said = "went in" if trial.record.enters else "did not go in"
        message = (
            f"the pins {said}, but pin {in_mm(pin.nominal)} and bush {in_mm(bore.nominal)} say otherwise"
        )
        related = (*places(chain, "bush_bore"), *places(link, "pin_diameter"))
        yield trial.problem("T502", message, "enters", related=related)


def clip_against_groove(trial: Draft[Trial], club: ClubDraft) -> Iterator[Problem]:
    """A clip that went on is no thicker than the groove is wide."""
    link, clip = club.find("link", trial.record.link), clip_of(trial, club)
    groove = link.dims.get("groove_width") if link is not None else None
    thickness = clip.dims.get("thickness") if clip is not None else None
    if link is None or clip is None or groove is None or thickness is None or not trial.record.clip_on:
        return
    if (groove - thickness).high < 0:
        message = (
            f"the clip went on, but it is {in_mm(thickness.nominal)} and the groove {in_mm(groove.nominal)}"
        )
        related = (*places(link, "groove_width"), *places(clip, "thickness"))
        yield trial.problem("T503", message, "clip_on", related=related)


def clip_against_stop(trial: Draft[Trial], club: ClubDraft) -> Iterator[Problem]:
    """A clip that went on left the side plate room outside the bush ends."""
    chain, link, stop = (
        club.find("chain", trial.record.chain),
        club.find("link", trial.record.link),
        _stop(trial, club),
    )
    ends = chain.dims.get("over_bush_ends") if chain is not None else None
    if chain is None or link is None or stop is None or ends is None or not trial.record.clip_on:
        return
    if (stop - ends).high < 0:
        message = f"the clip went on, but by the readings the plate would have to lie {in_mm((ends - stop).nominal)} inside the bush ends"
        related = (
            *places(link, "pin_reach", "groove_width", "side_plate_thickness"),
            *places(chain, "over_bush_ends"),
        )
        yield trial.problem("T504", message, "clip_on", related=related)


def clip_of(trial: Draft[Trial], club: ClubDraft) -> Draft[Clip] | None:
    """The clip that was used: the one named, else the link's own."""
    link = club.find("link", trial.record.link)
    own = link.record.clip if link is not None else None
    return club.find("clip", trial.record.clip or own)


def _stop(trial: Draft[Trial], club: ClubDraft) -> Quantity | None:
    """G + gw - k - t: the widest inside width at which the clip still enters."""
    link, clip = club.find("link", trial.record.link), clip_of(trial, club)
    if link is None or clip is None:
        return None
    reach, groove, plate = (link.dims.get(n) for n in ("pin_reach", "groove_width", "side_plate_thickness"))
    thickness = clip.dims.get("thickness")
    if reach is None or groove is None or plate is None or thickness is None:
        return None
    return reach + groove - thickness - plate


def clip_nobody_had(trial: Draft[Trial], club: ClubDraft) -> Iterator[Problem]:
    """`clip_on` speaks of a clip: one named here, or the link's own."""
    link = club.find("link", trial.record.link)
    if link is None or trial.record.clip_on is None or trial.record.clip is not None:
        return
    if trial.record.clip_on and link.record.clip == "none":
        fix = "name the clip that was used, or take clip_on out"
        message = "a clip went on, but none is named and the link has none"
        yield trial.problem("T505", message, "clip_on", fix=fix, related=places(link, "clip"))


def clip_on_riveted_link(trial: Draft[Trial], club: ClubDraft) -> Iterator[Problem]:
    """A riveted or screwed link takes no clip."""
    link = club.find("link", trial.record.link)
    if link is not None and trial.record.clip is not None and link.record.closure in ("rivet", "screw"):
        message = f"a clip was tried on a link closed by {link.record.closure}"
        yield trial.problem("T506", message, "clip", related=places(link, "closure"))


def seals_nobody_had(trial: Draft[Trial], club: ClubDraft) -> Iterator[Problem]:
    """Fitted seals come with the link, or lie on the chain already."""
    link, chain = club.find("link", trial.record.link), club.find("chain", trial.record.chain)
    if link is None or chain is None or trial.record.seals != "fitted":
        return
    if link.record.seals == "none" and chain.record.kind == "plain":
        related = (*places(link, "seals"), *places(chain, "kind"))
        yield trial.problem(
            "T507",
            "seals were fitted, but neither link nor chain has any",
            "seals",
            level="warning",
            related=related,
        )


def trials_disagree(club: ClubDraft) -> Iterator[Problem]:
    """The same parts tried the same way give the same answers."""
    alike: dict[tuple[object, ...], list[Draft[Trial]]] = {}
    for trial in club.kinds["trial"].values():
        alike.setdefault(_way(trial, club), []).append(trial)
    for trials in alike.values():
        for first, second in combinations(trials, 2):
            yield from _disagreement(first, second)


def _disagreement(first: Draft[Trial], second: Draft[Trial]) -> Iterator[Problem]:
    for field in ANSWERS:
        answers = (getattr(first.record, field), getattr(second.record, field))
        if None not in answers and answers[0] is not answers[1]:
            message = f"{field} is answered differently in '{first.id}'"
            fix = "try once more and keep the trial that is right"
            yield second.problem("T508", message, field, fix=fix, related=places(first, field))


def _way(trial: Draft[Trial], club: ClubDraft) -> tuple[object, ...]:
    """What was joined and how: a clip that is not named was the link's own, and no seals are no seals."""
    seen = trial.record
    link = club.find("link", seen.link)
    clip = seen.clip or (link.record.clip if link is not None else None) or "unknown"
    seals = "none" if seen.seals == "left-out" else seen.seals
    return (seen.chain, seen.link, clip, seals, seen.washers, seen.spacers, seen.plate_on)


def answers_left_out(trial: Draft[Trial], club: ClubDraft) -> Iterator[Problem]:
    """A dry fit counts as one where all of it was tried; what was not may be said with `unknown`."""
    link = club.find("link", trial.record.link)
    if link is None or not trial.whole or not link.whole:
        return
    left = open_answers(trial.record, link.record.closure, link.record.plate_fit)
    silent = [field for field in left if field not in trial.record.model_fields_set]
    if silent and not _tried_whole(trial, club, link.record):
        names = " and ".join(filter(None, (", ".join(silent[:-1]), silent[-1])))
        yield trial.problem(
            "T509",
            f"the trial does not say {names}",
            fix=f"try it and answer {names} with yes or no, or write unknown for what was not tried",
            level="warning",
            related=(link.place(),),
        )


def _tried_whole(trial: Draft[Trial], club: ClubDraft, link: Link) -> bool:
    """Was the same tried the same way at another time, and every question answered?"""
    *same, plate_on = _way(trial, club)
    return any(
        way == same
        and plate_on in ("unknown", on)
        and not open_answers(each.record, link.closure, link.plate_fit)
        for each in club.kinds["trial"].values()
        for *way, on in (_way(each, club),)
    )


TRIAL_RULES = (answers_exclude,)
TRIAL_CLUB_RULES = (
    pins_against_readings,
    clip_against_groove,
    clip_against_stop,
    clip_nobody_had,
    clip_on_riveted_link,
    seals_nobody_had,
    answers_left_out,
)
