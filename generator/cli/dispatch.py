"""One run of the command: arguments read, the command called, faults turned into an exit code.

Goes in: arguments.  Comes out: data on stdout, messages on stderr, and an exit code.
"""

import argparse
import sys
from collections.abc import Callable, Sequence
from typing import NoReturn

from generator.cli.arguments import parser
from generator.cli.exit_codes import CANNOT_READ_OR_WRITE, FINE, INTERNAL_FAULT


def run() -> NoReturn:
    """Entry point of the console command."""
    sys.exit(main(sys.argv[1:]))


def main(arguments: Sequence[str]) -> int:
    """One run of the command; argparse itself exits with 2 on wrong usage."""
    asked = parser().parse_args(arguments)
    command: Callable[[argparse.Namespace], int] = asked.command
    try:
        return command(asked)
    except BrokenPipeError:
        # the reader of our output went away, as `| head` does: not a fault
        sys.stdout = None
        return FINE
    except KeyboardInterrupt:
        print("stopped", file=sys.stderr)
        return INTERNAL_FAULT
    except OSError as error:
        print(f"cannot read or write: {error}", file=sys.stderr)
        return CANNOT_READ_OR_WRITE
    except Exception as error:
        print(f"internal fault: {type(error).__name__}: {error}", file=sys.stderr)
        print("your data were not changed; please report this with the command you gave", file=sys.stderr)
        if asked.trace:
            raise
        return INTERNAL_FAULT
