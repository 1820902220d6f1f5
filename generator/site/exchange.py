"""Exchanges two folders in one step of the kernel, where it can."""

import ctypes
import errno
import os
import sys
from pathlib import Path

_AT_FDCWD = -100  # linux/fcntl.h
_RENAME_EXCHANGE = 2  # linux/fs.h, renameat2(2)
_NOT_THERE = {errno.ENOSYS, errno.EINVAL, errno.EOPNOTSUPP}  # old kernel, or a file system without it


def exchanged(one: Path, other: Path) -> bool:
    """True when both changed places at once; False when the two must be renamed one after the other."""
    if not sys.platform.startswith("linux"):
        return False
    renameat2 = getattr(ctypes.CDLL(None, use_errno=True), "renameat2", None)
    if renameat2 is None:
        return False
    if renameat2(_AT_FDCWD, os.fsencode(one), _AT_FDCWD, os.fsencode(other), _RENAME_EXCHANGE) == 0:
        return True
    code = ctypes.get_errno()
    if code in _NOT_THERE:
        return False
    raise OSError(code, os.strerror(code), str(other))
