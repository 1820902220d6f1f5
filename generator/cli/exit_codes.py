"""What the exit code of a command says.

Goes in: nothing.  Comes out: 0 fine, 1 problems in the data, 2 wrong usage or an id that is not there,
3 cannot read or write, 4 internal fault.
"""

FINE, BAD_DATA, WRONG_USAGE, CANNOT_READ_OR_WRITE, INTERNAL_FAULT = range(5)
