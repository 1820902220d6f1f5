"""One run of the command: arguments read, the command called, faults turned into an exit code."""

import argparse
import gc
import os
import sys
from collections.abc import Callable, Sequence
from io import TextIOWrapper
from pathlib import Path
from typing import NoReturn

from generator.cli.arguments import parser
from generator.cli.exit_codes import CANNOT_READ_OR_WRITE, FINE, INTERNAL_FAULT, WRONG_USAGE
from generator.cli.settings import WrongSetting

MOST_SHOWN = 120


def run() -> NoReturn:
    """Entry point of the console command; what could not be written is told by the exit code."""
    if sys.stderr is None:
        # closed: a message to nobody would come out among the data
        sys.stderr = Path(os.devnull).open("w", encoding="utf-8")  # noqa: SIM115 - as long as the process
    if sys.stdout is None:
        print("cannot write: standard output is closed", file=sys.stderr)
        sys.exit(CANNOT_READ_OR_WRITE)
    _speak_utf8()
    # numpy would start a thread a core for linear algebra, which nothing here does: a tenth of one answer's time
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    # one run keeps what it makes until it ends; the search for what nobody holds any more would find nothing
    gc.disable()
    try:
        code: int | str | None = main(sys.argv[1:])
    except SystemExit as done:
        code = done.code
    code = _all_written(code)
    # nor does it at the end
    gc.freeze()
    sys.exit(code)


def _speak_utf8() -> None:
    """Data are UTF-8 wherever they go, names of files as they are; a terminal gets what it can show."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, TextIOWrapper):
            if stream.isatty():
                stream.reconfigure(errors="backslashreplace")
            else:
                stream.reconfigure(encoding="utf-8", errors="surrogateescape")


def _all_written(code: int | str | None) -> int | str | None:
    """The last of the output is written here, where a fault still has a place to go."""
    try:
        sys.stdout.flush()
        return code
    except BrokenPipeError:
        pass
    except OSError as error:
        print(_told(error), file=sys.stderr)
        code = CANNOT_READ_OR_WRITE
    # what is left would be tried once more at the very end
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    return code


def _told(error: OSError) -> str:
    """Why, and the file as far as it fits on a line."""
    name = str(error.filename or "")
    shown = name if len(name) <= MOST_SHOWN else f"{name[:MOST_SHOWN]}..."
    return f"cannot read or write{f' {shown}' if shown else ''}: {error.strerror or error}"


def main(arguments: Sequence[str]) -> int:
    """One run of the command; argparse itself exits with 2 on wrong usage."""
    asked = parser().parse_args(arguments)
    command: Callable[[argparse.Namespace], int] = asked.command
    try:
        return command(asked)
    except WrongSetting as wrong:
        print(wrong, file=sys.stderr)
        return WRONG_USAGE
    except BrokenPipeError:
        # the reader of our output went away, as `| head` does: not a fault
        return FINE
    except KeyboardInterrupt:
        print("stopped", file=sys.stderr)
        return INTERNAL_FAULT
    except OSError as error:
        print(_told(error), file=sys.stderr)
        return CANNOT_READ_OR_WRITE
    except Exception as error:
        print(f"internal fault: {type(error).__name__}: {error}", file=sys.stderr)
        print("your data were not changed; please report this with the command you gave", file=sys.stderr)
        if asked.trace:
            raise
        return INTERNAL_FAULT
