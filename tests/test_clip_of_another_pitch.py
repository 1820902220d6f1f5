"""A clip out of the packet of a 520 link is offered for no 428 link: its seats are 15.875 mm apart, the pins 12.7 mm
(pitches of ISO 606)."""

import pytest

from generator.cli.dispatch import main
from generator.compute.fit.fits import explain_pair
from generator.model.dataset import Dataset
from tests.clubs import Raw, unchecked, write


def club(clip: dict[str, str], lies_with: str = "520", small: dict[str, str] | None = None) -> Raw:
    link = {"closure": "clip", "plate_fit": "slip", "made_for": "plain", "condition": "new", "seals": "none"}
    bike = {"chain": "small", "front_teeth": "14", "rear_teeth": "49", "pitches": "130"}
    return {
        "club": {"name": "Two sizes", "id": "two", "as_of": "2027-03-01"},
        "chains": {"small": {"size_code": "428", "kind": "plain"}},
        "links": {
            "big-link": {**link, "size_code": lies_with, "clip": "big-clip"},
            "small-link": {**link, "size_code": "428", **(small or {})},
        },
        "clips": {"big-clip": {"history": "new", "count": "2", **clip}},
        "bikes": {"b1": bike},
    }


def offered(raw: Raw) -> set[str | None]:
    dataset: Dataset = unchecked(raw)
    _, options = explain_pair(dataset, "small", "small-link")
    return {option.clip for option in options}


def test_it_is_offered_for_no_link_of_another_pitch() -> None:
    assert offered(club({})) == {None}
    assert offered(club({}, small={"clip": "none"})) == {None}


@pytest.mark.parametrize(
    ("raw", "why"),
    [
        (club({"pin_spacing": "12.70 mm"}), "its spacing was read: that is judged"),
        (club({}, small={"clip": "big-clip"}), "it lies with both, whatever they are"),
        (club({}, lies_with="428"), "it lies with a link of this pitch"),
        (club({}, lies_with="unknown"), "nobody knows with what it lies"),
    ],
)
def test_where_anything_speaks_for_it_it_is(raw: Raw, why: str) -> None:
    assert "big-clip" in offered(raw), why


def test_explain_says_why_there_is_no_such_option(
    tmp_path_factory: pytest.TempPathFactory, capsys: pytest.CaptureFixture[str]
) -> None:
    folder = write(club({}), tmp_path_factory.mktemp("two"))
    assert main(["explain", "--club", str(folder), "small", "small-link", "--clip", "big-clip"]) == 0
    assert "lies with links of another pitch" in " ".join(capsys.readouterr().err.split())
