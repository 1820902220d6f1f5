"""What stands below a verdict: what it means for the ride, and how it is known."""

from collections.abc import Mapping

from generator.compute.fit.result import PairFit
from generator.model.shipped import RUNGS
from generator.render.say.days import days_in_words
from generator.render.say.rungs import UNTRIED
from generator.render.say.said import capital

SHORT: Mapping[str, str] = {
    "proper": "Goes together as designed.",
    "get-home": (
        "Same day, easiest way out, not above 30 km/h, no passenger. Look at it after 1 km, 5 km, then every 5 km."
    ),
    "last-resort": (
        "Only where you cannot be fetched or towed: walking pace, look at it every 500 m. On a public road push."
    ),
    "no-go": "Do not fit it: it can lock the wheel or hole the engine.",
}
# of a row and of a section
SECTION_SAYS: Mapping[str, str] = {
    "get-home": (
        "Same day only, by the easiest way out: not above 30 km/h and on no faster road, no passenger, nobody close "
        "behind. Look at it after 1 km, after 5 km, then every 5 km. Replace it before the next ride."
    ),
    "last-resort": SHORT["last-resort"],
    "no-go": "Do not fit these: they can lock the wheel or hole the engine.",
    "not-settled": "Until it is measured or tried, each counts as the worst it could be.",
}


def panel_says(fit: PairFit, stands: bool = False) -> str:
    """One or two sentences, with the day it was tried; `stands`: nothing the club can do changes the worst."""
    if fit.refused is not None or fit.worst is None:
        return f"{capital(fit.refused or '')}. Look at it, and do not count on it."
    if fit.word == "measure-first" and stands:
        return f"Counts as {RUNGS[fit.worst]}: nothing the club can do here tells it closer."
    if fit.word == "measure-first":
        return f"Not tested: could be {RUNGS[fit.worst]}. Do not count on it."
    return f"{SHORT[fit.word]} {tried_in_words(fit)}".rstrip()


def tried_in_words(fit: PairFit) -> str:
    """When it went together, or that nobody tried; nothing where a dry fit would not make it better."""
    went = tried_on(fit)
    if went:
        return f"Tried by hand {went}."
    if fit.word == "proper":
        return f"{UNTRIED[fit.strength]}: it counts as get-home until somebody has dry-fitted it."
    return ""


def tried_on(fit: PairFit) -> str:
    """`30 January 2027`: the days on which it went together the way the verdict is for."""
    told = fit.option.trials if fit.option is not None else ()
    return days_in_words(t.on for t in fit.tried if t.id in told and t.word == "went-together")
