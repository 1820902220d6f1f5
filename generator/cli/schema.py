"""`handbook schema`: the JSON Schemas of a club's files.

Goes in: a folder, or none.  Comes out: one file a kind in it, or all of them on stdout.
"""

import sys
from pathlib import Path

from generator.cli.exit_codes import CANNOT_READ_OR_WRITE, FINE
from generator.render.schema.club import club_schemas
from generator.render.schema.starter import schema_text


def schema(to: Path | None) -> int:
    """Without a folder, one JSON object on stdout: file name -> schema."""
    schemas = club_schemas()
    if to is None:
        print(schema_text(schemas), end="")
        return FINE
    try:
        to.mkdir(parents=True, exist_ok=True)
        for name, one in schemas.items():
            (to / name).write_text(schema_text(one), encoding="utf-8", newline="\n")
    except OSError as fault:
        print(f"cannot write to {to}: {fault.strerror or fault}", file=sys.stderr)
        return CANNOT_READ_OR_WRITE
    print(f"{len(schemas)} schemas written to {to}", file=sys.stderr)
    return FINE
