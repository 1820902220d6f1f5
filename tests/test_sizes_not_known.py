"""A size code that is on no shelf: no verdict on that part anywhere, and nothing falls over."""

from typing import Any

import pytest

from generator.compute.all_fits import all_fits
from generator.compute.fit.fits import explain_pair
from generator.compute.next_act import next_act
from generator.model.reading import Reading
from generator.render.explain_text import explain_text
from tests.clubs import checked, unchecked
from tests.others_club import raw_club

SAID = "size code not known"


def club(stem: str, code: str) -> dict[str, Any]:
    raw = raw_club()
    for record in raw[stem].values():
        record["size_code"] = code
    return raw


@pytest.mark.parametrize("code", ["520MX", "999"])
@pytest.mark.parametrize("stem", ["chains", "links", "strips", "plates"])
def test_no_part_of_it_is_judged_and_all_else_is(stem: str, code: str) -> None:
    dataset = unchecked(club(stem, code))
    fits = all_fits(dataset)
    refused = [
        fit.refused or ""
        for fit in (*fits.pairs, *fits.others.strips, *fits.others.plates, *fits.others.tools)
    ]
    assert any(SAID in reason and code in reason for reason in refused)
    if stem in ("chains", "links"):
        assert all(SAID in (fit.refused or "") for fit in fits.pairs)
        assert explain_pair(dataset, "base", "own")[0].refused == fits.pairs[0].refused
    else:
        assert all(fit.refused is None for fit in fits.pairs)


def test_codes_near_it_are_named() -> None:
    (fit,) = all_fits(unchecked(club("chains", "520MX"))).pairs
    assert fit.refused is not None
    assert "known codes near it: 520" in fit.refused


@pytest.mark.parametrize("stem", ["chains", "links", "strips", "plates"])
def test_check_accepts_the_club_that_it_warns_of(stem: str) -> None:
    """So that nothing after it may fall over."""
    raw = club(stem, "520MX")
    raw["strips"]["strip"].pop("ends", None)
    assert checked(raw).chains


def test_what_is_to_be_done_about_it_is_to_read_the_code_and_the_reason_is_said_once() -> None:
    dataset = unchecked(club("links", "999"))
    (fit,) = all_fits(dataset).pairs
    act = next_act(dataset, fit)
    assert act is not None and act.ask == (Reading("link", "own", "size_code"),)
    said = " ".join(explain_text(dataset, fit, act).split())
    assert said.count("999") == 1 and "stamped on its plates" in said


def test_nothing_is_asked_that_leaves_the_pair_without_a_verdict() -> None:
    """Whoever wrote that the condition is not known has looked."""
    raw = raw_club()
    for record in raw["links"].values():
        record |= {"condition": "unknown", "half_link": "unknown"}
    dataset = unchecked(raw)
    (fit,) = all_fits(dataset).pairs
    assert fit.refused == "the condition of the link is not known"
    assert next_act(dataset, fit) is None
