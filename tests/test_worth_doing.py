"""An evening at the bench: acts counted over pairs, by part, in the order that ends most."""

from dataclasses import replace

import pytest

from generator.compute.fit.fits import fit_table, unsettled_fits
from generator.compute.fit.result import PairFit
from generator.compute.looks import looks_open
from generator.compute.next_act import acts_of, next_act, stands
from generator.compute.worth_doing import Evening, worth_doing
from generator.render.worth_text import MOST_SHOWN, worth_text
from tests.clubs import unchecked
from tests.handbook import demo

LINK = {"size_code": "520", "closure": "clip", "plate_fit": "slip", "made_for": "plain", "seals": "none"}
CLUB = {
    "chains": {id_: {"size_code": "520", "kind": "plain"} for id_ in ("red", "blue")},
    "links": {"tin-1": LINK, "tin-2": {**LINK, "condition": "cracked", "half_link": "no"}},
    "bikes": {
        f"b-{id_}": {"chain": id_, "front_teeth": "13", "rear_teeth": "48", "pitches": "112"}
        for id_ in ("red", "blue")
    },
}
OWNS = {"name": "Few tools", "id": "few", "as_of": "2027-03-01"}


def evening_of(**instruments: str) -> tuple[Evening, tuple[PairFit, ...]]:
    club = OWNS | {"instruments": {id_: {"kind": kind} for id_, kind in instruments.items()}}
    dataset = unchecked({**CLUB, "club": club})
    fits = fit_table(dataset)
    return worth_doing(fits, acts_of(dataset, fits)), fits


def test_one_sheet_of_looks_at_a_part_serves_all_its_pairs() -> None:
    found, _ = evening_of(caliper="digital-caliper")
    looks = [worth for worth in found.worth if worth.act.kind == "look"]
    of_link = next(worth for worth in looks if worth.act.part == ("link", "tin-1"))
    assert of_link.pairs == (("blue", "tin-1"), ("red", "tin-1"))
    assert {"condition", "half_link"} <= {reading.field for reading in of_link.act.ask}
    assert all(len(worth.act.ask) <= 8 for worth in looks)


def test_what_a_look_has_ended_asks_for_nothing_more() -> None:
    """A cracked link is no-go on every chain."""
    found, fits = evening_of(caliper="digital-caliper")
    assert {fit.word for fit in fits if fit.link == "tin-2"} == {"no-go"}
    assert not any("tin-2" in link for worth in found.worth for _, link in worth.pairs)


def test_most_pairs_a_minute_come_first() -> None:
    found, _ = evening_of(caliper="digital-caliper")
    gains = [len(worth.pairs) / worth.act.effort for worth in found.worth]
    assert gains == sorted(gains, reverse=True)


def test_nothing_is_measured_with_what_the_club_does_not_own() -> None:
    """Feelers alone read no pin; a groove is read with feelers alone."""
    for instruments, never in (
        ({"feelers": "feeler-gauge"}, "pin_diameter"),
        ({"rule": "steel-rule"}, "groove_width"),
    ):
        club = OWNS | {"instruments": {id_: {"kind": kind} for id_, kind in instruments.items()}}
        known = {"condition": "new", "half_link": "no", "clip": "none", "came_with": "unknown"}
        raw = {**CLUB, "club": club, "links": {"tin-1": {**LINK, **known}}}
        dataset = unchecked(raw)
        for fit in fit_table(dataset):
            act = next_act(dataset, fit)
            assert act is None or all(reading.field != never for reading in act.ask)
            assert stands(dataset, fit) == (act is None)


@pytest.mark.parametrize(
    ("kind", "instruments", "asked"),
    [
        # by kind of chain: less than half a tooth is 0 to 2 %, within the 2 % of a plain chain, not the 1 % of a sealed
        ("sealed", {"tape": "tape"}, False),
        ("sealed", {"caliper": "digital-caliper"}, True),
        ("plain", {"tape": "tape"}, True),
    ],
)
def test_a_pull_off_that_could_settle_nothing_is_left_to_the_tape(
    kind: str, instruments: dict[str, str], asked: bool
) -> None:
    club = OWNS | {"instruments": {id_: {"kind": kind} for id_, kind in instruments.items()}}
    chain = {"size_code": "520", "kind": kind} | ({"seal": "O"} if kind == "sealed" else {})
    link = {**LINK, "made_for": kind, "seals": "none" if kind == "plain" else "unknown"}
    dataset = unchecked({**CLUB, "club": club, "chains": {"red": chain}, "links": {"tin-1": link}})
    (fit,) = fit_table(dataset, ["red"])
    fields = {reading.field for reading, _ in looks_open(dataset, fit, ())}
    assert ("pull_off" in fields) == asked
    assert "rub_marks" in fields


def test_what_is_settled_is_left_out_for_check_and_nothing_else() -> None:
    for dataset in (demo(), unchecked(CLUB)):
        fits = tuple(replace(fit, without_clip=None) for fit in fit_table(dataset))
        kept = unsettled_fits(dataset)
        assert kept == tuple(fit for fit in fits if fit.refused or fit.best != fit.worst or not fit.worst)
        assert worth_doing(kept, acts_of(dataset, kept)) == worth_doing(fits, acts_of(dataset, fits))
    assert len(kept) < len(fits)


def test_the_end_of_check_says_what_to_do_and_how_much_is_left_out() -> None:
    found, fits = evening_of(caliper="digital-caliper")
    said = worth_text(unchecked(CLUB), found, fits, len(fits)).splitlines()
    assert said[0] == "of 4 pairs 0 are not settled and 2 cannot be judged"
    assert "worth doing next:" in said
    assert len(said) <= MOST_SHOWN + 4
    decided = PairFit("chain", "1", True, best=0, worst=0)
    nothing = Evening((), ())
    assert worth_text(unchecked(CLUB), nothing, [decided], 1) == "the one pair is decided by what is known\n"
    assert worth_text(unchecked(CLUB), nothing, [], 0).startswith("no pair to judge yet")
