"""The one console command, `handbook`.

Goes in: arguments.  Comes out: data on stdout, messages on stderr, and an exit code.
"""

from generator.cli.dispatch import main, run

__all__ = ["main", "run"]
