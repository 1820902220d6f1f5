"""What a club with one caliper, and nothing else, learns of the joint its chain came with."""

from typing import Any

import pytest

from generator.compute.fit.fits import fit_table
from generator.compute.fit.result import PairFit
from tests.clubs import checked, unchecked

CALIPER = {"measured_with": "caliper", "measured_on": "2027-02-10"}
CHAIN = {
    "size_code": "520", "kind": "sealed", "seal": "O", "own_joint": "clip-press", "state": "as-made", "elongation": "0.3",
    "over_inner_plates": "10.95 mm", "over_bush_ends": "11.25 mm", "over_outer_plates": "17.25 mm",
    "plate_thickness": "2.10 mm", "over_riveted_pins": "19.40 mm", "rub_marks": "no", "own_link": "own", **CALIPER,
}  # fmt: skip
LINK = {
    "size_code": "520", "closure": "clip", "plate_fit": "press", "made_for": "sealed", "condition": "new", "count": "2",
    "half_link": "no", "clip": "clip", "seals": "seals", "pin_diameter": "5.24 mm", "clip_stop": "15.30 mm",
    "pin_length": "17.30 mm", "side_plate_thickness": "2.10 mm", **CALIPER,
}  # fmt: skip
TRIAL = {
    "chain": "chain", "link": "own", "seals": "fitted", "on": "2027-02-20", "measured_with": "caliper", "enters": "yes",
    "plate_on": "pressed", "clip_on": "yes", "clip_with": "pliers", "bends": "yes", "plate_moves": "no", "play": "no-more",
    "plates_level": "yes", "plates_no_higher": "yes", "width_at_joint": "17.25 mm", "width_at_neighbour": "17.25 mm",
}  # fmt: skip
MAKES = ({"came_with": "chain"}, {"letters": "KR 520 V"})


def club(make: dict[str, str], **changes: dict[str, Any]) -> dict[str, Any]:
    chain = CHAIN | ({"letters": "KR 520 V"} if "letters" in make else {})
    return {
        "club": {
            "name": "One caliper",
            "id": "one",
            "as_of": "2027-03-01",
            "instruments": {"caliper": {"kind": "digital-caliper"}},
        },
        "chains": {"chain": chain | changes.get("chain", {})},
        "links": {"own": LINK | make | changes.get("link", {})},
        "clips": {"clip": {"history": "new", "count": "2", "thickness": "1.00 mm", **CALIPER}},
        "seals": {"seals": {"shape": "O", "covers_bush": "yes"}},
        "bikes": {"bike": {"chain": "chain", "front_teeth": "14", "rear_teeth": "48", "pitches": "112", "joint_in_manual": "clip"}},
        "trials": {"full": TRIAL | changes.get("trial", {})},
    }  # fmt: skip


def fit(raw: dict[str, Any]) -> PairFit:
    return fit_table(checked(raw), ["chain"], ["own"])[0]


def still_open(found: PairFit) -> list[tuple[str, int, int]]:
    assert found.option is not None, found.refused
    return [(check.id, check.best, check.worst) for check in found.option.checks if check.worst]


@pytest.mark.parametrize("make", MAKES)
def test_by_make_and_with_a_full_dry_fit_it_is_proper(make: dict[str, str]) -> None:
    found = fit(club(make))
    assert (found.word, found.strength) == ("proper", "dry-fitted"), still_open(found)


@pytest.mark.parametrize("make", MAKES)
def test_one_that_is_left_to_run_is_proper_while_it_stays_closed(make: dict[str, str]) -> None:
    """The only one there is: opened again its clip was off and its plate was pressed on."""
    looks = {
        "plates_level": "yes",
        "clip_seated": "yes",
        "bends_freely": "yes",
        "seals_whole": "yes",
        "plate_loose": "no",
    }
    chain = {
        "in_use": "yes",
        "in_use_since": "2027-02-20",
        "looked_on": "2027-02-21",
        "own_seals": "fitted",
        **looks,
    }
    raw = club(make, chain=chain, link={"count": "1"}, trial={"left_in_use": "yes"})
    raw["clips"]["clip"]["count"] = "1"
    found = fit(raw)
    assert found.runs_now is not None
    came = "came_with" in make
    assert (found.runs_now.best, found.runs_now.worst) == ((0, 0) if came else (1, 1))
    assert (found.best, found.worst) == (1, 1), still_open(found)


def test_without_the_look_it_runs_and_is_get_home_at_worst() -> None:
    raw = club(
        MAKES[0],
        chain={"in_use": "yes", "in_use_since": "2027-02-20"},
        link={"count": "1"},
        trial={"left_in_use": "yes"},
    )
    found = fit(raw).runs_now
    assert found is not None
    assert (found.best, found.worst) == (0, 1)
    assert "plates_level" in found.not_looked


def test_of_another_make_the_same_readings_leave_it_open() -> None:
    found = fit(club({"letters": "other"}))
    assert found.word == "measure-first"


def test_a_plate_seen_too_far_out_is_not_proper_whatever_its_make() -> None:
    """18.10 over the plates beside 17.25: 0.85 off, far from its clip."""
    found = fit(club(MAKES[0], trial={"plates_level": "unknown", "width_at_joint": "18.10 mm"}))
    assert found.worst is None or found.worst >= 2


LOOKED = {
    "plates_level": "yes",
    "clip_seated": "yes",
    "bends_freely": "yes",
    "seals_whole": "yes",
    "plate_loose": "no",
}


@pytest.mark.parametrize(
    ("look", "answer", "rung"),
    [
        ("plates_level", "no", 1),
        ("clip_seated", "no", 3),
        ("bends_freely", "no", 2),
        ("seals_whole", "no", 1),
        ("plate_loose", "yes", 3),
        ("rub_marks", "yes", 1),
    ],
)
def test_a_look_that_finds_something_counts(look: str, answer: str, rung: int) -> None:
    running = {"in_use": "yes", "in_use_since": "2027-02-20", "looked_on": "2027-02-21", **LOOKED}
    raw = club(MAKES[0], chain=running | {look: answer}, link={"count": "1"}, trial={"left_in_use": "yes"})
    found = fit(raw).runs_now
    assert found is not None
    assert found.worst == rung


def test_a_look_from_before_it_was_closed_is_none() -> None:
    running = {"in_use": "yes", "in_use_since": "2027-02-20", "looked_on": "2027-02-19", **LOOKED}
    raw = club(MAKES[0], chain=running, link={"count": "1"}, trial={"left_in_use": "yes"})
    found = fit_table(unchecked(raw), ["chain"], ["own"])[0].runs_now
    assert found is not None
    assert (found.best, found.worst, len(found.not_looked)) == (0, 1, 6)
