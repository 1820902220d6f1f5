"""The oldest version of everything the generator needs that pyproject.toml admits, one pin a line: for `.ci/run`."""

import re
import tomllib
from pathlib import Path

PROJECT = Path(__file__).resolve().parents[1] / "pyproject.toml"
BOUND = re.compile(r"([a-z0-9-]+)>=([0-9.]+)(,<[0-9.]+)?")


def oldest() -> dict[str, str]:
    """Distribution -> version; a dependency without a lower bound is a ValueError."""
    found = {}
    for needed in tomllib.loads(PROJECT.read_text(encoding="utf-8"))["project"]["dependencies"]:
        bound = BOUND.fullmatch(needed)
        if bound is None:
            raise ValueError(f"{needed} has no lower bound")
        found[bound[1]] = bound[2]
    return found


if __name__ == "__main__":
    print("\n".join(f"{name}=={version}" for name, version in oldest().items()))
