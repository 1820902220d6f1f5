"""Where the files that ship with the generator are, in a checkout or in an installed wheel."""

from pathlib import Path


def shipped_root() -> Path:
    """A wheel carries the files inside the package; a checkout has them beside it."""
    package = Path(__file__).resolve().parent
    inside = package / "_shipped"
    return inside if inside.is_dir() else package.parent
