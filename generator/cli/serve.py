"""`handbook serve`: the handbook on this machine, built again when data, templates or pages change."""

import errno
import gc
import socket
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from generator.cli.club import club_folder
from generator.cli.exit_codes import CANNOT_READ_OR_WRITE, FINE
from generator.cli.settings import WrongSetting, address
from generator.load.folder import load_club
from generator.problems.report import text_report

if TYPE_CHECKING:
    from generator.site.serve_http import Host


def serve(club: Path | None) -> int:
    """The port is tried first; a folder that is not there now is refused, one that goes away later is waited for."""
    gc.enable()  # it goes on for days
    host = _bound(*address())
    if host is None:
        return CANNOT_READ_OR_WRITE
    from generator.site.serve import serve_site

    folder = club_folder(club)
    read = load_club(folder)
    if read.unreadable:
        host.server_close()
        sys.stderr.write(text_report(read.problems, read.texts))
        return CANNOT_READ_OR_WRITE
    name = f"[{host.name}]" if ":" in host.name else host.name
    print(f"http://{name}:{host.server_port}/ shows the handbook; Ctrl-C stops it", file=sys.stderr)
    serve_site(folder.resolve(), host)
    return FINE


def _bound(name: str, port: int) -> "Host | None":
    from generator.site.serve_http import Host

    try:
        return Host(name, port)
    except socket.gaierror as fault:
        raise WrongSetting(f"HANDBOOK_ADDRESS names the host '{name}', which is not known here") from fault
    except OSError as fault:
        if fault.errno == errno.EADDRNOTAVAIL:
            raise WrongSetting(f"HANDBOOK_ADDRESS: {name} is not an address of this machine") from fault
        why = "is in use" if fault.errno == errno.EADDRINUSE else f"cannot be had: {fault.strerror}"
        print(
            f"port {port} of {name} {why}; HANDBOOK_ADDRESS={name}:{port + 1} names another", file=sys.stderr
        )
        return None
