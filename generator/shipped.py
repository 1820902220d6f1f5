"""Where the files that ship with the generator are, in a checkout or in an installed wheel.

Goes in: nothing.  Comes out: the folder that holds `data`, `handbook_src`, `site_overrides` and `mkdocs.yml`.
"""

from pathlib import Path


def shipped_root() -> Path:
    """A wheel carries the files inside the package; a checkout has them beside it."""
    package = Path(__file__).resolve().parent
    inside = package / "_shipped"
    return inside if inside.is_dir() else package.parent
