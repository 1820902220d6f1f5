"""Processes that a test starts and that never outlive it."""

import subprocess
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import Any


@contextmanager
def running(command: Sequence[str], cwd: Path, **options: Any) -> Iterator["subprocess.Popen[str]"]:
    """Killed at the end of the block, however that comes, and its pipes closed."""
    process = subprocess.Popen(command, cwd=cwd, text=True, **options)
    try:
        yield process
    finally:
        process.kill()
        process.wait()
        for pipe in (process.stdout, process.stderr):
            if pipe is not None:
                pipe.close()
