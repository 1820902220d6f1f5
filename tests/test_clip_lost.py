"""A makeshift for a lost clip asks about the joint, not about the clip that is gone.

Outside source: the notes on a lost clip (common practice, no source): wire on a pressed plate and a crimped washer are
get-home, the bare plate last-resort.
"""

from dataclasses import replace

import numpy as np
import pytest

from generator.compute.fit.clip_lost import makeshifts
from generator.compute.fit.fits import fit_table
from generator.compute.fit.judge import Judge
from generator.compute.fit.options import bench
from generator.compute.fit.without_clip import without_clip
from generator.model.club import RuleOverride
from generator.model.dataset import Dataset
from generator.validate.rules import override_problems
from tests.clubs import unchecked
from tests.others_club import Fields, exact_club, raw_club

AS_FOR_ANY_CLIP = {"bare-pressed-plate": (2, 2), "wire-on-pressed-plate": (1, 1), "crimped-washer": (1, 1)}


def lost(dataset: Dataset) -> dict[str, tuple[int, int]]:
    (fit,) = fit_table(dataset)
    return {found.rule_id: (found.best, found.worst) for found in makeshifts(dataset, fit)}


@pytest.mark.parametrize(
    "clip",
    [{}, {"history": "bent"}, {"count": "0"}, {"thickness": "1.25", "thickness_new": "1.25"}, {"thickness": "0.55"}],
)  # fmt: skip
def test_what_is_wrong_with_the_clip_takes_nothing_away(clip: Fields) -> None:
    assert lost(exact_club(clip=clip)) == AS_FOR_ANY_CLIP


def test_squeeze_that_the_clip_sets_is_not_asked_of_a_sliding_plate() -> None:
    """A clip too thick to enter would set the plate 0.25 mm further in."""
    slip = {"plate_fit": "slip", "pin_reach": "15.05"}
    clip = {"thickness": "1.25", "thickness_new": "1.25"}
    assert lost(exact_club(link=slip, clip=clip)) == lost(exact_club(link=slip))
    assert lost(exact_club(link=slip))["wire-on-sliding-plate"] == (2, 2)


def test_what_is_wrong_with_the_joint_still_counts() -> None:
    assert lost(exact_club(link={"pin_diameter": "5.4"})) == {}
    assert lost(exact_club(link={"condition": "cracked"})) == {}
    (refused,) = fit_table(exact_club(link={"condition": "unknown"}))
    found = makeshifts(exact_club(link={"condition": "unknown"}), refused)
    assert found and all(each.look_first and each.worst == 3 for each in found)
    # 1.5 of 2.1 is less than 0.80 of the chain's plate
    thin = lost(exact_club(link={"side_plate_thickness": "1.5", "pin_reach": "14.60"}))
    assert thin["wire-on-pressed-plate"] == (2, 2)


def test_a_club_has_its_own_limit() -> None:
    """15.20 - 2.1 - 13.05 = 0.05 is less than a club may ask for."""
    base = exact_club()

    def asks(low: str) -> Dataset:
        own = RuleOverride.model_validate({"because": "seen to fall off", "last-resort": {"low": low}})
        return replace(base, overrides={"bare-pressed-plate": own})

    assert lost(asks("0.05"))["bare-pressed-plate"] == (2, 2)
    assert lost(asks("0.06"))["bare-pressed-plate"] == (3, 3)
    assert lost(asks("tc"))["bare-pressed-plate"] == (3, 3)
    assert [problem.code for problem in override_problems(asks("height"))] == ["U605"]
    assert not list(override_problems(asks("tc")))


def _tried(**seen: str) -> Dataset:
    raw = raw_club()
    raw["trials"] = {"t": {"chain": "base", "link": "own", "seals": "fitted", "on": "2027-02-01", **seen}}
    return unchecked(raw)


def test_a_lost_press_fit_leaves_nothing() -> None:
    went = _tried(enters="yes", clip_on="yes", bends="yes")
    assert lost(went)["wire-on-pressed-plate"] == (1, 1)
    assert lost(_tried(enters="yes", clip_on="yes", bends="yes", plate_moves="yes")) == {}


def test_a_joint_that_was_stiff_with_its_seals_is_so_without_a_clip() -> None:
    """With them in last-resort, as the trade has it; left out nobody has tried it, and it is last-resort until then."""
    joint = _tried(enters="yes", clip_on="yes", bends="no")
    judge = Judge(joint, bench(joint))
    assert lost(joint)["wire-on-pressed-plate"] == (2, 2)
    only = Judge(joint, bench(joint), judge.options.take(np.flatnonzero(judge.options.seals == 0)))
    best, worst = without_clip(only)
    assert (best.tolist(), worst.tolist()) == ([2], [2])


@pytest.mark.parametrize("written", ["left-out", "none"])
def test_a_joint_that_bound_without_seals_binds_without_its_clip(written: str) -> None:
    """Seals left out and no seals are one in the hand; the link has seals, but none are left."""
    raw = raw_club()
    raw["seals"]["o128"]["count"] = "0"
    stiff = {"enters": "yes", "clip_on": "yes", "bends": "no"}
    raw["trials"] = {"seen": {"chain": "base", "link": "own", "seals": written, "on": "2027-02-01", **stiff}}
    assert lost(unchecked(raw))["wire-on-pressed-plate"] == (2, 2)
