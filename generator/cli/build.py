"""`handbook build`: the whole handbook of a club, put in its place at once or not at all.

Goes in: the club, the target folder and the day.  Comes out: the start page's path on stdout, an exit code.
"""

import sys
from collections.abc import Callable
from datetime import date
from pathlib import Path

from generator.cli.club import open_club
from generator.cli.exit_codes import BAD_DATA, CANNOT_READ_OR_WRITE, FINE, INTERNAL_FAULT
from generator.model.dataset import Dataset
from generator.site.collector import collector_resting
from generator.site.finish import PolicyFault
from generator.site.swap import TargetRefused, check_target


def build(club: Path | None, to: Path, as_of: date | None) -> int:
    """Problems in the data, or a target that is not ours, and nothing is written."""
    try:
        check_target(to)
        opened = open_club(club, as_of)
        if not isinstance(opened, Dataset):
            return opened
        print(f"as of {opened.as_of} ({opened.as_of_from}), data {opened.data_version}", file=sys.stderr)
        return _write(opened, to)
    except TargetRefused as refused:
        print(refused, file=sys.stderr)
        return CANNOT_READ_OR_WRITE


def _write(dataset: Dataset, to: Path) -> int:
    from generator.site.build import BuildFailed, build_site
    from generator.site.card_overflow import CardsRefused
    from generator.site.content import site_of
    from generator.site.typesetter import TypesettingFailed

    try:
        with collector_resting():
            build_site(site_of(dataset), to, _progress())
    except CardsRefused as refused:
        print(refused, file=sys.stderr)
        return BAD_DATA
    except (BuildFailed, PolicyFault, TypesettingFailed) as fault:
        print(f"the handbook could not be built: {fault}", file=sys.stderr)
        return INTERNAL_FAULT
    print(to / "index.html")
    return FINE


def _progress() -> Callable[[int, int], None] | None:
    """On a terminal only; a log file would fill with it."""
    return _tell if sys.stderr.isatty() else None


def _tell(done: int, total: int) -> None:
    if done % 50 == 0 or done == total:
        end = "\n" if done == total else ""
        print(f"\rpage {done} of {total}", end=end, file=sys.stderr, flush=True)
