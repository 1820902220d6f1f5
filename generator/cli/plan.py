"""`handbook plan`: who carries what on a ride, or in the whole club."""

import sys
import time
from pathlib import Path

from generator.cli.club import open_club
from generator.cli.exit_codes import FINE, WRONG_USAGE
from generator.cli.ids import first_few
from generator.compute.all_fits import all_fits
from generator.compute.repair.result import Repairs
from generator.compute.spares.planner import plan_of
from generator.compute.spares.result import GOALS, Doing, GoalId, Plans, Tell
from generator.model.dataset import Dataset
from generator.render.contract.envelope import json_text
from generator.render.contract.plan_json import plan_document
from generator.render.plan_text import plan_text
from generator.render.say.repair import GOALS as GOAL_WORDS
from generator.validate.wording import nearest

# seconds that nobody asks what is going on
PATIENCE = 2.0


def plan(club: Path | None, ride: str | None, bikes: str | None, as_json: bool) -> int:
    """Exit code 0 whatever the answer; 2 for a ride or bike the club does not have."""
    opened = open_club(club, in_full=False)
    if not isinstance(opened, Dataset):
        return opened
    named = tuple(dict.fromkeys(id_.strip() for id_ in bikes.split(","))) if bikes is not None else None
    wrong = list(_wrong(opened, ride, named))
    if wrong:
        print("\n".join(wrong), file=sys.stderr)
        return WRONG_USAGE
    _tell(f"judging {len(opened.chains)} chains x {len(opened.links)} links, then the loads")

    def asked(dataset: Dataset, repairs: Repairs) -> Plans:
        return Plans(plan_of(dataset, repairs, ride, named, _progress()), {})

    found = all_fits(opened, asked).plans.club
    sys.stdout.write(json_text(plan_document(opened, found)) if as_json else plan_text(opened, found))
    return FINE


def _progress() -> Tell:
    """A line for each goal, once the loads have taken longer than one waits without wondering."""
    started = time.monotonic()

    def tell(doing: Doing, goal: GoalId) -> None:
        waited = time.monotonic() - started
        if waited > PATIENCE:
            at = f"{doing} {GOALS.index(goal) + 1} of {len(GOALS)}"
            _tell(f"{at}: {GOAL_WORDS[goal]} ({waited:.0f} s)")

    return tell


def _tell(message: str) -> None:
    """On a terminal only: it takes some seconds."""
    if sys.stderr.isatty():
        print(message, file=sys.stderr, flush=True)


def _wrong(dataset: Dataset, ride: str | None, bikes: tuple[str, ...] | None) -> list[str]:
    asked = [("ride", ride, tuple(dataset.rides))] if ride is not None else []
    asked += [("bike", bike, tuple(dataset.bikes)) for bike in bikes or ()]
    return [_message(kind, typed, known) for kind, typed, known in asked if typed not in known]


def _message(kind: str, typed: str, known: tuple[str, ...]) -> str:
    near = nearest(typed, known)
    hint = (
        f"; did you mean '{near}'?"
        if near
        else f"; known: {first_few(known)}"
        if known
        else "; the club has none"
    )
    return f"there is no {kind} '{typed[:60]}'{hint}"
