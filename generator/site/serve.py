"""Shows a handbook on this machine and builds it again whenever its data, templates or pages change.

Goes in: a club folder.  Comes out: nothing; it runs until it is stopped.
"""

import logging
import os
import sys
from pathlib import Path

from mkdocs.commands.serve import serve as run_server
from mkdocs.exceptions import MkDocsException as BuilderFault

from generator.site.build import builder_settings

__all__ = ["BuilderFault", "serve_site"]


def serve_site(club: Path) -> None:
    """The builder reads its settings anew each time, so the club is handed over as they name it."""
    os.environ["HANDBOOK_CLUB"] = str(club.resolve())
    handler = logging.StreamHandler(sys.stderr)
    logger = logging.getLogger("mkdocs")
    logger.setLevel(logging.INFO)
    logger.addHandler(handler)
    try:
        run_server(str(builder_settings()), livereload=True, watch_theme=False)
    finally:
        logger.removeHandler(handler)
