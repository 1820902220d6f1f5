"""What the exit code of a command says."""

FINE, BAD_DATA, WRONG_USAGE, CANNOT_READ_OR_WRITE, INTERNAL_FAULT = range(5)
