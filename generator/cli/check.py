"""`handbook check`: every problem of a club's folder in one run."""

import sys
from collections.abc import Sequence
from pathlib import Path

from generator.cli.club import club_folder
from generator.cli.exit_codes import BAD_DATA, CANNOT_READ_OR_WRITE, FINE
from generator.compute.fit.fits import unsettled_fits
from generator.compute.next_act import acts_of
from generator.compute.worth_doing import worth_doing
from generator.load.folder import load_club, load_shelf
from generator.load.problem_texts import load_catalogue
from generator.problems import Problem
from generator.problems.report import json_report, text_report
from generator.render.worth_text import worth_text
from generator.shipped import shipped_root
from generator.validate.dataset import build_dataset


def check(club: Path | None, fmt: str) -> int:
    """Nothing is written anywhere; warnings alone are fine."""
    data = shipped_root() / "data"
    folder, shelf = load_club(club_folder(club)), load_shelf(data)
    dataset, problems = build_dataset(folder, shelf)
    catalogue = load_catalogue(data, {problem.code for problem in problems})
    if fmt == "json":
        sys.stdout.write(json_report(problems, len(folder.files), catalogue))
    else:
        texts = {**shelf.texts, **folder.texts}
        sys.stdout.write(text_report(problems, texts, catalogue, len(folder.files)))
        if dataset is not None:
            fits = unsettled_fits(dataset)
            pairs = len(dataset.chains) * len(dataset.links)
            sys.stdout.write(worth_text(dataset, worth_doing(fits, acts_of(dataset, fits)), fits, pairs))
    return CANNOT_READ_OR_WRITE if folder.unreadable or shelf.unreadable else _exit_code(problems)


def _exit_code(problems: Sequence[Problem]) -> int:
    return BAD_DATA if any(problem.level == "error" for problem in problems) else FINE
