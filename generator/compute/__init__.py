"""Pure mathematics: a dataset in, results out."""
