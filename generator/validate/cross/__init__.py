"""Rules between fields and between records: each a small function with a code of the catalogue."""

from generator.validate.cross.run import cross_problems

__all__ = ["cross_problems"]
