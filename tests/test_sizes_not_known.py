"""A size code that is on no shelf: no verdict on that part anywhere, and nothing falls over."""

from typing import Any

import pytest

from generator.compute.all_fits import all_fits
from generator.compute.fit.fits import explain_pair
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
