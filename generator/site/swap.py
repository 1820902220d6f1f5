"""Puts a freshly built folder in the place of an older one; a reader meets the old or the new one whole."""

from collections.abc import Callable, Iterator, Mapping
from contextlib import ExitStack, contextmanager
from pathlib import Path

from generator.site.carry import carry, in_the_way
from generator.site.exchange import exchanged
from generator.site.marker import is_marked, mark, theirs_in
from generator.site.target import TargetRefused, real_folder, refuse_around, refuse_foreign
from generator.site.working import NEW, OLD, leftovers, recover, working_folder

__all__ = ["TargetRefused", "check_target", "left_beside", "replacing"]

Exchange = Callable[[Path, Path], bool]
MOST_NAMED = 5


def check_target(target: Path, sources: Mapping[str, Path] | None = None) -> None:
    """Refuses a target before the work that would fill it."""
    real = real_folder(target)
    recover(real)
    refuse_around(real, sources or {})
    refuse_foreign(real)


def left_beside(target: Path) -> list[Path]:
    """What is left of older sites and could not be cleared."""
    return leftovers(real_folder(target))


@contextmanager
def replacing(target: Path, exchange: Exchange = exchanged) -> Iterator[Path]:
    """Yields a new folder beside the target; it takes the target's place when the block ends well, with whatever
    others put into the old one."""
    real = real_folder(target)
    with ExitStack() as stack:
        try:
            check_target(real)
            work = stack.enter_context(working_folder(real))
        except OSError as fault:
            raise TargetRefused(f"cannot write beside {real}: {fault.strerror or fault}") from fault
        yield work / NEW
        mark(work / NEW)
        try:
            _take_place(work, real, exchange)
        except OSError as fault:
            raise TargetRefused(f"cannot replace {real}: {_told(fault)}; nothing was changed") from fault


def _told(fault: OSError) -> str:
    return f"{fault.strerror or fault}{f' ({fault.filename})' if fault.filename else ''}"


def _take_place(work: Path, real: Path, exchange: Exchange) -> None:
    fresh = work / NEW
    refuse_foreign(real)  # someone may have put a folder there while we built
    if not real.exists() or not is_marked(real):
        _into_free(fresh, real)
        return
    kept = theirs_in(real)
    if blocked := in_the_way(fresh, real, kept):
        raise TargetRefused(_blocked(real, blocked))
    carry(real, fresh, kept)
    if not exchange(fresh, real):
        _rename_pair(work, real)


def _into_free(fresh: Path, real: Path) -> None:
    """An empty folder goes, unless something came into it at the last moment."""
    if real.exists():
        real.rmdir()
    fresh.rename(real)


def _blocked(real: Path, paths: list[Path]) -> str:
    named = ", ".join(path.as_posix() for path in paths[:MOST_NAMED])
    more = f" and {len(paths) - MOST_NAMED} more" if len(paths) > MOST_NAMED else ""
    return (
        f"{real} has files that no build made where the new handbook has its own: {named}{more}; "
        "nothing was changed: move or rename them, then build again"
    )


def _rename_pair(work: Path, real: Path) -> None:
    """Two renames; killed between them, the next run brings the old folder back."""
    real.rename(work / OLD)
    try:
        work.joinpath(NEW).rename(real)
    except OSError:
        work.joinpath(OLD).rename(real)
        raise
