"""Problems as values: what is wrong, where, and how to mend it."""

from generator.problems.problem import Level, Place, Problem, sorted_problems

__all__ = ["Level", "Place", "Problem", "sorted_problems"]
