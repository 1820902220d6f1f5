"""The sentences of the handbook: results in, plain English out, lengths kept apart so that a switch can turn their units."""
