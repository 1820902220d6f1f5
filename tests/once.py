"""What takes long to make, made once for all workers of a run of the tests."""

import os
import pickle
import time
from collections.abc import Callable
from pathlib import Path
from typing import TypeVar, cast

T = TypeVar("T")
# set by the process that starts the workers, which clears it away after them
ROOM = "HANDBOOK_TESTS_ROOM"


def _room() -> Path | None:
    """Where the workers of this run meet; None where there is one process only."""
    return Path(os.environ[ROOM]) if ROOM in os.environ and "PYTEST_XDIST_WORKER" in os.environ else None


def made_once(name: str, make: Callable[[], T]) -> T:
    """A value that can be pickled."""
    room = _room()
    if room is None:
        return make()
    file = room / f"{name}.pickle"
    if _is_ours(file):
        value = make()
        _tell(file, pickle.dumps(value))
        return value
    return cast(T, pickle.loads(file.read_bytes()))


def folder_once(name: str, alone: Path, make: Callable[[Path], None]) -> Path:
    """A folder that no test changes; `alone` is where it goes without other workers."""
    room = _room()
    if room is None:
        make(alone)
        return alone
    told = room / f"{name}.done"
    if _is_ours(told):
        own = room / f"{name}-{os.getpid()}"
        make(own)
        _tell(told, own.name.encode())
    return room / told.read_text()


def _is_ours(file: Path) -> bool:
    """Is it ours to make?  If not, it is there: another worker has made it, or is waited for while it lives."""
    making = file.with_name(f"{file.name}.making")
    while not file.exists():
        try:
            with making.open("x") as lock:
                lock.write(str(os.getpid()))
            return True
        except FileExistsError:
            if _is_gone(making):
                making.unlink(missing_ok=True)
        time.sleep(0.1)
    return False


def _is_gone(making: Path) -> bool:
    try:
        maker = int(making.read_text() or os.getpid())
        os.kill(maker, 0)
    except ProcessLookupError:
        return True
    except FileNotFoundError:
        return False
    # a make that failed here is tried again
    return maker == os.getpid() and making.stat().st_size > 0


def _tell(file: Path, content: bytes) -> None:
    own = file.with_name(f"{file.name}.{os.getpid()}")
    own.write_bytes(content)
    own.replace(file)
