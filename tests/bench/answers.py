"""Processor time of the commands a person waits for at the terminal, beside the import of what they need, in one run."""

import os
import subprocess
import sys
from typing import Any

RUNS = 7
COMMANDS = {
    "imports": ("-c", "import numpy, pydantic"),
    "explain": ("-m", "generator", "explain", "tan-520", "tin-8-tan"),
    "check": ("-m", "generator", "check"),
}


def answer_figures() -> dict[str, Any]:
    """Seconds of user and system time, the least of several runs taken in turn."""
    found: dict[str, list[float]] = {name: [] for name in COMMANDS}
    for _ in range(RUNS):
        for name, arguments in COMMANDS.items():
            before = os.times()
            subprocess.run([sys.executable, *arguments], check=True, capture_output=True)
            after = os.times()
            user, system = (
                getattr(after, of) - getattr(before, of) for of in ("children_user", "children_system")
            )
            found[name].append(user + system)
    return {name: min(seconds) for name, seconds in found.items()}
