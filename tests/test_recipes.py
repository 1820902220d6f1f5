"""Every dimension that can be written down has one way of being read, and the checks it bears on exist."""

from collections import Counter
from pathlib import Path
from typing import Any

import pytest
import yaml

from generator.model.kinds import MODELS
from generator.model.shipped import Recipe
from tests.clubs import shelf

DATA = Path(__file__).parents[1] / "data"
# stated on a packet, weighed or chosen, not read with an instrument for lengths
NOT_LENGTHS = {"tensile", "mass", "carries"}
WEAR_LOG = {"wear.inside", "wear.outside"}


def _shipped(name: str) -> dict[str, Any]:
    loaded: dict[str, Any] = yaml.load((DATA / name).read_text(encoding="utf-8"), yaml.BaseLoader)
    return loaded


RECIPES = {name: Recipe.model_validate(raw) for name, raw in _shipped("recipes.yaml").items()}


def _lengths() -> set[str]:
    return {
        f"{kind}.{name}"
        for kind, model in MODELS.items()
        for name, field in model.model_fields.items()
        if "Written" in str(field.annotation) and name not in NOT_LENGTHS
    }


def test_every_measured_field_has_exactly_one_recipe() -> None:
    named = Counter(field for recipe in RECIPES.values() for field in recipe.fields)
    assert set(named) == _lengths() | WEAR_LOG
    assert [field for field, count in named.items() if count > 1] == []


def test_every_dimension_of_a_record_has_what_it_usually_is() -> None:
    """A wrong unit or a slipped point is caught by it."""
    assert {
        name for name, recipe in RECIPES.items() if set(recipe.fields) - WEAR_LOG and not recipe.usual
    } == set()


@pytest.mark.parametrize("name", sorted(RECIPES))
def test_a_recipe_decides_only_checks_that_exist(name: str) -> None:
    rules = _shipped("rules/joint.yaml")
    checks = {rule.get("check", rule_id) for rule_id, rule in rules.items()}
    assert set(RECIPES[name].decides) <= checks


def test_every_check_with_a_clearance_can_be_decided_by_a_reading() -> None:
    rules = _shipped("rules/joint.yaml")
    measured = {rule.get("check", rule_id) for rule_id, rule in rules.items() if "clearance" in rule}
    decided = {check for recipe in shelf().recipes.values() for check in recipe.decides}
    # strength is stated or published, never read with an instrument
    assert measured - decided == {"strength"}


@pytest.mark.parametrize("name", sorted(n for n, r in RECIPES.items() if r.contact == "gauge"))
def test_a_recipe_without_jaws_carries_a_plus_minus_of_its_own(name: str) -> None:
    recipe = RECIPES[name]
    assert recipe.minus.readings[0] > 0
    assert recipe.plus.readings[0] > 0
