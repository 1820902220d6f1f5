"""`handbook start`: a new club folder to fill in."""

import sys
from pathlib import Path

from generator.cli.exit_codes import CANNOT_READ_OR_WRITE, FINE, WRONG_USAGE
from generator.load.folder import load_shelf
from generator.render.schema.starter import starter_files
from generator.shipped import shipped_root
from generator.validate.shelf import build_shelf


def start(folder: Path) -> int:
    """Writes nothing into a folder that holds anything."""
    try:
        if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
            print(f"{folder} is not an empty folder: nothing was written", file=sys.stderr)
            return WRONG_USAGE
        shelf, _ = build_shelf(load_shelf(shipped_root() / "data"))
        for name, text in starter_files(shelf.instruments, shelf.wear_limits).items():
            (folder / name).parent.mkdir(parents=True, exist_ok=True)
            (folder / name).write_text(text, encoding="utf-8", newline="\n")
    except OSError as fault:
        print(f"cannot write to {folder}: {fault.strerror or fault}", file=sys.stderr)
        return CANNOT_READ_OR_WRITE
    print(_next_steps(folder), file=sys.stderr)
    return FINE


def _next_steps(folder: Path) -> str:
    return (
        f"A club folder stands in {folder}. Next:\n"
        "  1. write the club's name and the day in club.yaml\n"
        "  2. write down the chains, the connecting links and their clips, one record each, with an editor,\n"
        f"     or question by question: handbook add chain --club {folder} (then link, clip, bike)\n"
        f"  3. handbook check --club {folder}\n"
        f"  4. handbook build --club {folder}"
    )
