"""From a club's folder to the whole handbook as values, for `serve` and for the site builder run on its own."""

import sys
from pathlib import Path

from generator.compute.all_fits import all_fits
from generator.load.folder import load_club, load_shelf
from generator.load.problem_texts import load_catalogue
from generator.model.dataset import Dataset
from generator.problems.report import text_report
from generator.render.base.page import Site
from generator.render.cards.write import deck_of
from generator.render.site import handbook_site
from generator.shipped import shipped_root
from generator.site.cards import print_cards
from generator.site.collector import collector_resting
from generator.validate.dataset import build_dataset


class ClubRefused(Exception):
    """The club's folder has problems; the message is their report."""


@collector_resting()
def club_site(club: Path) -> Site:
    """As `handbook build --club` reads it."""
    data = shipped_root() / "data"
    folder = load_club(club)
    dataset, problems = build_dataset(folder, load_shelf(data))
    if dataset is None:
        raise ClubRefused(text_report(problems, folder.texts, load_catalogue(data), len(folder.files)))
    return site_of(dataset)


def site_of(dataset: Dataset) -> Site:
    """Everything computed, then cards typeset, then pages rendered."""
    fits = all_fits(dataset)
    printed = print_cards(deck_of(dataset, fits), dataset.as_of)
    for each in printed.unprintable:
        sys.stderr.write(
            f"cards: no font for {each.signs} in the {each.where}; a box stands in the place of each\n"
        )
    return handbook_site(dataset, fits, load_catalogue(shipped_root() / "data"), printed)
