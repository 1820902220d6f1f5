"""What people write, and what the checker says they meant."""

import pytest

from generator.validate.wording import edits, nearest
from tests.samples import check_club

LINK = "tin-1:\n  size_code: 520\n  closure: clip\n  plate_fit: press\n  made_for: sealed\n"


@pytest.mark.parametrize(
    ("file", "line", "meant"),
    [
        ("links.yaml", "  condition: used", "fitted-once"),
        ("links.yaml", "  condition: brand new", "new"),
        ("links.yaml", "  half_link: true", "yes"),
        ("links.yaml", "  half_link: '?'", "unknown"),
        ("links.yaml", "  pin_kind: '?'", "unknown"),
        ("links.yaml", "  pin_kind: holow", "hollow"),
    ],
)
def test_a_word_people_use_is_understood(file: str, line: str, meant: str) -> None:
    (problem,) = check_club({file: f"{LINK}{line}\n".encode()})
    assert (problem.did_you_mean, problem.fix) == (meant, f"write {meant}")


@pytest.mark.parametrize(
    ("old", "new", "meant"),
    [
        ("closure: clip", "closure: spring clip", "clip"),
        ("plate_fit: press", "plate_fit: by hand", "slip"),
        ("made_for: sealed", "made_for: o-ring chain", "sealed"),
    ],
)
def test_so_it_is_where_a_choice_must_be_made(old: str, new: str, meant: str) -> None:
    (problem,) = check_club({"links.yaml": LINK.replace(old, new).encode()})
    assert problem.did_you_mean == meant


@pytest.mark.parametrize(
    ("line", "meant"),
    [
        ("kept: every roll", "kept_in"),
        ("sizes: 520", "takes"),
        ("weight: 40 g", "mass"),
        ("qty: 2", "count"),
        ("kee: key-5", "key"),
    ],
)
def test_a_key_that_people_use_is_understood(line: str, meant: str) -> None:
    """`kept` is two letters from `key`, and a word of `kept_in`."""
    (problem,) = check_club({"tools.yaml": f"press-1:\n  does: press\n  {line}\n".encode()})
    assert (problem.code, problem.did_you_mean) == ("R201", meant)


@pytest.mark.parametrize(
    ("written", "code", "meant"),
    [("press-plate", "R203", "press"), ("[press-plate]", "R205", "press"), ("[press, key]", "R205", None)],
)
def test_one_word_is_asked_for_where_a_list_stands(written: str, code: str, meant: str | None) -> None:
    (problem,) = check_club({"tools.yaml": f"press-1:\n  does: {written}\n".encode()})
    assert (problem.code, problem.did_you_mean) == (code, meant)
    assert "'a list" not in problem.message


def test_an_o_ring_is_an_o() -> None:
    (problem,) = check_club({"seals.yaml": b"rings-1:\n  shape: O-ring\n"})
    assert (problem.code, problem.did_you_mean) == ("R203", "O")


def test_several_ids_in_one_text_are_written_as_a_list() -> None:
    ride = b"river:\n  on: 2027-02-20\n  bikes: b01, b02\n"
    (problem,) = check_club({"rides.yaml": ride})
    assert problem.code == "R206" and problem.fix.endswith("[b01, b02]")


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ("5/8", "5/8 in"),
        ("0.205", "0.205 in"),
        ("0.62", "0.62 mm"),
        ("5.205", "5.205 mm"),
        ("10.205", "10.205 mm"),
    ],
)
def test_what_people_read_in_inches_is_guessed_to_be_of_an_inch(written: str, meant: str) -> None:
    (problem,) = check_club({"links.yaml": f"{LINK}  pin_length: {written}\n".encode()})
    assert problem.code == "L102" and f" {meant}," in problem.fix


def test_what_is_missing_is_asked_as_a_question_with_its_choices() -> None:
    (problem,) = check_club({"links.yaml": LINK.replace("  plate_fit: press\n", "").encode()})
    assert problem.fix.endswith("does a shoulder stop it? Write slip, press, press-to-shoulder or unknown.")


def test_no_id_further_than_two_edits_is_offered_while_a_nearer_one_is_there() -> None:
    known = ["tin-3-red", "tin-3-pink", "tin-13-rub"]
    assert nearest("tin-3-rd", known) == "tin-3-red"
    assert nearest("tin-31-rub", known) == "tin-13-rub"
    assert nearest("qqqqqqqq", known) is None
    assert (edits("clip", "clyp"), edits("form", "from"), edits("", "abc")) == (1, 1, 3)
