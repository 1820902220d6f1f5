"""The gold list of the search, and the same ranking a second time in Python."""
