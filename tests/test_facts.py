"""Every trade fact at the low, middle and high of its ranges through the engine, and each limit moved by a fifth.

Outside source: tests/facts/*.yaml, rules of thumb of the trade (common practice, no source), the ranges from memory;
written before the bands.
"""

from typing import Any

import pytest

from generator.compute.fit.fits import fit_table
from tests.clubs import errors_of, exactly, unchecked
from tests.facts import moved
from tests.pairs import disagreements, fact_club, facts

UNLIKE = {(d["fact"], d["place"], d["what"]): d for d in disagreements()}


def cases() -> list[Any]:
    """(fact, place, what); those that disagree are expected to, each with its reason."""
    found = []
    for id_, fact in facts().items():
        for place in moved.PLACES:
            for what in ("pair", *fact.get("expect_option", {})):
                unlike = UNLIKE.get((id_, place, what))
                marks = [pytest.mark.xfail(strict=True, reason=unlike["because"])] if unlike else []
                found.append(pytest.param(id_, place, what, marks=marks, id=f"{id_}-{place}-{what}"))
    return found


@pytest.mark.parametrize(("id_", "place", "what"), cases())
def test_the_bands_agree_with_the_trade(id_: str, place: str, what: str) -> None:
    verdict, agrees = moved.judged({})[f"{id_}/{place}/{what}"]
    assert agrees, verdict


def test_each_disagreement_is_as_written() -> None:
    told = moved.judged({})
    for (id_, place, what), entry in UNLIKE.items():
        wanted = facts()[id_]["expect"] if what == "pair" else facts()[id_]["expect_option"][what]
        assert told[f"{id_}/{place}/{what}"] == (entry["computed"], False)
        assert entry["trade"] in wanted


@pytest.mark.parametrize("id_", facts())
def test_the_table_of_facts_says_what_the_engine_says(id_: str) -> None:
    raw = fact_club(facts()[id_], "middle")
    assert errors_of(raw) == []
    fit = fit_table(exactly(unchecked(raw)), ["chain"], ["link"])[0]
    assert fit.best is not None and fit.worst is not None
    assert moved.judged({})[f"{id_}/middle/pair"][0] == moved.said((fit.best, fit.worst))


def test_moved_limits_are_as_committed() -> None:
    assert moved.TARGET.read_text(encoding="utf-8") == moved.text(), f"run {moved.COMMAND}"


def test_every_limit_is_moved_both_ways_or_has_no_room() -> None:
    rules = moved.table().rules
    tried = {(m.rule_id, m.rung, m.side) for m in moved.moves(rules)}
    assert tried == set(moved.limits(rules))
    assert len(tried) > 100
