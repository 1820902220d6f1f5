"""How worn a chain is, in words: one sentence for a list, a warning where it ends the chain's life."""

from dataclasses import dataclass
from fractions import Fraction

from generator.compute.wear.outlook import HoursLeft
from generator.compute.wear.wear import BikeWear, ChainWear
from generator.model.dataset import Dataset
from generator.render.base.lengths import fixed
from generator.render.say.cautions import ShownCaution, shown_caution

WEAR = "wear/"
WORN_OUT = "worn-out"  # the caution behind the words at the top of chain and bike
# states and reasons that a page says in a word or a sentence
STATES = {
    "ok": "within its limit",
    "worn": "worn out",
    "contradictory": "readings contradict",
    "too-few": "not enough readings",
    "new": "new",
}
WHYS = {
    "": "",
    "beyond": "Start no ride with it.",
    "at-limit": "The plus-minus of the newest reading reaches the limit: measure again before the next ride.",
    "no-reading": "Nobody has measured its wear yet, so it may be worn out: measure it before it is ridden hard.",
    "from-record": "One value stands in its record and none in the wear log: no forecast from one value.",
    "from-look": "Only a look at the rear sprocket stands for it: measure it before it is relied on.",
    "side-bow": "It bows far to the side, which overrules its length. Start no ride with it.",
    "new": "Only the first reading is there; measure again after some hours.",
    "few": "Readings on three different days give a forecast; there are fewer.",
    "no-hours": "The hours are missing from the readings, and without them there is no forecast.",
    "shrinks": "A chain does not become shorter: measure again at three places, pulled taut, and correct the log.",
    "scattered-three": "Three readings that scatter like these give no forecast: measure once more, at three places.",
    "scattered": "The readings scatter so that no line can be trusted: measure again at three places.",
    "no-wear-seen": "No wear shows yet beyond the plus-minus of the readings.",
    "faster": (
        "It wears faster than its earlier readings foretold: look for failing seals, grit and a tight point. "
        "No forecast until that is found."
    ),
    "seals": "Some of its seals are gone: it wears fast from now on, and no forecast holds.",
}
BY = {
    "rule": "",
    "large-sprocket": ", by the teeth of the larger sprocket",
    "adjuster": ", where the adjuster ends",
}


@dataclass(frozen=True, slots=True)
class ShownWear:
    """For the head of a chain or bike: `caution` where it is worn out, else the sentence alone; `to` leads on."""

    state: str
    word: str
    says: str
    to: str
    caution: ShownCaution | None


def shown_wear(dataset: Dataset, wear: ChainWear | BikeWear) -> ShownWear:
    says = wear_sentence(wear)
    return ShownWear(
        state=wear.outlook.state,
        word=STATES[wear.outlook.state],
        says=says,
        to=f"{WEAR}{wear.chain}/",
        caution=_worn_out(dataset, wear) if wear.outlook.state == "worn" else None,
    )


def _worn_out(dataset: Dataset, wear: ChainWear | BikeWear) -> ShownCaution:
    shown = shown_caution(WORN_OUT, dataset.shelf.cautions[WORN_OUT])
    return ShownCaution(
        shown.id, shown.signal, shown.title, f"{_longer(wear)} {shown.hazard}", shown.consequence, shown.avoid
    )


def wear_sentence(wear: ChainWear | BikeWear) -> str:
    """`0.41 % longer than new; the limit is 1 %. About 67 hours left (41 to 97).`"""
    parts = (_longer(wear), hours_left(wear.outlook.hours_left), WHYS[wear.outlook.why])
    return " ".join(part for part in parts if part)


def _longer(wear: ChainWear | BikeWear) -> str:
    if wear.elongation is None:
        return ""
    limit = f"{per_cent(wear.limit.percent)}{BY[wear.limit.by]}"
    return f"{per_cent(wear.elongation.nominal)} longer than new; the limit is {limit}."


def per_cent(value: Fraction, decimals: int = 2) -> str:
    text = fixed(value, decimals).rstrip("0").rstrip(".")
    return f"{text or '0'}\N{NO-BREAK SPACE}%"


def hours_left(left: HoursLeft | None) -> str:
    """Whole hours: the soonest is rounded down, the latest up."""
    if left is None:
        return ""
    return f"About {left.nominal:.0f} hours left ({int(left.low)} to {-int(-left.high // 1)})."
