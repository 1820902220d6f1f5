"""Loose side plates on links, each case worked by hand beside it.  All bands: common practice, no source.

Outside sources: that a screw link takes no other plate is from a magazine test; that drilled holes end a press
fit is common practice, no source.
"""

from fractions import Fraction

import pytest

from generator.compute.others.plates import plate_fits
from generator.compute.others.result import PartFit
from generator.model.shipped import Rule
from tests.clubs import shelf
from tests.others_club import Fields, decided, exact_club, slack_mm


def plate_fit(**changes: Fields) -> PartFit:
    (fit,) = plate_fits(exact_club(**changes))
    return fit


def test_back_on_its_own_link_it_is_proper() -> None:
    # stop 2.1 - 2.1 = 0, limits +-0.10: slack 0.10; holes 0, limits +-0.10: slack 0.10; section 2.1 - 0.93 x 2.1 =
    # 0.147; height 0, limit 0.3: 0.3; pitch 0, limit 0.20: 0.20; the first in rule order decides
    fit = plate_fit()
    assert decided(fit) == ("proper", "plate-stop")
    assert slack_mm(fit) == 0.1


def test_from_another_link_it_is_get_home_at_best() -> None:
    raw_other = plate_fit(plate={"from_link": None})
    assert (raw_other.best, raw_other.worst) == (0, 1)
    assert raw_other.measure_next is not None
    assert raw_other.measure_next.reading.field == "from_link"
    other = plate_fit(plate={"from_link": "elsewhere"})
    assert decided(other) == ("get-home", "plate-origin")


@pytest.mark.parametrize("condition", ["drilled", "oval", "cracked"])
def test_holes_that_do_not_hold_are_no_go(condition: str) -> None:
    """Drilled-out holes destroy the press fit: no-go; common practice, no source."""
    assert decided(plate_fit(plate={"condition": condition})) == ("no-go", "plate-condition")


@pytest.mark.parametrize(
    ("changes", "reason"),
    [
        ({"plate": {"condition": "unknown"}}, "the condition of the plate is not known"),
        ({"plate": {"condition": "modified"}}, "the plate was modified"),
        ({"plate": {"size_code": "unknown"}}, "the size code of the plate is not known"),
        ({"plate": {"plate_fit": "unknown"}}, "it is not known whether the plate slides on or needs a press"),
        ({"link": {"condition": "unknown"}}, "the condition of the link is not known"),
        (
            {"link": {"plate_fit": "unknown"}},
            "it is not known whether the link's plate slides on or needs a press",
        ),
    ],
)
def test_no_verdict(changes: dict[str, Fields], reason: str) -> None:
    fit = plate_fit(**changes)
    assert (fit.word, fit.refused) == ("cannot-judge", reason)


@pytest.mark.parametrize(
    ("thickness", "word", "check"),
    [
        # 2.1 - 2.2 = -0.10: the groove is still clear enough
        ("2.2", "proper", "plate-stop"),
        # 2.1 - 2.3 = -0.20
        ("2.3", "get-home", "plate-stop"),
        # 2.1 - 2.41 = -0.31: a joint just proper before hides its groove now
        ("2.41", "no-go", "plate-stop"),
        # 2.1 - 1.96 = 0.14; section 1.96 over 1.953
        ("1.96", "get-home", "plate-stop"),
        # section 1.60 under 0.80 x 2.1 = 1.68, over 0.65 x 2.1 = 1.365
        ("1.60", "last-resort", "plate-section"),
        # 1.36 under 1.365
        ("1.36", "no-go", "plate-section"),
    ],
)
def test_its_thickness_moves_the_stop_and_makes_the_section(thickness: str, word: str, check: str) -> None:
    assert decided(plate_fit(plate={"thickness": thickness})) == (word, check)


def test_on_a_rivet_link_it_moves_the_flare() -> None:
    # 2.1 - 1.9 = 0.20 more pin to flare
    link = {"closure": "rivet", "clip": None, "pin_kind": "hollow"}
    assert decided(plate_fit(link=link, plate={"thickness": "1.9"})) == ("get-home", "plate-flare")


def test_holes_not_as_far_apart_as_the_pins() -> None:
    # 16.0 - 15.875 = 0.125; 16.13 - 15.875 = 0.255
    assert decided(plate_fit(plate={"hole_spacing": "16.0"})) == ("get-home", "plate-holes")
    assert decided(plate_fit(plate={"hole_spacing": "16.13"})) == ("no-go", "plate-holes")
    # not measured: the size codes of both say the pitch
    assert plate_fit(plate={"hole_spacing": None}).word == "proper"


def test_the_way_it_goes_on_must_be_that_of_the_link() -> None:
    assert decided(plate_fit(plate={"plate_fit": "slip"})) == ("get-home", "plate-fit")
    assert decided(plate_fit(link={"plate_fit": "slip"})) == ("get-home", "plate-fit")


def test_a_screw_link_takes_only_its_own() -> None:
    screw = {"closure": "screw", "clip": None}
    assert plate_fit(link=screw).word == "proper"
    assert decided(plate_fit(link=screw, plate={"from_link": "elsewhere"})) == ("no-go", "plate-screw")
    fit = plate_fit(link=screw, plate={"from_link": None})
    assert (fit.word, fit.best, fit.worst) == ("measure-first", 0, 3)


@pytest.mark.parametrize(
    ("code", "best", "worst"),
    [("520H", 1, 1), ("525", 1, 3), ("428", 3, 3)],
)
def test_a_plate_of_another_size_code(code: str, best: int, worst: int) -> None:
    """520H: heavy series of the same pitch; 525: same pitch, other width; 428: other pitch."""
    fit = plate_fit(plate={"size_code": code, "hole_spacing": None})
    assert (fit.best, fit.worst) == (best, worst)


def test_another_pitch_is_asked_nothing_else() -> None:
    fit = plate_fit(plate={"size_code": "428"})
    assert {check.id for check in fit.checks} == {"plate-size", "pitch"}


def test_what_was_not_measured_stays_open() -> None:
    fit = plate_fit(plate={"thickness": None})
    assert (fit.best, fit.worst) == (0, 3)
    assert {(reading.kind, reading.field) for reading in fit.missing} == {("plate", "thickness")}
    gone = plate_fit(link={"side_plate_thickness": None})
    assert {(reading.kind, reading.field) for reading in gone.missing} == {("link", "side_plate_thickness")}


def band(rule: Rule, rung: str, side: str) -> Fraction:
    return Fraction(getattr(getattr(rule, rung), side))


def test_the_bands_of_the_stop_follow_from_those_of_the_joint() -> None:
    """A joint that is proper with its own plate stays get-home, or last-resort, with any shift in these bands."""
    joint, stop = shelf().joint_rules, shelf().other_rules["plate"]["plate-stop"]
    hides, backs = joint["clip-goes-on"], joint["backing"]
    least, most = band(hides, "proper", "low"), band(backs, "proper", "high")
    assert least + band(stop, "get_home", "low") == band(hides, "get_home", "low")
    assert most + band(stop, "get_home", "high") == band(backs, "get_home", "high")
    assert most + band(stop, "last_resort", "high") == band(backs, "last_resort", "high")


def test_the_bands_of_the_flare_follow_from_those_of_the_joint() -> None:
    flare, shift = shelf().joint_rules["flare-stand-out"], shelf().other_rules["plate"]["plate-flare"]
    for side in ("low", "high"):
        assert band(flare, "proper", side) + band(shift, "get_home", side) == band(flare, "get_home", side)
