"""`handbook serve`: the handbook on this machine, built again when data, templates or pages change.

Goes in: the --club option.  Comes out: an exit code, when it is stopped.
"""

import sys
from pathlib import Path

from generator.cli.club import club_folder, open_club
from generator.cli.exit_codes import FINE, INTERNAL_FAULT
from generator.model.dataset import Dataset


def serve(club: Path | None) -> int:
    """Data with errors are refused at the start; later on they are told and the last good state stays."""
    from generator.site.serve import BuilderFault, serve_site

    folder = club_folder(club)
    opened = open_club(folder)
    if not isinstance(opened, Dataset):
        return opened
    try:
        serve_site(folder)
    except BuilderFault as fault:
        print(fault.format_message(), file=sys.stderr)
        return INTERNAL_FAULT
    return FINE
