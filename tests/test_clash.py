"""Where dry fits and readings cannot both be true the answer and the readings are named, so that one of them is mended."""

from copy import deepcopy
from typing import Any

from generator.compute.fit.fits import DISAGREE, explain_pair
from generator.compute.fit.result import PairFit
from generator.compute.next_act import next_act
from generator.model.dataset import Dataset
from generator.model.reading import Reading
from generator.render.explain_text import explain_text
from generator.render.say.reasons import reasons
from generator.render.say.said import plain
from tests.clubs import checked
from tests.small_club import SMALL_CLUB

STOP = {"measured_with": "caliper", "clip_stop": "13.20 mm", "side_plate_thickness": "2.00 mm"}
BUSHES = {"measured_with": "caliper", "over_bush_ends": "10.61 mm"}


PLATES = {"plate_thickness": "2.00 mm", "over_inner_plates": "10.60 mm"}
NO_STOP = {"measured_with": "caliper", "side_plate_thickness": "2.00 mm"}


def club(trials: dict[str, dict[str, str]], stop: dict[str, str] = STOP) -> Dataset:
    raw: dict[str, Any] = deepcopy(SMALL_CLUB)
    raw["clips"] = {
        "bob-clip": {"history": "new", "made_bowed": "no", "bow": "0.00 mm", "measured_with": "caliper"}
    }
    raw["links"]["spare-bob"] |= {"clip": "bob-clip"} | stop
    raw["chains"]["bob"] |= BUSHES | PLATES
    seen = raw["trials"].pop("try-bob")
    raw["trials"] |= {id_: seen | more for id_, more in trials.items()}
    return checked(raw)


def told(dataset: Dataset) -> tuple[PairFit, str]:
    fit, _ = explain_pair(dataset, "bob", "spare-bob")
    return fit, " ".join(explain_text(dataset, fit, next_act(dataset, fit)).split())


def test_an_answer_and_the_readings_that_belie_it_are_named() -> None:
    """13.20 - 2.00 - 10.61 leaves 0.59 mm for a plate that is said not to move: readings by a caliper, each to
    within some hundredths, do not make that 0.05."""
    fit, said = told(club({"held": {}}))
    (clash,) = fit.clashes
    assert fit.refused == DISAGREE and clash.told == (("held", "plate_moves"),)
    assert clash.proven == (None, 50_000) and clash.read is not None
    low, high = clash.read
    assert 50_000 < low < 590_000 < high
    assert set(clash.readings) == {
        Reading("chain", "bob", "over_bush_ends"),
        Reading("link", "spare-bob", "clip_stop"),
        Reading("link", "spare-bob", "side_plate_thickness"),
    }
    assert (
        "Dry fit held (20 February 2027): the plate cannot be moved, which asks for 0.05 mm or less" in said
    )
    assert (
        "Measure again the width over the bush ends of chain bob, the clip stop of link spare-bob and" in said
    )


def test_the_page_says_what_the_command_says() -> None:
    dataset = club({"held": {}})
    fit, _ = told(dataset)
    first, second = (plain(reason.says) for reason in reasons(dataset, fit))
    assert first == f"No verdict can be given: {DISAGREE}."
    assert second.startswith("Dry fit held (20 February 2027): the plate cannot be moved")


def test_two_dry_fits_that_belie_one_another_are_both_named() -> None:
    """A plate that cannot be moved lies at the bush ends, 10.61 + 2.00 + 2.00 in all, and not at 15.80."""
    wide = {"width_at_joint": "15.80 mm", "width_at_neighbour": "15.80 mm"}
    fit, said = told(club({"one": {}, "two": wide}, NO_STOP))
    assert fit.refused == DISAGREE and all(clash.read is None for clash in fit.clashes)
    assert {trial for clash in fit.clashes for trial, _ in clash.told} == {"one", "two"}
    assert "Dry fit one (20 February 2027): the plate cannot be moved" in said
    assert "Dry fit two (20 February 2027): 15.80 mm wide over the plates at the joint" in said


def test_what_agrees_clashes_with_nothing() -> None:
    fit, said = told(club({"held": {"plate_moves": "yes"}}))
    assert fit.refused is None and fit.clashes == () and "asks for" not in said
