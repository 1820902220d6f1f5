"""What a dry fit proves of a joint, and what it leaves to the readings; each case worked by hand.

Outside source: none; what a hand can tell is common practice, and the rungs are those of the fit rules.
"""

from typing import Any

import pytest

from generator.compute.fit.fits import explain_pair
from generator.compute.fit.result import CheckFit, OptionFit, PairFit
from tests.clubs import unchecked
from tests.others_club import Fields, raw_club

SEEN = {"enters": "yes", "clip_on": "yes", "clip_with": "pliers", "bends": "yes"}
USED = {"history": "off-once"}
SLIP: Fields = {"plate_fit": "slip"}
BARE: Fields = {"seals": "none"}


def tried(
    seals: str = "fitted", *, trial: Fields = SEEN, **changes: Fields
) -> tuple[PairFit, list[OptionFit]]:
    raw: dict[str, Any] = raw_club(**changes)
    written = {name: value for name, value in trial.items() if value is not None}
    raw["trials"] = {"seen": {"chain": "base", "link": "own", "seals": seals, "on": "2027-02-01", **written}}
    fit, options = explain_pair(unchecked(raw), "base", "own")
    return fit, list(options)


def option(seals: str, options: list[OptionFit]) -> OptionFit:
    return next(
        each for each in options if (each.seals, each.spacer) == (seals, None) and each.seat != "clip"
    )


def check(id_: str, seals: str, options: list[OptionFit]) -> CheckFit:
    return next(each for each in option(seals, options).checks if each.id == id_)


@pytest.mark.parametrize("pressed", [True, False])
def test_a_pressed_plate_may_lie_deeper_than_its_neighbours(pressed: bool) -> None:
    """stop - b3 is -0.25 at G 14.80: get-home by the readings, and the clip goes on over a plate pressed deep."""
    fit, options = tried(link={"pin_reach": "14.80", **({} if pressed else SLIP)})
    assert fit.refused is None
    goes_on = check("clip-goes-on", "fitted", options)
    assert (goes_on.best, goes_on.worst) == (1, 1)


def test_a_wide_reading_is_not_made_proper_by_a_clip_that_went_on() -> None:
    """14.90 +- 0.19: stop - b3 is -0.15 +- 0.19, from -0.34 to 0.04."""
    _, options = tried(link={"pin_reach": "14.90 ± 0.19 mm"})
    goes_on = check("clip-goes-on", "fitted", options)
    assert (goes_on.best, goes_on.worst) == (0, 1)


@pytest.mark.parametrize(
    ("clip", "id_", "rungs"),
    [
        # 3.90 - 3.75 = 0.15: under 0.30, over 0.10; it holds, as the hand found
        ({"mouth": "3.75", **USED}, "clip-mouth", (1, 1)),
        # 0.05 to 0.31; what holds is over 0.10
        ({"mouth": "3.72 ± 0.13 mm", **USED}, "clip-mouth", (0, 1)),
        # 4.10 - 3.90 = 0.20: over 0.10, under 0.25
        ({"seat_width": "4.10"}, "clip-seat", (1, 1)),
        # 16.075 - 15.875 = 0.20: over 0.15, under 0.30
        ({"pin_spacing": "16.075"}, "clip-spacing", (1, 1)),
    ],
)
def test_what_was_read_of_a_clip_is_not_made_better_by_a_hand(
    clip: Fields, id_: str, rungs: tuple[int, int]
) -> None:
    fit, options = tried(clip=clip)
    found = check(id_, "fitted", options)
    assert fit.refused is None
    assert (found.best, found.worst) == rungs


def test_what_thin_jaws_cannot_read_is_as_out_of_its_packet() -> None:
    _, options = tried(link={"groove_diameter": None}, clip={"pin_spacing": None})
    for id_ in ("clip-seat", "clip-mouth", "clip-spacing"):
        found = check(id_, "fitted", options)
        assert (found.best, found.worst) == (0, 0)


def test_of_a_used_clip_the_hand_shows_its_mouth_and_no_more() -> None:
    _, options = tried(link={"groove_diameter": None}, clip={"pin_spacing": None, **USED})
    found = {id_: check(id_, "fitted", options) for id_ in ("clip-mouth", "clip-seat", "clip-spacing")}
    assert [(each.best, each.worst) for each in found.values()] == [(0, 1), (0, 3), (0, 3)]


def test_a_clip_that_went_on_still_contradicts_a_mouth_too_wide_to_hold() -> None:
    """3.90 - 3.85 = 0.05; a new one that snapped on with pliers and stays has 0.30 or more."""
    fit, _ = tried(clip={"mouth": "3.85"})
    assert fit.refused is not None


def test_a_joint_tighter_than_its_neighbour_says_nothing_of_the_neighbour() -> None:
    """17.10 over the plates at the joint, 17.25 beside it: the plate lies 0.15 deep; b3 stays 13.05 +- 0.1, and the
    clip, stop 12.97, goes on -0.08 +- 0.1 from it."""
    link, chain = {"pin_reach": "14.97"}, {"between_outer_plates": "13.05 ± 0.1 mm"}
    seen = SEEN | {"width_at_joint": "17.10 ± 0.02 mm"}
    fit, options = tried(trial=seen, link=link, chain=chain)
    goes_on = check("clip-goes-on", "fitted", options)
    assert fit.refused is None
    assert (goes_on.best, goes_on.worst) == (0, 1)
    # the neighbour's own width does: 17.25 - 2 x 2.1 = 13.05
    beside = seen | {"width_at_neighbour": "17.25 ± 0.001 mm"}
    _, options = tried(trial=beside, link=link, chain=chain)
    assert check("clip-goes-on", "fitted", options).best == 1


def test_a_plain_plate_pushed_in_by_the_jaws_contradicts_nothing() -> None:
    """Without seals a sliding plate lies anywhere between bush ends and clip: 11.25 + 4.2 to 13.20 + 4.2."""
    for width, refused in (("15.60", False), ("17.30", False), ("15.30", True), ("17.60", True)):
        seen = SEEN | {"width_at_joint": f"{width} ± 0.02 mm"}
        fit, _ = tried("left-out", trial=seen, link=SLIP)
        assert (fit.refused is not None) is refused, width


PRESSED = SEEN | {
    "plate_on": "pressed",
    "width_at_joint": "17.25 ± 0.02 mm",
    "width_at_neighbour": "17.25 ± 0.02 mm",
}


@pytest.mark.parametrize(
    ("trial", "link", "read", "rungs"),
    [
        # room 4.0 and 9.0: proper to 2.0 beyond the riveted heads, get-home to 3.5 and 8.5
        (PRESSED, {}, None, (0, 3)),
        (PRESSED, {}, "1.95", (0, 0)),
        (PRESSED, {}, "1.96", (0, 1)),
        (PRESSED, {}, "0", (0, 0)),
        # seals that a hand presses give up to 0.25 less than a press makes them
        (SEEN, {}, "1.70", (0, 0)),
        (SEEN, {}, "1.71", (0, 1)),
        (SEEN, SLIP, "1.95", (0, 0)),
        (SEEN, SLIP, "1.96", (0, 1)),
    ],
)
@pytest.mark.parametrize(
    ("side", "lacks", "id_"),
    [("tips", "pin_length", "stick-out"), ("heads", "head_stand_out", "stick-out-other")],
)
def test_how_far_a_joint_was_seen_to_stand_out_bounds_it(
    trial: Fields, link: Fields, read: str | None, rungs: tuple[int, int], side: str, lacks: str, id_: str
) -> None:
    seen = trial if read is None else {**trial, f"{side}_beyond_heads": f"{read} ± 0.05 mm"}
    _, options = tried(trial=seen, link={**link, lacks: None})
    found = check(id_, "fitted", options)
    assert (found.best, found.worst) == rungs


@pytest.mark.parametrize(("seals", "rungs"), [("left-out", (0, 0)), ("fitted", (0, 3))])
def test_it_bounds_the_joint_as_it_was_tried(seals: str, rungs: tuple[int, int]) -> None:
    """Without seals it shifts: the same reading, and nothing of how it stands with its seals in."""
    seen = SEEN | {"tips_beyond_heads": "1.90 ± 0.05 mm", "heads_beyond_heads": "1.90 ± 0.05 mm"}
    _, options = tried("left-out", trial=seen, link={**SLIP, "pin_length": None, "head_stand_out": None})
    for id_ in ("stick-out", "stick-out-other"):
        found = check(id_, seals, options)
        assert (found.best, found.worst) == rungs


def test_what_it_stands_in_for_is_not_asked_for() -> None:
    """Of a chain whose own link nobody knows, the room on the bike is left to read."""
    trials = (PRESSED, PRESSED | {"tips_beyond_heads": "1.10 ± 0.05 mm"})
    unread: Fields = {"pin_length": None, "clearance_clip_side": None, "own_link": None}
    every = [tried(trial=each, link=unread, bike=unread, chain=unread)[1] for each in trials]
    asked = [
        {reading.field for reading in check("stick-out-unread", "fitted", options).missing}
        for options in every
    ]
    assert asked == [{"pin_length", "own_link", "clearance_clip_side"}, {"own_link", "clearance_clip_side"}]


@pytest.mark.parametrize(
    ("link", "written"),
    [(BARE, "none"), (BARE, "left-out"), ({}, "left-out"), ({}, "none")],
)
def test_no_seals_are_no_seals_by_either_word(link: Fields, written: str) -> None:
    """A clip that did not go on without seals speaks of the joint without seals, whatever the link came with."""
    _, options = tried(written, trial={"enters": "yes", "clip_on": "no"}, link=link)
    without = option("none" if link == BARE else "left-out", options)
    assert (without.best, without.worst, without.deciding) == (3, 3, "dry-fit")


def test_seals_hold_a_plate_that_would_swim_without_them() -> None:
    """stop - b2b is 13.20 - 11.25 = 1.95; with the seals in the plate stands still."""
    fit, _ = tried(trial=SEEN | {"plate_moves": "no"}, link=SLIP)
    assert fit.refused is None
    swims, _ = tried("left-out", trial=SEEN | {"plate_moves": "no"}, link={**SLIP, **BARE})
    assert swims.refused is not None


@pytest.mark.parametrize(("named", "tried_with"), [(None, set()), ("thin", {"thin"}), ("thick", {"thick"})])
def test_a_joint_packed_with_washers_speaks_of_those_washers(named: str | None, tried_with: set[str]) -> None:
    raw: dict[str, Any] = raw_club(link=BARE)
    for id_, thickness in (("thick", "0.85"), ("thin", "0.60")):
        raw["seals"][id_] = {"shape": "washer", "count": "4", "thickness": f"{thickness} ± 0.01 mm"}
    raw["trials"] = {
        "seen": {
            "chain": "base",
            "link": "own",
            "seals": "packed",
            "on": "2027-02-01",
            **SEEN,
            "plate_on": "pressed",
            "plates_level": "yes",
        }
        | ({"washers": named} if named else {})
    }
    _, options = explain_pair(unchecked(raw), "base", "own")
    packed = {each.seal_set for each in options if each.went_together}
    assert packed == tried_with


def test_seals_that_are_used_up_cannot_be_fitted() -> None:
    """Left out of a sealed chain the joint is get-home at best."""
    raw: dict[str, Any] = raw_club()
    raw["seals"]["o128"]["count"] = "0"
    fit, options = explain_pair(unchecked(raw), "base", "own")
    assert {each.seals for each in options} == {"left-out"}
    assert (fit.best, fit.worst) == (1, 1)
