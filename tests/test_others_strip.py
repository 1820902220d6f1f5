"""Strips in chains, and links with one pin in each, worked by hand or reckoned a second way.

Outside sources: that parts of another width or roller need other sprockets is from a gauge maker's page; the
limits of elongation and bush ends are those of the design notes; all other bands are common practice, no source.
"""

from dataclasses import replace
from typing import Any

import pytest

from generator.compute.fit.fits import explain_pair
from generator.compute.others import neighbours
from generator.compute.others.clip_links import clip_link_fits
from generator.compute.others.neighbours import neighbour_fits
from generator.compute.others.result import NeighbourFit, PartFit
from generator.compute.others.strip_as_chain import Splice, strips_as_chains
from generator.compute.others.strips import strip_fits
from generator.model.dataset import Dataset
from tests.clubs import exactly, unchecked
from tests.handbook import demo, demo_others
from tests.others_club import BIKE, Fields, decided, exact_club, fits, raw_club, slack_mm


def strip_fit(**changes: Fields) -> PartFit:
    (fit,) = strip_fits(exact_club(**changes))
    return fit


def joining(dataset: Dataset) -> NeighbourFit:
    (fit,) = neighbour_fits(dataset, strip_fits(dataset), clip_link_fits(dataset))
    return fit


def test_a_strip_of_the_same_chain_is_proper() -> None:
    # bores, bush ends and outer plates alike: slack of the bores 0.10; elongation 0.1 - 0.4 = -0.3, each +-0.05
    # for the digits not written: slack at worst 0.5 - 0.4 = 0.1 per cent, as read 0.2
    fit = strip_fit()
    assert decided(fit) == ("proper", "strip-bush-bore")
    assert slack_mm(fit) == 0.1


@pytest.mark.parametrize(
    ("strip", "word", "check"),
    [
        # 16.10 - 15.875 = 0.225
        ({"pitch": "16.10"}, "no-go", "strip-pitch"),
        # 10.35 - 10.15 = 0.20: over 0.15, up to 0.30
        ({"roller_diameter": "10.35"}, "get-home", "strip-roller"),
        # 10.50 - 10.15 = 0.35
        ({"roller_diameter": "10.50"}, "no-go", "strip-roller"),
        # 6.15 - 6.35 = -0.20: the teeth go in tight
        ({"inner_width": "6.15"}, "get-home", "strip-inner-width"),
        # 6.00 - 6.35 = -0.35
        ({"inner_width": "6.00"}, "no-go", "strip-inner-width"),
        # 5.45 - 5.30 = 0.15: over 0.10, up to 0.25
        ({"bush_bore": "5.45"}, "get-home", "strip-bush-bore"),
        # 11.41 - 11.25 = 0.16: over 0.15, up to 0.40
        ({"over_bush_ends": "11.41"}, "get-home", "neighbour-bush-ends"),
        # 11.66 - 11.25 = 0.41
        ({"over_bush_ends": "11.66"}, "no-go", "neighbour-bush-ends"),
        # 13.25 - 13.05 = 0.20: over 0.15, up to 0.50
        ({"between_outer_plates": "13.25"}, "get-home", "strip-outer-plates"),
        ({"seal": "X"}, "get-home", "strip-seal"),
        ({"kind": "plain", "seal": "none"}, "get-home", "strip-kind"),
    ],
)
def test_worked_strips(strip: Fields, word: str, check: str) -> None:
    assert decided(strip_fit(strip=strip)) == (word, check)


@pytest.mark.parametrize(
    ("chain", "strip", "best", "worst"),
    [
        ("0.40", "0.10", 0, 0),
        ("0.60", "0.08", 1, 1),
        ("0.6", "0.1", 0, 0),
        ("0.90", "0.10", 1, 1),
        ("0.99", "-", 0, 2),
        ("unknown", "0.10", 0, 2),
        ("0.95", "2.90", 1, 1),
        ("0.95", "3.00", 2, 2),
    ],
)
def test_difference_of_elongation(chain: str, strip: str, best: int, worst: int) -> None:
    """Up to 0.5 per cent proper, up to 2 get-home, above last-resort: design notes."""
    changes: dict[str, Fields] = {
        "chain": {"elongation": chain},
        "strip": {"elongation": None if strip == "-" else strip},
    }
    fit = strip_fit(**changes)
    assert (fit.best, fit.worst) == (best, worst)


def test_elongation_not_written_is_open_and_asked_for() -> None:
    fit = strip_fit(strip={"elongation": None})
    assert [(reading.kind, reading.field) for reading in fit.missing] == [("strip", "elongation")]
    assert fit.measure_next is not None
    assert fit.measure_next.reading.field == "elongation"


def test_a_chain_beyond_its_limit_caps_the_strip_at_get_home() -> None:
    """The limit of the club's rule, 1 per cent sealed; the chain at 1.30, the strip at 1.20."""
    fit = strip_fit(chain={"elongation": "1.30"}, strip={"elongation": "1.20"})
    assert decided(fit) == ("get-home", "chain-worn")


def test_rollers_and_width_count_where_both_were_read() -> None:
    fit = strip_fit(strip={"roller_diameter": None, "inner_width": None})
    assert fit.word == "proper"
    assert not {"strip-roller", "strip-inner-width"} & {check.id for check in fit.checks}


def test_one_inner_link_alone_has_no_outer_plates() -> None:
    fit = strip_fit(strip={"pitches": "1", "between_outer_plates": None, "plate_thickness": None})
    assert fit.word == "proper"
    assert "strip-outer-plates" not in {check.id for check in fit.checks}
    longer = strip_fit(strip={"between_outer_plates": None, "plate_thickness": None})
    assert (longer.best, longer.worst) == (0, 3)


@pytest.mark.parametrize(("code", "word"), [("520H", "get-home"), ("525", "no-go"), ("428", "no-go")])
def test_size_codes(code: str, word: str) -> None:
    strip = {"size_code": code, "pitch": None, "roller_diameter": None, "inner_width": None}
    assert strip_fit(strip=strip).word == word


@pytest.mark.parametrize(
    "changes",
    [
        {"strip": {"size_code": "unknown"}},
        {"strip": {"kind": "unknown"}},
        {"chain": {"kind": "unknown"}},
        {"chain": {"size_code": "unknown"}},
        {"chain": {"state": "modified"}},
    ],
)
def test_no_verdict(changes: dict[str, Fields]) -> None:
    fit = strip_fit(**changes)
    assert (fit.word, fit.checks) == ("cannot-judge", ())
    dataset = exact_club(**changes)
    assert neighbour_fits(dataset, strip_fits(dataset), clip_link_fits(dataset)) == ()


def test_between_two_like_ends_a_link_is_what_it_is_on_the_chain() -> None:
    fit = joining(exact_club())
    assert fit.on_chain is not None
    assert fit.on_strip is not None
    assert (fit.word, fit.clip, fit.seals) == ("proper", "c10", "fitted")
    assert fit.on_chain.deciding.clearance == fit.on_strip.deciding.clearance


def test_the_worse_joint_counts() -> None:
    # on the strip: 13.20 - 13.45 = -0.25, the groove is not clear: get-home; on the chain 0.15: proper
    fit = joining(exact_club(strip={"between_outer_plates": "13.45"}))
    assert (fit.word, fit.decided_by) == ("get-home", "joint on the strip")
    assert fit.deciding_check is not None
    assert fit.deciding_check.id == "clip-goes-on"


def test_unlike_bush_ends_count_as_well() -> None:
    # 11.45 - 11.25 = 0.20: over 0.15; neither joint asks for the bush ends while the seals are in
    fit = joining(exact_club(strip={"over_bush_ends": "11.45"}))
    assert (fit.word, fit.decided_by) == ("get-home", "bush ends")


def test_missing_readings_are_named_by_the_part_that_lacks_them() -> None:
    fit = joining(exact_club(strip={"bush_bore": None}))
    assert fit.word == "measure-first"
    assert fit.measure_next is not None
    reading = fit.measure_next.reading
    assert (reading.kind, reading.id, reading.field) == ("strip", "strip", "bush_bore")
    lent = joining(exact_club(chain={"over_riveted_pins": None}))
    assert lent.measure_next is not None
    assert (lent.measure_next.reading.kind, lent.measure_next.reading.id) == ("chain", "base")


def test_a_single_inner_link_takes_the_outer_plates_of_the_chain() -> None:
    fit = joining(exact_club(strip={"pitches": "1", "between_outer_plates": None, "plate_thickness": None}))
    assert fit.word == "proper"


def test_links_nobody_can_judge_are_refused_here_too() -> None:
    fit = joining(exact_club(link={"condition": "unknown"}))
    assert (fit.word, fit.refused) == ("cannot-judge", "the condition of the link is not known")


def test_a_strip_that_is_no_go_has_no_joints() -> None:
    dataset = exact_club(strip={"pitch": "16.10"})
    assert neighbour_fits(dataset, strip_fits(dataset), clip_link_fits(dataset)) == ()


def several() -> Dataset:
    """Two links and two clips on a chain and a strip that differ a little."""
    raw: dict[str, Any] = raw_club("0.02", strip={"between_outer_plates": "13.15", "over_bush_ends": "11.30"})
    raw["clips"]["c08"] = {**raw["clips"]["c10"], "thickness": "0.85 ± 0.02 mm", "history": "off-once"}
    raw["links"]["long"] = {**raw["links"]["own"], "pin_reach": "15.45 ± 0.02 mm"}
    raw["bikes"]["bike"] = {**BIKE, "clearance_clip_side": "4.0 ± 0.1 mm"}
    return unchecked(raw)


@pytest.mark.parametrize("link", ["own", "long"])
def test_against_both_joints_explained_one_by_one(link: str) -> None:
    """A second way: every option of both joints, the worse of each, the best of those."""
    dataset = several()
    splice = Splice(dataset.strips["strip"], dataset.chains["base"])
    on_chain = {_way(o): o for o in explain_pair(dataset, "base", link)[1]}
    seen, (as_chain,) = strips_as_chains(dataset, [splice])
    alone = replace(seen, chains={splice.id: as_chain})
    on_strip = {_way(o): o for o in explain_pair(alone, splice.id, link)[1]}
    assert on_chain.keys() == on_strip.keys()
    assert len(on_chain) == 6
    (fit,) = (
        f for f in neighbour_fits(dataset, strip_fits(dataset), clip_link_fits(dataset)) if f.link == link
    )
    bush = fit.bush_ends
    assert bush is not None
    worst = min(max(on_chain[w].worst, on_strip[w].worst) for w in on_chain)
    best = min(max(on_chain[w].best, on_strip[w].best) for w in on_chain)
    assert (fit.best, fit.worst) == (max(best, bush.best), max(worst, bush.worst))


def _way(option: Any) -> tuple[Any, ...]:
    return option.clip, option.seals, option.seal_set, option.seat, option.spacer


def test_a_strip_is_joined_as_if_the_club_had_no_other(monkeypatch: pytest.MonkeyPatch) -> None:
    """How often a link was pressed on must not be counted once for each strip its chain could take."""
    every, clip_links = demo_others().neighbours, demo_others().clip_links
    monkeypatch.setattr(neighbours, "SPLICED_AT_A_TIME", 1)
    shared = {fit.chain for fit in every if fit.best is not None}
    assert any(len({fit.strip for fit in every if fit.chain == chain}) > 1 for chain in shared)
    for id_, strip in demo().strips.items():
        dataset = replace(demo(), strips={id_: strip})
        alone = neighbour_fits(dataset, strip_fits(dataset), clip_links)
        assert alone == tuple(fit for fit in every if fit.strip == id_)


def test_exact_numbers_leave_nothing_open() -> None:
    dataset = exactly(several())
    assert all(
        fit.best == fit.worst for fit in neighbour_fits(dataset, strip_fits(dataset), clip_link_fits(dataset))
    )


def test_a_worn_chain_has_the_pitch_of_its_size_code() -> None:
    """Wear and pitch are separate: 1.6 % of 15.875 is 0.25, more than the 0.20 that codes may differ by."""
    (worn,) = fits(chain={"pitch": "16.13"}).strips
    (new,) = fits().strips
    assert (worn.best, worn.worst, worn.deciding) == (new.best, new.worst, new.deciding)
