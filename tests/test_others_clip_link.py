"""Clips on links, each case worked by hand beside it; the limits are those of the joint.

Outside sources: the bands are common practice, no source, as are the rules of thumb about clips of another link,
about worn and used clips; that a clip is not used again is from an online article and an owners' forum.
"""

from typing import Any

import pytest

from generator.compute.others.clip_links import clip_link_fits
from generator.compute.others.result import PartFit
from tests.clubs import exactly, unchecked
from tests.others_club import Fields, decided, exact_club, raw_club, slack_mm
from tests.pairs import fact_club, facts


def clip_fit(**changes: Fields) -> PartFit:
    (fit,) = clip_link_fits(exact_club(**changes))
    return fit


def test_its_own_clip_is_proper_and_the_closest_limit_decides() -> None:
    # entry 1.10 - 1.00 = 0.10, limits 0.02 and 0.25: slack 0.08; seat 3.80 - 3.90 = -0.10: slack 0.20;
    # mouth 3.90 - 3.40 = 0.50, limit 0.30: slack 0.20; wear 1.00 - 0.80 = 0.20; floor 1.00 - 0.60 = 0.40
    fit = clip_fit()
    assert decided(fit) == ("proper", "clip-entry")
    assert slack_mm(fit) == 0.08
    assert fit.missing == ()


@pytest.mark.parametrize(
    ("clip", "word", "check"),
    [
        # 1.10 - 1.25 = -0.15: it does not go in
        ({"thickness": "1.25", "thickness_new": "1.25"}, "no-go", "clip-entry"),
        # 1.10 - 1.10 = 0: get-home asks for 0, proper for 0.02
        ({"thickness": "1.10", "thickness_new": "1.10"}, "get-home", "clip-entry"),
        # 1.10 - 0.62 = 0.48: over 0.45, up to 0.60
        ({"thickness": "0.62", "thickness_new": "0.62"}, "last-resort", "clip-entry"),
        # 0.72 of 1.00: under 0.80, over 0.65; entry 1.10 less 0.72 to 1.00 is get-home at worst, so that wear decides
        ({"thickness": "0.72"}, "get-home", "clip-wear"),
        # 0.60 of 1.00: under 0.65, over 0.50; entry 0.10 to 0.50
        ({"thickness": "0.60"}, "last-resort", "clip-wear"),
        # 4.16 - 3.90 = 0.26: over 0.25
        ({"seat_width": "4.16"}, "no-go", "clip-seat"),
        # 3.90 - 3.80 = 0.10: get-home asks for 0.10
        ({"mouth": "3.80"}, "get-home", "clip-mouth"),
        # 16.10 - 15.875 = 0.225: over 0.15, up to 0.30
        ({"pin_spacing": "16.10"}, "get-home", "clip-spacing"),
        ({"history": "off-once"}, "get-home", "clip-history"),
        ({"history": "bent"}, "no-go", "clip-history"),
    ],
)
def test_worked_clips(clip: Fields, word: str, check: str) -> None:
    assert decided(clip_fit(clip=clip)) == (word, check)


def test_a_bow_takes_up_some_of_the_play() -> None:
    # 1.10 - 0.75 = 0.35: over 0.25, but under 0.25 + 0.15 of bow
    thin = {"thickness": "0.75", "thickness_new": "0.75"}
    assert decided(clip_fit(clip=thin)) == ("get-home", "clip-entry")
    assert clip_fit(clip=thin | {"bow": "0.15"}).word == "proper"


def test_too_thin_is_no_go_whatever_it_was_new() -> None:
    # 0.59 is under the floor of 0.60; groove 0.70, so that it enters with 0.11
    link = {"groove_width": "0.70"}
    fit = clip_fit(clip={"thickness": "0.59", "thickness_new": "0.59"}, link=link)
    assert decided(fit) == ("no-go", "clip-floor")


def test_what_is_not_known_stays_open_and_names_the_reading() -> None:
    # not new out of one packet
    fit = clip_fit(link={"groove_diameter": None, "condition": "fitted-once"})
    assert (fit.best, fit.worst) == (0, 3)
    assert {(reading.kind, reading.field) for reading in fit.missing} == {("link", "groove_diameter")}
    assert fit.measure_next is not None
    assert fit.measure_next.reading.field == "groove_diameter"


def test_a_clip_nobody_knows_the_history_of_asks_for_it() -> None:
    fit = clip_fit(clip={"history": "unknown"})
    assert (fit.word, fit.best, fit.worst) == ("measure-first", 0, 3)
    assert fit.measure_next is not None
    assert (fit.measure_next.reading.kind, fit.measure_next.reading.field) == ("clip", "history")


def test_a_clip_without_its_new_thickness_is_open_where_it_is_not_new() -> None:
    used = {"condition": "fitted-once"}
    assert clip_fit(clip={"thickness_new": None, "history": "never-off"}, link=used).word == "measure-first"
    # what is new is as thick as when it was new
    assert clip_fit(clip={"thickness_new": None}).word == "proper"


@pytest.mark.parametrize("condition", ["unknown", "modified"])
def test_no_verdict_on_a_link_nobody_can_vouch_for(condition: str) -> None:
    fit = clip_fit(link={"condition": condition})
    assert (fit.word, fit.best, fit.checks) == ("cannot-judge", None, ())
    assert fit.refused is not None
    assert "link" in fit.refused


def test_no_verdict_without_the_size_code_of_the_link() -> None:
    assert clip_fit(link={"size_code": "unknown"}).refused == "the size code of the link is not known"


def test_riveted_links_take_no_clip() -> None:
    assert clip_link_fits(exact_club(link={"closure": "rivet", "clip": None})) == ()


def test_a_clip_of_another_pitch_is_asked_nothing_else() -> None:
    # 12.70 - 15.875 = -3.175
    fit = clip_fit(clip={"pin_spacing": "12.70"})
    assert [check.id for check in fit.checks] == ["clip-spacing"]
    assert fit.word == "no-go"


def tried(**seen: str) -> PartFit:
    raw: dict[str, Any] = raw_club(link={"groove_diameter": None})
    raw["trials"] = {"seen": {"chain": "base", "link": "own", "seals": "fitted", "on": "2027-02-01", **seen}}
    (fit,) = clip_link_fits(exactly(unchecked(raw)))
    return fit


def test_new_out_of_one_packet_needs_no_thin_jaws() -> None:
    # what nobody read of them is by make (common practice, no source)
    unread = {"seat_width": None, "mouth": None}
    assert clip_fit(clip=unread).word == "proper"
    assert clip_fit(clip=unread | {"history": "off-once"}).word == "measure-first"
    # a dry fit with it spends the clip, and shows no seat
    assert tried(enters="yes", clip_on="yes", bends="yes").word == "get-home"


def test_a_dry_fit_that_contradicts_the_readings_is_refused() -> None:
    raw: dict[str, Any] = raw_club(clip={"thickness": "1.25", "thickness_new": "1.25"})
    raw["trials"] = {
        "seen": {"chain": "base", "link": "own", "seals": "fitted", "on": "2027-02-01", "clip_on": "yes"}
    }
    (fit,) = clip_link_fits(exactly(unchecked(raw)))
    assert fit.refused == "the readings and the dry fit contradict each other"


CLIP_FACTS = sorted(id_ for id_ in facts() if id_.startswith("clip-"))


@pytest.mark.parametrize("place", ["low", "middle", "high"])
@pytest.mark.parametrize("fact", CLIP_FACTS)
def test_trade_facts_about_the_clip_of_another_link(fact: str, place: str) -> None:
    """Common practice, no source: proper only where thickness, groove and pitch match, else no-go or loose."""
    dataset = exactly(unchecked(fact_club(facts()[fact], place)))
    own = [fit for fit in clip_link_fits(dataset) if fit.has("clip", "clip") and fit.has("link", "link")]
    (fit,) = own
    assert fit.word in facts()[fact]["expect"]


def test_there_are_such_facts() -> None:
    assert len(CLIP_FACTS) >= 5


def test_a_used_clip_is_get_home_and_a_straight_one_no_better() -> None:
    """Never use a clip again: online article and owners' forum; straight and springy it is good to get home:
    common practice, no source."""
    assert decided(clip_fit(clip={"history": "off-once"})) == ("get-home", "clip-history")


@pytest.mark.parametrize(("percent", "proper"), [(79, False), (80, True)])
def test_scrap_under_80_per_cent_of_new(percent: int, proper: bool) -> None:
    """Proposal of the trade notes, no source: scrap at less than 80 % of new thickness."""
    thickness = f"{percent / 100:.2f}"
    # 1.05 less what is left up to what it was
    fit = clip_fit(clip={"thickness": thickness}, link={"groove_width": "1.05"})
    assert (fit.word == "proper") is proper


def test_a_clip_too_thick_for_one_groove_may_suit_another() -> None:
    """Common practice, no source."""
    thick = {"thickness": "1.25", "thickness_new": "1.25"}
    assert clip_fit(clip=thick).word == "no-go"
    assert clip_fit(clip=thick, link={"groove_width": "1.35"}).word == "proper"


def test_a_clip_rubbed_thin_still_serves_in_an_emergency() -> None:
    """Common practice, no source: rubbed thin on one face, it can still serve; then link and clip go."""
    fit = clip_fit(clip={"thickness": "0.70", "history": "never-off"}, link={"groove_width": "1.05"})
    assert fit.word == "get-home"
