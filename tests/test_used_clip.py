"""A clip that goes back on its own link: what a fingernail finds stands for its thickness when new.

Common practice, no source: a fingernail misses a step of a twentieth of a millimetre on either face of a clip
(`verdicts`: plate thickness held by a nail +-0.05), and a clip is proper down to 80 % of what it was.
"""

from copy import deepcopy
from typing import Any

import pytest

from generator.compute.fit.fits import explain_pair
from generator.compute.fit.result import CheckFit, PairFit
from generator.compute.next_act import next_act
from generator.model.dataset import Dataset
from generator.model.shipped import GET_HOME, NO_GO, PROPER
from generator.render.explain_text import explain_text
from tests.clubs import checked, errors_of
from tests.small_club import SMALL_CLUB, dry_fit

READ = {
    "measured_with": "caliper",
    "thickness": "1.00 mm",
    "seat_width": "3.80 mm",
    "mouth": "3.35 mm",
    "pin_spacing": "15.88 mm",
}


def raw_club(clip: dict[str, str]) -> dict[str, Any]:
    """The chain of bob runs with a link that was off once; the clip went on again with pliers."""
    raw: dict[str, Any] = deepcopy(SMALL_CLUB)
    raw["clips"] = {"bob-clip": {"history": "off-once", "made_bowed": "no", **READ, **clip}}
    link = {
        "condition": "fitted-once",
        "clip": "bob-clip",
        "groove_diameter": "3.90 mm",
        "measured_with": "caliper",
    }
    raw["links"]["bob-link"] |= link | {"groove_width": "1.10 +- 0.03 mm"}
    widths = {"width_at_joint": "15.02 mm", "width_at_neighbour": "15.00 mm"}
    raw["trials"]["own"] = dry_fit("bob", "bob-link", **widths)
    return raw


def club(clip: dict[str, str]) -> Dataset:
    return checked(raw_club(clip))


def judged(dataset: Dataset) -> tuple[PairFit, CheckFit]:
    fit, _ = explain_pair(dataset, "bob", "bob-link")
    assert fit.option is not None
    return fit, next(check for check in fit.option.checks if check.id == "clip-wear")


def test_its_own_joint_dry_fitted_with_its_own_clip_gets_home() -> None:
    """A clip that was off once is get-home at best, and nothing else is worse."""
    fit, wear = judged(club({"worn_step": "no"}))
    assert (fit.best, fit.worst, fit.strength) == (GET_HOME, GET_HOME, "dry-fitted")
    assert (wear.best, wear.worst) == (PROPER, PROPER)


@pytest.mark.parametrize("felt", [{}, {"worn_step": "yes"}, {"worn_step": "unknown"}])
def test_without_that_look_nothing_is_known_of_what_it_was(felt: dict[str, str]) -> None:
    fit, wear = judged(club(felt))
    assert (fit.best, fit.worst) == (GET_HOME, NO_GO)
    assert (wear.best, wear.worst) == (PROPER, NO_GO)


def test_a_clip_that_was_never_made_so_thin_has_a_step_somewhere() -> None:
    """No new clip is under 0.6 mm (common practice, no source), so that 0.45 + 0.10 cannot be all it ever was."""
    (problem,) = errors_of(raw_club({"worn_step": "no", "thickness": "0.45 mm"}))
    assert (problem.code, problem.path) == ("C441", ("bob-clip", "worn_step"))


def test_what_it_was_when_new_goes_before_what_is_felt() -> None:
    """1.00 of 1.30 is 77 %, whatever a fingernail says."""
    _, wear = judged(club({"worn_step": "no", "thickness_new": "1.30 mm"}))
    assert (wear.best, wear.worst) == (GET_HOME, GET_HOME)


def test_the_look_is_asked_for_and_what_is_missing_is_named() -> None:
    dataset = club({})
    fit, _ = judged(dataset)
    said = " ".join(explain_text(dataset, fit, next_act(dataset, fit)).split())
    assert "Look at clip bob-clip" in said and "[worn_step: yes / no]" in said
    assert "Not known: clip thickness when new of clip bob-clip" in said and "100 % of the clip" not in said
