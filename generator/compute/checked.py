"""A club that can be computed with: validated, and every rule it overrides usable.

Goes in: two loaded folders.  Comes out: the dataset where there is no error, and every problem.
"""

from datetime import date

from generator.compute.rule_problems import rule_problems
from generator.model.dataset import Dataset
from generator.model.node import LoadedFolder
from generator.problems import Problem, sorted_problems
from generator.validate.dataset import build_dataset


def checked_dataset(
    club: LoadedFolder, shelf: LoadedFolder, as_of: date | None = None
) -> tuple[Dataset | None, tuple[Problem, ...]]:
    """The problems of the data, and of the rules a valid club overrides."""
    dataset, problems = build_dataset(club, shelf, as_of)
    if dataset is None:
        return None, problems
    unusable = tuple(rule_problems(dataset))
    return (None if unusable else dataset), sorted_problems([*problems, *unusable])
