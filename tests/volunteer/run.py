"""One volunteer after the other: acts to the verdict, and whether what was printed is kinder than the truth."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Any

from generator.compute.fit.fits import fit_table
from generator.compute.fit.plans import Plans, plans_of
from generator.compute.fit.result import PairFit
from generator.compute.next_act import next_act, stands
from generator.model.dataset import Dataset
from generator.model.shipped import NO_GO, RUNGS
from tests.clubs import exactly, shelf, unchecked
from tests.volunteer.hand import Volunteer, dry_fit, joint_looks
from tests.volunteer.joint import Hidden, hidden_joint

# more than anybody has patience for: then something asks for the same again
MOST_ACTS = 25


@dataclass(frozen=True)
class Story:
    """One joint from the first look to the verdict."""

    joint: Hidden
    acts: tuple[str, ...]
    printed: int
    one_rung: bool
    refused: str | None
    truth: int

    @property
    def kinder(self) -> bool:
        return self.refused is None and self.printed < self.truth


def story(seed: int, plans: Plans, misreported: float = 0.0) -> Story:
    joint = hidden_joint(seed)
    volunteer = Volunteer(joint, misreported)
    acts: list[str] = []
    while True:
        dataset, fit = _fit(volunteer.raw, plans)
        if stands(dataset, fit) or len(acts) == MOST_ACTS:
            break
        act = next_act(dataset, fit)
        assert act is not None
        acts.append(f"{act.kind} {act.part[1]} {' '.join(r.field for r in act.ask)}")
        volunteer.do(act, dataset)
    shown = fit.runs_now or fit
    printed = NO_GO if shown.worst is None else shown.worst
    return Story(joint, tuple(acts), printed, shown.best == shown.worst, fit.refused, truth_of(joint, plans))


def _fit(raw: dict[str, Any], plans: Plans) -> tuple[Dataset, PairFit]:
    dataset = replace(unchecked(raw), shelf=shelf())
    return dataset, fit_table(dataset, ["red"], ["tin"], plans)[0]


def truth_of(joint: Hidden, plans: Plans) -> int:
    """The rung by every dimension exactly, every look truly told and what the hand truly feels."""
    teller = Volunteer(joint)
    raw = teller.raw
    words = joint.words
    raw["chains"]["red"] |= (
        _lengths(joint.chain)
        | words["chain"]
        | {
            "seal": "O" if joint.sealed else "none",
            "own_joint": "clip-slip" if joint.slides else "clip-press",
        }
    )
    raw["links"]["tin"] |= (
        _lengths(joint.link)
        | words["link"]
        | {"clip": "tin-clip", "seals": "tin-rings" if joint.sealed else "none", "flared": "no"}
    )
    raw["clips"]["tin-clip"] = _lengths(joint.clip) | words["clip"] | {"count": "2"}
    if joint.sealed:
        raw["seals"]["tin-rings"] = _lengths(joint.seals) | {"shape": "O", "covers_bush": "yes"}
    raw["bikes"]["b1"] |= {
        "clearance_clip_side": f"{joint.room} mm",
        "clearance_other_side": f"{joint.room} mm",
    }
    felt = {
        name: f"{value:.6f} mm" if isinstance(value, float) else value
        for name, value in dry_fit(joint).items()
    }
    if joint.in_use:
        felt |= _as_it_runs(joint)
    raw["trials"][f"truth-{joint.seed}"] = {
        "chain": "red",
        "link": "tin",
        "clip": "tin-clip",
        "on": "2027-02-20",
        **felt,
    }
    raw["chains"]["red"] |= joint_looks(joint) if joint.in_use else {}
    dataset = exactly(replace(unchecked(raw), shelf=shelf()))
    fit = fit_table(dataset, ["red"], ["tin"], plans)[0]
    shown = fit.runs_now or fit
    return NO_GO if shown.best is None else shown.best


def _as_it_runs(joint: Hidden) -> dict[str, Any]:
    """The plate of a joint in use lies where it was pressed."""
    if joint.slides:
        return {}
    chain, link = joint.chain, joint.link
    seat = chain["between_outer_plates"] + joint.off
    level = "yes" if -0.10 <= joint.off <= 0.15 else "no"
    width = seat + link["side_plate_thickness"] + link["fixed_plate_thickness"]
    return {
        "width_at_joint": f"{width:.6f} mm",
        "plates_level": level,
        "plate_on": "pressed",
        "left_in_use": "yes",
    }


def _lengths(part: dict[str, Any]) -> dict[str, str]:
    return {name: f"{value:.6f} ± 0.000001 mm" for name, value in part.items()}


def stories(count: int, misreported: float = 0.0) -> Iterator[Story]:
    plans = plans_of(replace(unchecked(Volunteer(hidden_joint(0)).raw), shelf=shelf()))
    for seed in range(count):
        yield story(seed, plans, misreported)


def word(rung: int) -> str:
    return RUNGS[rung]
