"""`handbook schema`: the JSON Schemas of a club's files, on stdout or one file a kind."""

import json
import sys
from collections.abc import Mapping
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
        if others := [name for name, one in schemas.items() if _is_another(to / name, one)]:
            named = ", ".join(others)
            print(
                f"{to} has {named}, no schema of ours: nothing was written; name another folder",
                file=sys.stderr,
            )
            return CANNOT_READ_OR_WRITE
        to.mkdir(parents=True, exist_ok=True)
        for name, one in schemas.items():
            (to / name).write_text(schema_text(one), encoding="utf-8", newline="\n")
    except OSError as fault:
        print(f"cannot write to {to}: {fault.strerror or fault}", file=sys.stderr)
        return CANNOT_READ_OR_WRITE
    print(f"{len(schemas)} schemas written to {to}", file=sys.stderr)
    return FINE


def _is_another(file: Path, schema: Mapping[str, object]) -> bool:
    """Something there that is not an older one of the same schema: its `$id` tells."""
    if not file.exists() and not file.is_symlink():
        return False
    try:
        there = json.loads(file.read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return True
    return not isinstance(there, dict) or there.get("$id") != schema["$id"]
