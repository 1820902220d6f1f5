"""A simulated volunteer with hidden true parts, who does what the handbook asks until the verdict stands."""
