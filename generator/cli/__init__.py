"""The one console command, `handbook`."""

from generator.cli.dispatch import main, run

__all__ = ["main", "run"]
