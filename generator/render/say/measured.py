"""A check with a number, in one or two sentences with the hundredths.

Goes in: a check and the parts it is about.  Comes out: what was found, and the limits it is held against.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from math import ceil, floor

from generator.compute.fit.result import CheckFit, Span
from generator.model.quantity import MN_PER_KN
from generator.model.shipped import RUNGS
from generator.render.base.lengths import shown_length, signed
from generator.render.say.categories import Joint
from generator.render.say.clearances import phrase_of
from generator.render.say.limits import blurred_limit, edges_of_rung, limits_of, numbers_of
from generator.render.say.names import listed, reading_name
from generator.render.say.said import Figures, Said, figures_for, joined


def found(check: CheckFit, joint: Joint) -> Said:
    """What was found, as read and at both ends of what the readings allow."""
    if check.unit == "kN":
        return _strength(check)
    said = _PERCENT.get(check.id, _no_percent)(check, joint) or _state(check, joint)
    return joined((said, _gone(check, joint)))


def held_against(check: CheckFit, joint: Joint) -> Said:
    """The limits of each rung down to the one it came out at."""
    if check.unit == "kN" or check.id in _PERCENT:
        return ()
    phrase = phrase_of(check.id, joint.option.seals)
    figures = figures_for(numbers_of(check))
    limits = limits_of(check, phrase, range(min(check.worst, 2) + 1), figures)
    return joined((limits, blurred_limit(check, figures)))


def _state(check: CheckFit, joint: Joint) -> Said:
    if check.clearance is None:
        return ()
    span, phrase = check.clearance, phrase_of(check.id, joint.option.seals)
    figures = figures_for(numbers_of(check))
    nominal: Said = (f"{phrase.subject} ", *phrase.amount(span.nominal, figures))
    if round(span.low) == round(span.high):
        return (*nominal, ".")
    return (*nominal, " as read; the readings allow ", *_ends(span, check, joint, figures), ".")


def _ends(span: Span, check: CheckFit, joint: Joint, figures: Figures) -> Said:
    """`0.12 mm to 0.18 mm`; where the ends lie on both sides of nothing each says what it is."""
    phrase = phrase_of(check.id, joint.option.seals)
    if round(span.low) < 0 <= round(span.high) and phrase.more != phrase.less:
        low, high = phrase.amount(span.low, figures, "low"), phrase.amount(span.high, figures, "high")
        return ("anything from ", *low, " to ", *high)
    return figures.ends(span.low, span.high)


def _gone(check: CheckFit, joint: Joint) -> Said:
    if not check.missing:
        return ()
    names = listed([reading_name(joint.dataset, reading) for reading in check.missing])
    if check.settled_by_trial:
        return (f"Not known: {names}; the dry fit settles this check all the same.",)
    open_ = check.best < check.worst
    return (
        f"Not known: {names}{'. Without it this check is open' if open_ else '; that changes nothing here'}.",
    )


def _no_percent(check: CheckFit, joint: Joint) -> Said:  # noqa: ARG001 - most checks are said in lengths alone
    return ()


def _squeeze_percent(check: CheckFit, joint: Joint) -> Said:
    """Seal practice speaks in per cent of the free thickness, two seals to a pin."""
    seals = joint.dataset.seals.get(joint.option.seal_set or "")
    thickness = seals.dims.get("thickness") if seals else None
    if thickness is None or check.clearance is None:
        return ()
    free = 2 * thickness.nominal
    percent = _Percent(lambda length: 100 * length / free)
    return (
        *_state(check, joint),
        f" Of their thickness that is {percent.span(check.clearance)}{percent.bands(check)}.",
    )


def _wear_percent(check: CheckFit, joint: Joint) -> Said:
    """Of its new thickness, not of the half that is the least."""
    clip = joint.dataset.clips.get(joint.option.clip or "")
    new = clip.dims.get("thickness_new") if clip else None
    now = clip.dims.get("thickness") if clip else None
    if new is None or now is None or check.clearance is None:
        return ()
    taken = now.nominal - check.clearance.nominal
    percent = _Percent(lambda length: 100 * (length + taken) / new.nominal)
    return (
        "At its thinnest place the clip is ",
        *(shown_length(now.nominal), " of ", shown_length(new.nominal), " when new: "),
        f"{percent.span(check.clearance)} left{percent.bands(check)}.",
    )


@dataclass(frozen=True, slots=True)
class _Percent:
    """Lengths as whole per cents of something."""

    of: Callable[[float], float]

    def span(self, span: Span) -> str:
        low, high = floor(self.of(span.low)), ceil(self.of(span.high))
        nominal = round(self.of(span.nominal))
        around = "" if low == high else f", at least {signed(low)} and at most {signed(high)}"
        return f"{signed(nominal)} %{around}"

    def bands(self, check: CheckFit) -> str:
        """`; proper takes 8 to 30 %`."""
        said = [
            f"{RUNGS[rung]} takes {self._band(check, rung)}" for rung in sorted({e.rung for e in check.edges})
        ]
        return f"; {', '.join(said[: check.worst + 1])}" if said else ""

    def _band(self, check: CheckFit, rung: int) -> str:
        at = {edge.side: edge.at for edge in edges_of_rung(check, rung) if edge.at is not None}
        low, high = (
            None if at.get(side) is None else signed(round(self.of(at[side]))) for side in ("low", "high")
        )
        if low and high:
            return f"{low} to {high} %"
        return f"{low} % or more" if low else f"{high} % or less"


def _strength(check: CheckFit) -> Said:
    """Forces are said in kilonewtons, as chains state them."""
    if check.clearance is None:
        return ()
    asked = [
        f"{RUNGS[edge.rung]} asks for {edge.at / MN_PER_KN:.1f} kN"
        for edge in check.edges
        if edge.at is not None
    ]
    return (f"The link is stated to hold {check.clearance.nominal / MN_PER_KN:.1f} kN; {listed(asked)}.",)


_PERCENT: Mapping[str, Callable[[CheckFit, Joint], Said]] = {
    "squeeze": _squeeze_percent,
    "clip-wear": _wear_percent,
}
