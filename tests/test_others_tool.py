"""Tools on chains and links, and their keys, each case worked by hand beside it.

Outside sources: the bands are common practice, no source; that a size marked on a tool is that of the chain, so
that cradle and pin must both match, is from a how-to site; that a solid pin is harder to close, from a club forum.
"""

import pytest

from generator.compute.others.result import PartFit
from generator.compute.others.tools import key_fits, tool_fits
from tests.clubs import exactly, unchecked
from tests.others_club import Fields, decided, exact_club, raw_club

PRESS = {"does": "press", "takes": "520", "pin_diameter": None, "jaw_opening": "27"}
RIVETER = {"does": "riveter", "takes": "520", "pin_diameter": None, "jaw_opening": "29"}
RIVET_LINK = {"closure": "rivet", "clip": None, "pin_kind": "hollow", "pin_length": "16.25"}


def tool_fit(**changes: Fields) -> PartFit:
    (fit,) = tool_fits(exact_club(**changes))
    return fit


def test_a_breaker_opens_the_chain() -> None:
    # jaw 24 - 19.4 = 4.6, limit 0.5: slack 4.1; pin 5.24 - 3.8 = 1.44, limit 0.10: slack 1.34
    fit = tool_fit()
    assert decided(fit) == ("proper", "tool-pushing-pin")
    assert fit.has("chain", "base")


@pytest.mark.parametrize(
    ("tool", "word", "check"),
    [
        # 19.8 - 19.4 = 0.4: goes in, without room to spare
        ({"jaw_opening": "19.8"}, "get-home", "tool-jaw-chain"),
        # 19.3 - 19.4 = -0.1
        ({"jaw_opening": "19.3"}, "no-go", "tool-jaw-chain"),
        # 5.24 - 5.20 = 0.04: thinner, but hardly, and less than the 0.1 asked
        ({"pin_diameter": "5.20"}, "no-go", "tool-pushing-pin"),
        # 5.24 - 5.30 = -0.06: it jams in the plate
        ({"pin_diameter": "5.30"}, "no-go", "tool-pushing-pin"),
        ({"takes": "428"}, "no-go", "tool-size"),
        ({"takes": "520H"}, "get-home", "tool-size"),
    ],
)
def test_worked_breakers(tool: Fields, word: str, check: str) -> None:
    assert decided(tool_fit(tool=tool)) == (word, check)


def test_the_size_on_the_tool_alone_is_not_enough() -> None:
    """How-to site: a size marked on a tool is the chain size, not the pin; match cradle and pin both."""
    assert tool_fit(tool={"takes": "520", "pin_diameter": "5.5"}).word == "no-go"


def test_a_pocket_breaker_pin_of_common_size_suits_520_and_428() -> None:
    """From memory of the trade, no source: hardened pins of pocket breakers are 2.5 to 4 mm, pins of 428 about 4.5."""
    for pushing in ("2.5", "4.0"):
        assert tool_fit(tool={"pin_diameter": pushing}).word == "proper"
    small, pins = {"size_code": "428", "bush_bore": "4.55"}, {"size_code": "428", "pin_diameter": "4.45"}
    tool = {"takes": "428", "pin_diameter": "4.0"}
    assert tool_fit(chain=small, link=pins, tool=tool).word == "proper"


def test_without_the_own_link_the_size_code_says_the_pin() -> None:
    fit = tool_fit(chain={"own_link": None})
    pin = next(check for check in fit.checks if check.id == "tool-pushing-pin")
    found = {(reading.kind, reading.field) for reading in pin.rests_on}
    assert found == {("tool", "pin_diameter"), ("size", "pin_diameter")}


def test_a_press_takes_the_link() -> None:
    # 27 - 17.3 - 2 x 2.1 = 5.5, limit 1.0
    fit = tool_fit(tool=PRESS)
    assert decided(fit) == ("proper", "tool-jaw-link")
    # 22.3 - 21.5 = 0.8: over 0.5; 21.9 - 21.5 = 0.4
    assert tool_fit(tool=PRESS | {"jaw_opening": "22.3"}).word == "get-home"
    assert tool_fit(tool=PRESS | {"jaw_opening": "21.9"}).word == "no-go"


def test_a_plate_that_slides_on_needs_no_press() -> None:
    assert tool_fits(exact_club(tool=PRESS, link={"plate_fit": "slip"})) == ()


def test_a_riveter_closes_rivet_links_only() -> None:
    assert tool_fits(exact_club(tool=RIVETER)) == ()
    assert tool_fit(tool=RIVETER, link=RIVET_LINK).word == "proper"


@pytest.mark.parametrize(("pins", "best", "worst"), [("hollow", 0, 0), ("solid", 1, 1), ("unknown", 0, 1)])
def test_hollow_and_solid_pins(pins: str, best: int, worst: int) -> None:
    """Club forum: a solid pin is harder to close."""
    fit = tool_fit(tool=RIVETER, link=RIVET_LINK | {"pin_kind": pins})
    assert (fit.best, fit.worst) == (best, worst)
    asked = fit.measure_next.reading.field if fit.measure_next else None
    assert asked == ("pin_kind" if pins == "unknown" else None)


def test_a_tool_without_its_key_is_dead_weight() -> None:
    """Common practice, no source: the key is the part that is forgotten."""
    (fit,) = key_fits(exact_club())
    assert (fit.word, fit.id_of("key")) == ("proper", "key")
    (gone,) = key_fits(exact_club(key={"count": "0"}))
    assert decided(gone) == ("no-go", "key-present")
    assert decided(tool_fit(key={"count": "0"})) == ("no-go", "key-present")


def test_a_key_nobody_wrote_down_is_asked_for() -> None:
    (fit,) = key_fits(exact_club(tool={"key": None}))
    assert (fit.word, fit.best, fit.worst) == ("measure-first", 0, 3)
    assert fit.measure_next is not None
    assert (fit.measure_next.reading.kind, fit.measure_next.reading.field) == ("tool", "key")


def test_what_is_held_in_the_hand_needs_none() -> None:
    pliers = {"does": "pliers", "takes": None, "key": None, "jaw_opening": None, "pin_diameter": None}
    dataset = exact_club(tool=pliers)
    assert key_fits(dataset) == ()
    assert tool_fits(dataset) == ()
    # a holder for one size is asked about its size
    assert tool_fit(tool=pliers | {"takes": "520"}).word == "proper"
    assert tool_fit(tool=pliers | {"takes": "428"}).word == "no-go"


def test_size_codes_not_written_down_leave_it_open() -> None:
    fit = tool_fit(tool={"takes": None})
    assert (fit.word, fit.best, fit.worst) == ("measure-first", 0, 3)
    assert fit.measure_next is not None
    assert fit.measure_next.reading.field == "takes"


def test_what_was_not_measured_stays_open() -> None:
    fit = tool_fit(tool={"jaw_opening": None})
    assert (fit.best, fit.worst) == (0, 3)
    assert {(reading.kind, reading.field) for reading in fit.missing} == {("tool", "jaw_opening")}


@pytest.mark.parametrize(
    ("changes", "reason"),
    [
        ({"chain": {"size_code": "unknown"}}, "the size code of the chain is not known"),
        ({"chain": {"state": "modified"}}, "the chain was modified"),
        ({"tool": PRESS, "link": {"size_code": "unknown"}}, "the size code of the link is not known"),
        (
            {"tool": PRESS, "link": {"plate_fit": "unknown"}},
            "it is not known whether the link's plate slides on or needs a press",
        ),
    ],
)
def test_no_verdict(changes: dict[str, Fields], reason: str) -> None:
    assert tool_fit(**changes).refused == reason


def test_one_key_turns_several_tools() -> None:
    raw = raw_club()
    raw["tools"]["press"] = {"does": "press", "takes": "520", "key": "key", "jaw_opening": "27 ± 0.1 mm"}
    found = {fit.id_of("tool"): fit.word for fit in key_fits(exactly(unchecked(raw)))}
    assert found == {"breaker": "proper", "press": "proper"}
