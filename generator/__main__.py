"""`python -m generator` is the same as the console command."""

from generator.cli import run

run()
