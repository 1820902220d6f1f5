"""Holds a file for as long as this process lives, by what the system has for that."""

import errno
import os
from collections.abc import Iterator
from contextlib import contextmanager
from importlib import import_module
from pathlib import Path
from types import ModuleType
from typing import Any

# what a file system, or a system with neither way to lock, answers
_NO_LOCKS = {errno.ENOLCK, errno.ENOSYS, errno.EOPNOTSUPP, errno.EINVAL}


class InUse(Exception):
    """A living process holds the file, or just took it away."""


def _module(name: str) -> ModuleType | None:
    try:
        return import_module(name)
    except ImportError:
        return None


_fcntl: Any = _module("fcntl")  # all but Windows
_msvcrt: Any = _module("msvcrt")  # Windows


@contextmanager
def held(file: Path, without: bool = False) -> Iterator[None]:
    """Makes the file if need be; InUse at once where another process holds it.

    Where locks are not to be had the block runs only if it can do `without`; else OSError."""
    number = os.open(file, os.O_RDWR | os.O_CREAT, 0o666)
    try:
        _take(number, without)
        if not _is_still(number, file):
            raise InUse(file)
        yield
    finally:
        os.close(number)


def _take(number: int, without: bool) -> None:
    try:
        if _fcntl is not None:
            _fcntl.flock(number, _fcntl.LOCK_EX | _fcntl.LOCK_NB)
        elif _msvcrt is not None:
            _msvcrt.locking(number, _msvcrt.LK_NBLCK, 1)
        else:
            raise OSError(errno.ENOLCK, os.strerror(errno.ENOLCK))
    except OSError as fault:
        if fault.errno not in _NO_LOCKS:
            raise InUse(fault) from fault
        if not without:
            raise


def _is_still(number: int, file: Path) -> bool:
    """Another run may have cleared it between opening and locking."""
    try:
        return os.path.samestat(os.fstat(number), file.stat())
    except FileNotFoundError:
        return False
