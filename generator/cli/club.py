"""Which club a command speaks of, and its data read and validated."""

import os
import sys
from datetime import date
from pathlib import Path

from generator.cli.exit_codes import BAD_DATA, CANNOT_READ_OR_WRITE
from generator.load.folder import load_club, load_shelf
from generator.load.problem_texts import load_catalogue
from generator.model.dataset import Dataset
from generator.problems.report import summary, text_report
from generator.shipped import shipped_root
from generator.validate.dataset import build_dataset


def club_folder(asked: Path | None) -> Path:
    """--club, else this folder if it holds club.yaml, else the demo; said on stderr."""
    if asked is not None:
        return asked
    here = Path(os.curdir)
    if (here / "club.yaml").is_file():
        print("club: this folder", file=sys.stderr)
        return here
    print("club: the invented demo club (no --club, and no club.yaml in this folder)", file=sys.stderr)
    return shipped_root() / "data" / "demo"


def open_club(
    asked: Path | None, as_of: date | None = None, in_full: bool = True, quick: bool = False
) -> Dataset | int:
    """The club's dataset, its warnings told on stderr (in full, or how many); where it has errors every problem is
    told and the exit code is returned.  `quick` takes what ships as checked, and reads only what a
    verdict is made of."""
    data = shipped_root() / "data"
    folder, shelf = load_club(club_folder(asked)), load_shelf(data, quick)
    dataset, problems = build_dataset(folder, shelf, as_of, quick)
    if problems and (in_full or dataset is None):
        texts = {**shelf.texts, **folder.texts}
        catalogue = load_catalogue(data, {problem.code for problem in problems})
        sys.stderr.write(text_report(problems, texts, catalogue, len(folder.files)))
    elif problems:
        print(f"{summary(problems, len(folder.files))}: handbook check shows them", file=sys.stderr)
    if dataset is not None:
        return dataset
    return CANNOT_READ_OR_WRITE if folder.unreadable or shelf.unreadable else BAD_DATA
