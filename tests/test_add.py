"""One record asked for in a terminal: in the order that settles most, refused input asked again, nothing lost."""

import io
from pathlib import Path

import pytest

from generator.cli.add import ADDED, add
from generator.cli.arguments import KINDS_ADDED
from generator.cli.start import start
from generator.load.folder import load_club, load_shelf
from generator.model.chain_parts import Link
from generator.render.say.asking import questions
from generator.validate.dataset import build_dataset
from generator.validate.measure import recipes_by_field
from tests.clubs import DATA, shelf

CHAIN = ["red", "520", "plain", "red chain"]
LINK_HEAD = ["tin-1", "520", "clip", "slip", "plain"]


@pytest.fixture
def club(tmp_path: Path) -> Path:
    assert start(tmp_path / "club") == 0
    return tmp_path / "club"


def typed(monkeypatch: pytest.MonkeyPatch, lines: list[str]) -> None:
    monkeypatch.setattr("sys.stdin", io.StringIO("".join(f"{line}\n" for line in lines)))


def test_a_chain_and_its_link_are_written_and_check(club: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    before = (club / "chains.yaml").read_text("utf-8")
    typed(monkeypatch, [*CHAIN, "."])
    assert add(club, "chain") == 0
    text = (club / "chains.yaml").read_text("utf-8")
    assert text.startswith(before), "comments kept"
    assert text.endswith("\nred:\n  size_code: 520\n  kind: plain\n  name: red chain\n")
    typed(monkeypatch, [*LINK_HEAD, "its link: the old one", "new", "no", "none", "none", "red", "."])
    assert add(club, "link") == 0
    dataset, problems = build_dataset(load_club(club), load_shelf(DATA))
    assert [p.code for p in problems if p.level == "error"] == []
    assert dataset is not None
    link = dataset.links["tin-1"].record
    assert (link.condition, link.half_link, link.came_with) == ("new", False, "red")
    assert link.name == "its link: the old one", "quoted where YAML needs it"


def test_refused_input_is_asked_again_with_the_reason(
    club: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    typed(monkeypatch, ["Tin 1", "tin-1", "520", "spring clip", "", "clip", "by hand", "slip", "plain", "."])
    assert add(club, "link") == 0
    said = capsys.readouterr().err
    assert "R206" in said and "write clip" in said and "write slip" in said and "must be answered" in said
    assert (club / "links.yaml").read_text("utf-8").count("closure: clip\n") == 1


def test_what_the_club_says_against_it_is_asked_again(
    club: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    bike = ["b01", "rde", "13", "48", "112", ".", "red"]
    typed(monkeypatch, [*CHAIN, "."])
    assert add(club, "chain") == 0
    typed(monkeypatch, bike)
    assert add(club, "bike") == 0
    assert "X301" in capsys.readouterr().err
    assert "chain: red\n" in (club / "bikes.yaml").read_text("utf-8")


def test_an_interrupt_keeps_what_was_answered_and_counts_nothing(
    club: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    typed(monkeypatch, LINK_HEAD[:3])
    assert add(club, "link") == 0
    text = (club / "links.yaml").read_text("utf-8")
    assert text.endswith("# tin-1:\n#   size_code: 520\n#   closure: clip\n")
    dataset, _ = build_dataset(load_club(club), load_shelf(DATA))
    assert dataset is not None and not dataset.links


def test_an_id_is_not_used_twice_and_the_demo_is_left_alone(
    club: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    typed(monkeypatch, [*CHAIN, "."])
    assert add(club, "chain") == 0
    typed(monkeypatch, ["red", "red-2", *CHAIN[1:], "."])
    assert add(club, "chain") == 0
    assert "'red' stands in chains.yaml already" in capsys.readouterr().err
    assert "\nred-2:\n" in (club / "chains.yaml").read_text("utf-8")
    assert add(DATA / "demo", "chain") == 2


def test_what_settles_most_is_asked_first() -> None:
    recipes = recipes_by_field(shelf())
    asked = [fact.name for fact in questions("link", Link, recipes)]
    assert asked[:4] == ["size_code", "closure", "plate_fit", "made_for"]
    assert asked.index("condition") < asked.index("measured_with") < asked.index("pin_reach")
    assert asked.index("pin_reach") < asked.index("pin_step") < asked.index("mass")
    assert sorted(asked) == sorted(Link.model_fields)


def test_every_kind_of_record_can_be_added() -> None:
    assert set(KINDS_ADDED) == set(ADDED)
