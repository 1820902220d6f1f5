"""A club with one caliper gets verdicts for the links that run, and proper ones for what came in the same box."""

from collections.abc import Mapping
from copy import deepcopy
from functools import cache

import pytest

from generator.compute.fit.fits import fit_table
from generator.compute.fit.result import PairFit
from generator.compute.next_act import decided, next_act
from generator.model.dataset import Dataset
from generator.model.shipped import PROPER
from generator.render.explain_text import explain_text
from tests.clubs import checked, errors_of
from tests.handbook import demo, demo_fits
from tests.others_club import Fields, exact_club
from tests.small_club import SMALL_CLUB


@cache
def club() -> Dataset:
    return checked(SMALL_CLUB)


@cache
def fits() -> Mapping[tuple[str, str], PairFit]:
    return {(fit.chain, fit.link): fit for fit in fit_table(club())}


def test_it_is_what_twenty_minutes_write_down() -> None:
    assert errors_of(SMALL_CLUB) == []
    assert (len(SMALL_CLUB["bikes"]), len(SMALL_CLUB["links"]), len(SMALL_CLUB["club"]["instruments"])) == (
        4,
        7,
        1,
    )


def test_every_joint_that_runs_has_its_verdict() -> None:
    for chain in club().chains.values():
        fit = fits()[chain.id, chain.record.own_link or ""]
        assert fit.runs_now is not None
        assert (fit.runs_now.best, fit.runs_now.worst) == (PROPER, PROPER), chain.id
        assert decided(fit)


def test_its_own_spare_with_a_full_dry_fit_is_proper() -> None:
    for chain, link, strength in (
        ("bob", "spare-bob", "dry-fitted"),
        ("cas", "spare-cas", "dry-fitted"),
        ("ann", "spare-ann", "by-make"),
    ):
        fit = fits()[chain, link]
        assert (fit.best, fit.worst, fit.strength) == (PROPER, PROPER, strength), link


def test_what_goes_by_make_says_so_and_names_nothing_it_lacks() -> None:
    """Letters alike, most of it unread: it is the make that makes it proper, until somebody has tried it."""
    fit = fits()["ann", "spare-ann"]
    assert fit.option is not None
    assert any(check.by_make and check.missing for check in fit.option.checks)
    told = " ".join(explain_text(club(), fit, None).split())
    assert "proper by make, not tried yet" in told
    assert "By make, not tried: it counts as get-home until somebody has dry-fitted it." in told
    assert "By make, not read:" in told
    assert "Not known:" not in told


@pytest.mark.parametrize(("unread", "strength"), [({}, "by-numbers"), ({"pin_reach": None}, "by-make")])
def test_the_make_is_named_only_where_the_readings_leave_something_open(
    unread: Fields, strength: str
) -> None:
    letters: Fields = {"letters": "KR 520"}
    (fit,) = fit_table(exact_club(chain=letters, link={**letters, **unread}))
    assert (fit.word, fit.strength) == ("proper", strength)


def test_a_length_that_is_read_beyond_its_limit_is_explained_by_the_make() -> None:
    """A groove read 0.35 mm wider than its new clip could be within the 0.25 mm of its packet."""
    fit = next(fit for fit in demo_fits() if (fit.chain, fit.link) == ("red-520h", "tin-7-wide"))
    told = " ".join(explain_text(demo(), fit, None).split())
    assert "0.35 mm wider than the clip. By make, where the readings leave it open: clip enters" in told


def test_what_is_open_asks_for_nothing_the_club_does_not_own() -> None:
    """It has no feelers and no tape."""
    for fit in fits().values():
        act = next_act(club(), fit)
        if act is not None and act.kind == "measure":
            assert act.using == "caliper"


def test_no_link_made_for_another_chain_is_called_proper() -> None:
    for (chain, link), fit in fits().items():
        if club().links[link].record.came_with != chain:
            assert fit.worst != PROPER, (chain, link)


def test_reading_a_room_that_sets_no_limit_worsens_nothing() -> None:
    """A joint may stick out by 2.0 mm, and by 1.0 mm less than the room: from 3.0 mm on only the 2.0 mm counts."""
    raw = deepcopy(SMALL_CLUB)
    rooms = ("clearance_clip_side", "clearance_other_side")
    for room, unharmed in (("3.1 +- 0.05 mm", True), ("2.9 +- 0.05 mm", False)):
        for bike in raw["bikes"].values():
            bike |= dict.fromkeys(rooms, room)
        fit = next(fit for fit in fit_table(checked(raw)) if (fit.chain, fit.link) == ("bob", "spare-bob"))
        assert fit.option is not None
        known = {
            check.id: check for check in fit.option.checks if check.id in ("stick-out", "stick-out-other")
        }
        assert len(known) == 2
        assert {(check.best, check.worst) == (PROPER, PROPER) for check in known.values()} == {unharmed}
        assert (fit.worst == PROPER) is unharmed
