"""One record asked for in a terminal: in the order that settles most, refused input asked again, nothing lost."""

import io
from pathlib import Path

import pytest

from generator.cli.add import ADDED, add
from generator.cli.arguments import KINDS_ADDED
from generator.cli.start import start
from generator.load.folder import load_club, load_shelf
from generator.model.chain_parts import Link
from generator.render.say.asking import STUCK, asked, label_question, needless, questions
from generator.validate.dataset import build_dataset
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


def test_whoever_gives_one_wrong_answer_twice_is_told_the_way_out(
    club: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    typed(monkeypatch, ["tin-1", "520", "glue", "glue", "clip", "slip", "plain", "."])
    assert add(club, "link") == 0
    assert capsys.readouterr().err.count(STUCK) == 1


def test_what_the_club_says_against_it_is_asked_again(
    club: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    bike = ["b01", "red", "13", "48", "113", ".", "112"]
    typed(monkeypatch, [*CHAIN, "."])
    assert add(club, "chain") == 0
    typed(monkeypatch, bike)
    assert add(club, "bike") == 0
    assert "C471" in capsys.readouterr().err
    assert "pitches: 112\n" in (club / "bikes.yaml").read_text("utf-8")


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
    recipes = shelf().recipe_by_field
    asked = [fact.name for fact in questions("link", Link, recipes)]
    assert asked[:4] == ["size_code", "closure", "plate_fit", "made_for"]
    assert asked.index("condition") < asked.index("measured_with") < asked.index("pin_reach")
    assert asked.index("pin_reach") < asked.index("pin_step") < asked.index("mass")
    assert sorted(asked) == sorted(Link.model_fields)


def test_every_kind_of_record_can_be_added() -> None:
    assert set(KINDS_ADDED) == set(ADDED)


def test_every_question_is_a_sentence_that_asks() -> None:
    recipes = shelf().recipe_by_field
    for kind, model in ADDED.items():
        for fact in questions(kind, model, recipes):
            question = asked(kind, fact, ())
            if needless(kind, fact, {}) and len(fact.choices) == 1:
                continue
            assert "?" in question, question
            assert "tin-3-red" not in question and "14.92" not in question, question
        assert "?" in label_question(kind) and ("bag" in label_question(kind)) == (
            kind not in ("bike", "trial", "ride")
        )


def test_no_part_is_asked_for_what_it_does_not_have() -> None:
    """A plain chain has no seals to look at, a chain that does not run no joint to look at, and of pins that do not go
    in there is no more to see; what hangs on a question comes after it."""
    recipes = shelf().recipe_by_field

    def left(kind: str, /, **answers: str) -> list[str]:
        facts = questions(kind, ADDED[kind], recipes)
        return [fact.name for fact in facts if not needless(kind, fact, answers)]

    running = {"own_link": "red", "in_use": "yes"}
    assert {"seals_seen", "seals_whole", "seal_thickness"}.isdisjoint(left("chain", kind="plain", **running))
    assert {"seals_seen", "seals_whole", "seal_thickness"} <= set(left("chain", kind="sealed", **running))
    assert {"plates_level", "in_use_since", "clip_seated"}.isdisjoint(left("chain", kind="plain"))
    order = left("chain", kind="plain", **running)
    assert order.index("own_link") < order.index("in_use") < order.index("plates_level")
    assert left("trial", enters="no")[-1] != "thrown_later"
    assert {"clip_on", "bends", "play"}.isdisjoint(left("trial", enters="no"))
    assert left("trial").index("clip") < left("trial").index("clip_on")
    assert "ends" not in left("strip") and "count" in left("link")


def test_what_names_nothing_is_told_at_once_with_what_is_there(
    club: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    typed(monkeypatch, ["red", "52O", *CHAIN[1:], "."])
    assert add(club, "chain") == 0
    said = capsys.readouterr().err
    assert "X305 no sizes are known for the code '52O'; did you mean 520?" in said
    assert "size_code: 520\n" in (club / "chains.yaml").read_text("utf-8")
    assert f"handbook check --club {club}" in said
    typed(monkeypatch, ["b01", "rde", "rde", "red", "13", "48", "112", "."])
    assert add(club, "bike") == 0
    said = capsys.readouterr().err
    assert said.count("X301 there is no chain 'rde' in chains.yaml yet; did you mean red?") == 2
    assert "chain: Which chain does it run? (there is: red)" in said
    assert "  chain: red\n" in (club / "bikes.yaml").read_text("utf-8")


def test_a_code_that_is_stamped_so_is_taken_when_it_is_said_again(
    club: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    typed(monkeypatch, ["red", "999", "999", "plain", "red chain", "."])
    assert add(club, "chain") == 0
    assert "size_code: 999\n" in (club / "chains.yaml").read_text("utf-8")


def test_a_chain_and_its_link_can_be_told_in_either_order(
    club: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """What names a record that is still to come waits behind a #, with all that hangs on it, and whoever writes the
    record hears of it."""
    own = [
        "as-made",
        "under-half",
        "none",
        "clip-slip",
        "red-own",
        "red-own",
        "yes",
        "",
        "none",
        "2026-12-01",
        ".",
    ]
    typed(monkeypatch, [*CHAIN, *own])
    assert add(club, "chain") == 0
    text, said = (club / "chains.yaml").read_text("utf-8"), capsys.readouterr().err
    assert "\n  # own_link: red-own  # waits for its record\n" in text
    assert "\n  # in_use: yes  # waits" in text and "  own_seals: none\n" in text
    assert "behind a # until red-own is written down" in said
    dataset, problems = build_dataset(load_club(club), load_shelf(DATA))
    assert dataset is not None and not [p for p in problems if p.level == "error"]
    line = text.splitlines().index("  # own_link: red-own  # waits for its record") + 1
    typed(monkeypatch, ["red-own", *LINK_HEAD[1:], "", "new", "no", "none", "none", "red", "."])
    assert add(club, "link") == 0
    assert f"chains.yaml, line {line}: own_link waited for red-own" in capsys.readouterr().err
    # the # taken away
    whole = text.replace("  # own_link", "  own_link").replace("  # in_use", "  in_use")
    (club / "chains.yaml").write_text(whole, "utf-8")
    dataset, problems = build_dataset(load_club(club), load_shelf(DATA))
    assert dataset is not None and not [p for p in problems if p.level == "error"]
    assert dataset.chains["red"].record.own_link == "red-own" and dataset.chains["red"].record.in_use is True
