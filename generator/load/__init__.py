"""Read files and keep the place of every value."""
