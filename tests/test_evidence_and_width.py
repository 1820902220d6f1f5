"""How good a value is and how wide: the weaker of two ends, the source it cites, what no instrument has read.

Outside source: DIN 862 for the plus-minus of a digital caliper, 0.02 mm outside (published_values, caliper limits).
"""

from typing import Any

import pytest

from generator.compute.fit.fits import explain_pair
from generator.model.quantity import Quantity
from generator.validate.dataset import build_dataset
from tests.clubs import errors_of, loaded, shelf_files, unchecked
from tests.others_club import BIKE, raw_club

CALIPER = {"kind": "digital-caliper"}


def club_with(**link: Any) -> dict[str, Any]:
    """The base club, its link measured with a digital caliper, some fields of it written otherwise."""
    raw: dict[str, Any] = raw_club()
    raw["club"] = {"name": "A club", "id": "club", "as_of": "2027-03-01", "instruments": {"cal": CALIPER}}
    raw["links"]["own"] |= {"measured_with": "cal", **link}
    return raw


def pin(**link: Any) -> Quantity:
    return unchecked(club_with(**link)).links["own"].dims["pin_diameter"]


def between(low: int, high: int, evidence: Any) -> Quantity:
    return Quantity(low, (low + high) // 2, high, evidence)


@pytest.mark.parametrize(
    ("one", "other", "evidence"),
    [
        # each gives an end: the weaker word
        (between(10, 30, "measured"), between(20, 40, "from-memory"), "from-memory"),
        # one gives both ends: its own word, whatever the other is
        (between(10, 30, "measured"), between(0, 40, "from-memory"), "measured"),
        (between(0, 40, "measured"), between(10, 30, "from-memory"), "from-memory"),
        # both give both: the better word
        (between(10, 30, "measured"), between(10, 30, "from-memory"), "measured"),
    ],
)
def test_two_readings_of_one_thing_are_as_good_as_what_gives_their_ends(
    one: Quantity, other: Quantity, evidence: str
) -> None:
    for met in (one.meet(other), other.meet(one)):
        assert met is not None
        assert met.evidence == evidence


def test_a_value_is_no_better_than_the_source_it_cites() -> None:
    from_memory = {"is": "5.24 mm", "source": "instrument-memory[pins]"}
    assert pin(pin_diameter=from_memory).evidence == "from-memory"
    assert pin(pin_diameter="5.24 mm", source="instrument-memory[pins]").evidence == "from-memory"
    assert pin(pin_diameter="5.24 mm").evidence == "measured"


def test_what_no_instrument_read_has_not_the_plus_minus_of_one() -> None:
    """0.02 outside by the caliper of the record; the coarsest that ships is 0.05."""
    assert pin(pin_diameter="5.24 mm").half_width == 20_000
    remembered = pin(pin_diameter={"is": "5.24 mm", "from": "from-memory"})
    assert remembered.half_width == 50_000
    assert (
        pin(pin_diameter={"is": "5.24 mm", "plus_minus": "0.1 mm", "from": "from-memory"}).half_width
        == 100_000
    )


@pytest.mark.parametrize(("readings", "codes"), [("612, 613 mm", []), ("612, 619 mm", ["C487"])])
def test_readings_may_lie_as_far_apart_as_each_of_them_is_wide(readings: str, codes: list[str]) -> None:
    """A tape reads to 2 mm, so that two readings 1 mm apart are alike and two 7 mm apart are not."""
    raw = raw_club()
    raw["bikes"] = {"bike": {**BIKE, "clearance_clip_side": "4.0 mm", "centre_distance": readings}}
    assert [problem.code for problem in errors_of(raw)] == codes


@pytest.mark.parametrize(
    ("written", "codes"),
    [
        ({"pin_diameter": "5.24, 5.15 mm"}, []),
        ({"pin_diameter": "5.24, 5.14 mm"}, ["C432"]),
        ({"pin_diameter": "5.24, 5.14 mm", "pin_step": "0.10 mm", "condition": "worn"}, []),
    ],
)
def test_readings_of_a_pin_a_tenth_apart_read_as_a_step_unless_one_is_written(
    written: dict[str, str], codes: list[str]
) -> None:
    """A step of 0.10 mm is wear (common practice, no source)."""
    _, problems = build_dataset(loaded(club_with(**written)), shelf_files())
    assert [problem.code for problem in problems if problem.code in ("C431", "C432")] == codes


@pytest.mark.parametrize(
    ("evidence", "word"), [("stated", "no-go"), ("published", "no-go"), ("from-memory", "proper")]
)
def test_a_strength_that_somebody_remembers_judges_nothing(evidence: str, word: str) -> None:
    """20 of 36 kN is 56 %, under the 60 % of last-resort; only what is published or stated counts (the fit rules)."""
    raw = raw_club()
    for stem, id_, force in (("chains", "base", "36 kN"), ("links", "own", "20 kN")):
        raw[stem][id_]["tensile"] = {"is": force, "from": evidence}
    assert explain_pair(unchecked(raw), "base", "own")[0].word == word
