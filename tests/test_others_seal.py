"""Seals and washers in joints, each case worked by hand beside it.

Outside sources: the squeeze bands are general practice for O-rings (O-ring handbook, page 290: 8 to 30 % as a
static face seal, 41 % as the most); all else is common practice, no source.
"""

import json
from dataclasses import replace

import pytest
from jsonschema import Draft7Validator

from generator.compute.fit.fits import explain_pair
from generator.compute.others.result import PartFit
from generator.compute.others.seals import seal_fits
from generator.compute.others.table import other_fits
from generator.model.dataset import Dataset
from generator.render.contract.envelope import json_text
from generator.render.contract.others_json import other_documents
from generator.render.pages.parts.seals import seal_pages
from generator.render.say.parts import OWN_SEALS_SAY
from generator.render.schema.others import other_schemas
from tests.clubs import exactly, unchecked
from tests.handbook import demo, demo_book, demo_others
from tests.others_club import Fields, decided, exact_club, raw_club

PLAIN_CHAIN = {
    "kind": "plain", "seal": "none", "own_joint": "clip-slip", "over_inner_plates": "10.6", "over_bush_ends": "10.6",
    "between_outer_plates": "11.0", "over_riveted_pins": "17.3", "plate_thickness": "2.0",
}  # fmt: skip
WASHER = {"shape": "washer", "covers_bush": None}


def seal_fit(**changes: Fields) -> PartFit:
    (fit,) = seal_fits(exact_club(**changes))
    return fit


def test_its_own_seals_are_squeezed_right() -> None:
    # seat = b3 = 13.05; room 13.05 - 10.95 = 2.10; squeezed 2 x 1.28 - 2.10 = 0.46, of 2.56 that is 18 %
    fit = seal_fit()
    assert decided(fit) == ("proper", "squeeze")
    assert fit.deciding_check is not None
    assert fit.deciding_check.clearance is not None
    assert fit.deciding_check.clearance.nominal == 460_000


@pytest.mark.parametrize(
    ("thickness", "word"),
    [
        # 2 x 1.14 - 2.10 = 0.18, of 2.28 that is 7.9 %
        ("1.14", "get-home"),
        # 2 x 1.15 - 2.10 = 0.20, of 2.30 that is 8.7 %
        ("1.15", "proper"),
        # 2 x 1.50 - 2.10 = 0.90, of 3.00 that is 30 %
        ("1.50", "proper"),
        # 2 x 1.51 - 2.10 = 0.92, of 3.02 that is 30.5 %
        ("1.51", "get-home"),
        # 2 x 1.78 - 2.10 = 1.46, of 3.56 that is 41.01 %
        ("1.78", "no-go"),
        # 2 x 0.80 - 2.10 = -0.50, of 1.60 that is -31 %: they do not touch
        ("0.80", "no-go"),
    ],
)
def test_squeeze_where_the_plate_is_pressed(thickness: str, word: str) -> None:
    assert decided(seal_fit(seal={"thickness": thickness})) == (word, "squeeze")


def test_squeeze_where_the_plate_slides_on() -> None:
    # stop = 15.25 + 1.25 - 1.00 - 2.10 = 13.40; 2 x 1.28 - (13.40 - 10.95) = 0.11, of 2.56 that is 4.3 %
    link = {"plate_fit": "slip", "pin_reach": "15.25", "groove_width": "1.25", "pin_length": "17.5"}
    assert decided(seal_fit(link=link)) == ("get-home", "squeeze")


def test_squeeze_where_a_shoulder_stops_the_plate() -> None:
    # seat = 13.40 - 10.95 = 2.45; 2 x 1.28 - 2.45 = 0.11: 4.3 %
    link = {"plate_fit": "press-to-shoulder", "shoulder_depth": "13.40"}
    assert decided(seal_fit(link=link)) == ("get-home", "squeeze")


def test_another_section_must_cover_the_bush_and_be_measured() -> None:
    assert decided(seal_fit(seal={"shape": "X"})) == ("proper", "squeeze")
    assert decided(seal_fit(seal={"shape": "X", "covers_bush": "no"})) == ("get-home", "seal-kind")
    assert decided(seal_fit(seal={"shape": "X", "covers_bush": "unknown"})) == ("get-home", "seal-kind")


def test_an_unknown_section_of_the_chain_is_asked_for() -> None:
    fit = seal_fit(chain={"seal": "unknown"})
    assert (fit.word, fit.best, fit.worst) == ("measure-first", 0, 1)
    assert fit.measure_next is not None
    assert (fit.measure_next.reading.kind, fit.measure_next.reading.field) == ("chain", "seal")


def test_a_seal_nobody_measured_is_open() -> None:
    fit = seal_fit(seal={"thickness": None})
    assert (fit.best, fit.worst) == (0, 3)
    assert {(reading.kind, reading.field) for reading in fit.missing} == {("seal", "thickness")}


@pytest.mark.parametrize(
    "changes",
    [
        {"seal": {"shape": "unknown"}},
        {"chain": {"kind": "unknown"}},
        {"chain": {"state": "modified"}},
        {"link": {"made_for": "unknown"}},
        {"link": {"condition": "unknown"}},
    ],
)
def test_no_verdict_where_a_kind_or_a_condition_is_not_known(changes: dict[str, Fields]) -> None:
    fit = seal_fit(**changes)
    assert (fit.word, fit.best, fit.checks) == ("cannot-judge", None, ())


def test_a_link_for_plain_chain_takes_no_seals() -> None:
    assert seal_fits(exact_club(link={"made_for": "plain", "seals": None})) == ()


def test_seals_on_a_plain_chain_are_get_home_at_best() -> None:
    """Trade rule of thumb: sealed link on plain chain is get-home; common practice, no source."""
    # pressed: room 11.0 - 10.6 = 0.4; thin seals of 0.24 give 0.08, of 0.48 that is 17 %
    fit = seal_fit(chain=PLAIN_CHAIN, seal={"thickness": "0.24"})
    assert decided(fit) == ("get-home", "chain-kind")


def test_washers_are_get_home_at_best_and_must_have_room() -> None:
    # between bush ends and plates 13.05 - 11.25 = 1.80: two washers of 0.87 leave 0.06, two of 0.91 lack 0.02;
    # the groove over them: 13.20 - 11.25 - 1.74 = 0.21, of which get-home asks for 0.05
    fit = seal_fit(seal=WASHER | {"thickness": "0.87"}, link={"seals": None})
    assert decided(fit) == ("get-home", "seals-left-out")
    thick = seal_fit(seal=WASHER | {"thickness": "0.91"}, link={"seals": None})
    assert decided(thick) == ("no-go", "packing-room")


def joints() -> list[Dataset]:
    slip = {"plate_fit": "slip", "pin_reach": "15.25", "groove_width": "1.25", "pin_length": "17.5"}
    step = {"plate_fit": "press-to-shoulder", "shoulder_depth": "13.10"}
    return [exact_club(link=link) for link in ({}, slip, step)] + [exact_club(chain={"seal": "X"})]


@pytest.mark.parametrize("dataset", joints())
def test_the_joint_itself_says_the_same_of_its_own_seals(dataset: Dataset) -> None:
    (fit,) = seal_fits(dataset)
    _, options = explain_pair(dataset, "base", "own")
    with_seals = next(option for option in options if option.seals == "fitted")
    shared = {check.id: (check.best, check.worst, check.clearance) for check in with_seals.checks}
    for check in fit.checks:
        assert shared[check.id] == (check.best, check.worst, check.clearance)


def test_a_width_seen_at_the_dry_fit_narrows_the_squeeze() -> None:
    """A slip plate measured in place, 17.40 over the plates: the clip holds it no further in than 17.40 less two plates
    of 2.1, 13.20; how far it was pushed in by the jaws nobody knows."""
    raw = raw_club("0.05", link={"plate_fit": "slip"})
    loose = seal_fits(unchecked(raw))[0]
    raw["trials"] = {
        "seen": {"chain": "base", "link": "own", "seals": "fitted", "on": "2027-02-01", "enters": "yes", "clip_on": "yes",
                 "width_at_joint": "17.40 ± 0.01 mm"}
    }  # fmt: skip
    tried = seal_fits(unchecked(raw))[0]
    width = [check.clearance for fit in (loose, tried) for check in fit.checks if check.id == "squeeze"]
    assert width[0] is not None
    assert width[1] is not None
    assert width[1].high - width[1].low < width[0].high - width[0].low


def test_a_dry_fit_with_its_own_seals_says_nothing_of_others() -> None:
    raw = raw_club(link={"plate_fit": "slip"})
    raw["seals"]["o200"] = {"shape": "O", "thickness": "1.28 ± 0.000001 mm", "covers_bush": "yes"}
    raw["trials"] = {
        "seen": {"chain": "base", "link": "own", "seals": "fitted", "on": "2027-02-01", "enters": "yes", "clip_on": "yes",
                 "width_at_joint": "17.60 ± 0.01 mm"}
    }  # fmt: skip
    # stop 13.20 and two plates make 17.40, less than the dry fit has it, for the seals it was done with
    refused = {fit.id_of("seal"): fit.refused for fit in seal_fits(exactly(unchecked(raw)))}
    assert refused == {"o128": "the readings and the dry fit contradict each other", "o200": None}


def test_no_seals_no_fits() -> None:
    assert seal_fits(exactly(unchecked({**raw_club(link={"seals": None}), "seals": {}}))) == ()


def test_where_there_are_too_many_of_both_a_set_is_judged_in_the_joints_it_is_for(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    every, dataset = demo_others().seals, demo()
    assert not demo_others().own_seals_only
    monkeypatch.setattr("generator.compute.others.seals.MOST_MEETINGS", len(every) - 1)
    some = other_fits(dataset)
    left_out = {fit.parts for fit in every} - {fit.parts for fit in some.seals}
    assert some.own_seals_only
    # what is judged still comes out the same
    assert some.seals == tuple(fit for fit in every if fit.parts not in left_out)
    told = [(dataset.seals[fit.id_of("seal")], dataset.links[fit.id_of("link")]) for fit in some.seals]
    assert {link.record.seals == seal.id for seal, link in told} == {True, False}
    for seal, link in told:
        own = dataset.seals.get(link.record.seals or "")
        gone = own is None or own.record.count == 0
        assert gone or seal.record.shape == "washer" or link.record.seals == seal.id
    assert left_out
    book = replace(demo_book(), others=some)
    page = next(page for page in seal_pages(book) if page.path == "seals/oring-blue/")
    assert OWN_SEALS_SAY in str(page.values())
    file = other_documents(dataset, some)["seal_fits"]
    assert file["own_sets_only"] is True
    Draft7Validator(other_schemas()["seal_fits"]).validate(json.loads(json_text(file)))
