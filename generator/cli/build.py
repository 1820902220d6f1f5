"""`handbook build`: the whole handbook of a club, put in its place at once or not at all."""

import sys
from collections.abc import Callable
from datetime import date
from pathlib import Path

from generator.cli.club import club_folder, open_club
from generator.cli.exit_codes import BAD_DATA, CANNOT_READ_OR_WRITE, FINE, INTERNAL_FAULT
from generator.cli.settings import check_site_url
from generator.model.dataset import Dataset
from generator.shipped import shipped_root
from generator.site.finish import PolicyFault
from generator.site.swap import TargetRefused, check_target, left_beside
from generator.site.target import git_of


def build(club: Path | None, to: Path, as_of: date | None) -> int:
    """Problems in the data, or a target that is not ours, and nothing is written."""
    check_site_url()
    folder = club_folder(club)
    try:
        check_target(to, _sources(folder))
        opened = open_club(folder, as_of)
        if not isinstance(opened, Dataset):
            return opened
        print(f"as of {opened.as_of} ({opened.as_of_from}), data {opened.data_version}", file=sys.stderr)
        return _write(opened, to)
    except TargetRefused as refused:
        print(refused, file=sys.stderr)
        return CANNOT_READ_OR_WRITE


def _sources(club: Path) -> dict[str, Path]:
    """What a target must not hold, as it would be carried along or, worse, taken for a part of the site."""
    sources = {"the club's own folder": club, "the files of this program": shipped_root()}
    git = git_of(Path.cwd())
    return sources | ({f"{git}, the history of the folder you are in": git} if git else {})


def _write(dataset: Dataset, to: Path) -> int:
    from generator.site.build import BuildFailed, build_site
    from generator.site.card_overflow import CardsRefused
    from generator.site.content import site_of
    from generator.site.typesetter import TypesettingFailed

    try:
        build_site(site_of(dataset), to, _progress())
    except CardsRefused as refused:
        print(refused, file=sys.stderr)
        return BAD_DATA
    except (BuildFailed, PolicyFault, TypesettingFailed) as fault:
        print(f"the handbook could not be built: {fault}", file=sys.stderr)
        return INTERNAL_FAULT
    for left in left_beside(to):
        print(f"left of an older site, and could not be cleared: {left}", file=sys.stderr)
    print(to / "index.html")
    return FINE


def _progress() -> Callable[[int, int], None] | None:
    """On a terminal only; a log file would fill with it."""
    return _tell if sys.stderr.isatty() else None


def _tell(done: int, total: int) -> None:
    if done % 50 == 0 or done == total:
        end = "\n" if done == total else ""
        print(f"\rpage {done} of {total}", end=end, file=sys.stderr, flush=True)
