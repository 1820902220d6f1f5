"""Limits of a club's own: refused where they cannot be used, whatever table the rule is in, and followed where they can."""

from typing import Any

import pytest

from generator.compute.fit.clip_lost import makeshifts
from generator.compute.fit.fits import fit_table
from generator.problems import Problem
from generator.rules.others import OTHER_SYMBOLS
from generator.validate.dataset import build_dataset
from tests.clubs import loaded, shelf, shelf_files
from tests.pairs import hand_worked, pair_club


def club(rules: dict[str, Any]) -> dict[str, Any]:
    because = {"because": "a test of the limits"}
    return pair_club(hand_worked()["own-link"]) | {
        "rules": {id_: because | own for id_, own in rules.items()}
    }


def problems_of(rules: dict[str, Any]) -> tuple[Problem, ...]:
    dataset, problems = build_dataset(loaded(club(rules)), shelf_files())
    errors = tuple(problem for problem in problems if problem.level == "error")
    assert (dataset is None) == bool(errors)
    return errors


@pytest.mark.parametrize(
    ("limit", "said"),
    [
        ("foo", "'foo' is not a dimension"),
        ("b3 * b2b", "a product of two dimensions"),
        ("b3 * 99999999", "too large or too fine"),
        ("0.1234567890123 * b3", "too large or too fine"),
        ("min()", "has nothing to choose from"),
        ("min(1, 2, key=b3)", "has nothing to choose from"),
        ("1e400", "has no place in a linear form"),
        ("1 / 0", "divides by plain numbers only"),
        ("-" * 190 + "b3" + " " * 200, "has more than 200 characters"),
        ("(" * 150, "is not a form"),
        ("max(" + ", ".join(["min(9, b3)"] * 10) + ")", "chooses in more than 64 ways"),
    ],
)
def test_a_limit_that_cannot_be_used_is_told_and_nothing_falls_over(limit: str, said: str) -> None:
    (problem,) = problems_of({"backing": {"get-home": {"high": limit}}})
    assert (problem.code, problem.place.file, problem.place.line) == ("U605", "rules.yaml", 1)
    assert said in problem.message


def test_so_it_is_in_every_table_of_rules() -> None:
    """Every rule with limits of its own, one of them a name that no table has."""
    seen = set()
    for table, rules in shelf().other_rules.items():
        for id_, rule in rules.items():
            bands = {name: getattr(rule, name) for name in ("proper", "get_home", "last_resort")}
            name, band = next(((n, b) for n, b in bands.items() if b is not None), ("", None))
            if band is None:
                continue
            own = {name.replace("_", "-"): {"low" if band.low is not None else "high": "foo"}}
            (problem,) = problems_of({id_: own})
            assert problem.code == "U605" and "'foo' is not a dimension" in problem.message, id_
            seen.add(table)
    # what has words only, or the limits of the joint, has none of its own
    assert seen >= set(OTHER_SYMBOLS) - {"clip_link", "key", "in_use"} | {"clip_lost"}


def test_limits_that_are_fine_alone_and_too_fine_together_are_told_once() -> None:
    fine = {
        "backing": {"get-home": {"high": "2.5 + b3 / 3"}},
        "tip-land": {"get-home": {"low": "0.35 + t / 8"}},
    }
    for id_, own in fine.items():
        assert problems_of({id_: own}) == ()
    (problem,) = problems_of(fine)
    assert problem.code == "U605" and "too large or too fine" in problem.message


@pytest.mark.parametrize(
    ("high", "refused", "check"),
    [
        ("0.64", True, None),
        ("0.7", False, (0, 0)),
        ("0.3 * tc", False, (3, 3)),
        ("min(0.6, tc)", False, (3, 3)),
    ],
)
def test_a_club_may_say_how_much_play_a_plain_chain_has(
    high: str, refused: bool, check: tuple[int, int] | None
) -> None:
    """11.25 - 10.60 = 0.65 between the plates of a plain chain; 0.3 of its plates of 2.00 is 0.60."""
    raw = pair_club(hand_worked()["plain-own-link"])
    raw["chains"]["chain"] |= {"seal": "unknown", "between_outer_plates": "11.25 ± 0.000001 mm"}
    raw["rules"] = {"looks-sealed": {"because": "a test of the limits", "proper": {"high": high}}}
    dataset, problems = build_dataset(loaded(raw), shelf_files())
    assert dataset is not None, problems
    (fit,) = fit_table(dataset, ["chain"], ["link"])
    assert (fit.refused is not None) == refused
    found = {each.id: (each.best, each.worst) for each in fit.option.checks} if fit.option else {}
    assert check is None or found["looks-sealed"] == check


def test_a_club_may_set_its_own_limit_for_a_lost_clip() -> None:
    """Reach 15.20, plate 2.10, neighbours 13.05: the bare plate stands 0.05 mm outside them."""

    def bare(low: str) -> tuple[int, int]:
        rules = {"bare-pressed-plate": {"last-resort": {"low": low}}}
        dataset, _ = build_dataset(loaded(club(rules)), shelf_files())
        assert dataset is not None
        (fit,) = fit_table(dataset, ["chain"], ["link"])
        found = {each.rule_id: each for each in makeshifts(dataset, fit)}["bare-pressed-plate"]
        return found.best, found.worst

    assert bare("0.04") == (2, 2)
    assert bare("0.06") == (3, 3)
