"""Shows a handbook on this machine and builds it again whenever its data, templates or pages change."""

import sys
import tempfile
import time
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from threading import Thread

from generator.shipped import shipped_root
from generator.site.build import build_site
from generator.site.card_overflow import CardsRefused
from generator.site.content import ClubRefused, club_site
from generator.site.serve_http import Host
from generator.site.watch import state_of

LOOK_EVERY = 0.4  # s


@dataclass
class Shown:
    """What the host shows; `number` goes up with every change, and open pages follow it."""

    folder: Path
    number: int = 0
    problems: str = ""

    def is_built(self) -> bool:
        return self.folder.joinpath("index.html").is_file()


def serve_site(club: Path, host: Host) -> None:
    """Runs until it is interrupted; `host` is bound already, so that a port in use is known before the work."""
    with tempfile.TemporaryDirectory(prefix="handbook-") as place, host:
        shown = Shown(Path(place) / "site")
        host.show(shown)
        Thread(target=host.serve_forever, daemon=True).start()
        try:
            follow(shown, lambda: state_of(club, shipped_root()), lambda: _build(club, shown.folder))
        except KeyboardInterrupt:
            sys.stderr.write("stopped\n")
        finally:
            host.shutdown()


def _build(club: Path, to: Path) -> None:
    build_site(club_site(club), to, settings={"site_url": ""})  # links of the 404 page count from the root


def follow(shown: Shown, state: Callable[[], object], build: Callable[[], None]) -> None:
    """Builds, and again after each change.  Whatever is wrong with data or templates is shown; the last good
    handbook stays."""
    while True:
        before = _settled(state)
        shown.problems = _problems_of(build)
        shown.number += 1
        sys.stderr.write(shown.problems or "the handbook is up to date\n")
        while state() == before:
            time.sleep(LOOK_EVERY)


def _settled(state: Callable[[], object]) -> object:
    """A file that is being written is not read half."""
    before = state()
    while True:
        time.sleep(LOOK_EVERY / 4)
        if (now := state()) == before:
            return now
        before = now


def _problems_of(build: Callable[[], None]) -> str:
    try:
        build()
    except (ClubRefused, CardsRefused) as refused:
        return str(refused)
    except Exception as fault:  # a template that is being edited may raise anything
        return f"the handbook could not be built: {type(fault).__name__}: {fault}\n"
    return ""
