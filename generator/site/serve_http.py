"""The host of `handbook serve`: the pages of a folder, each told when there are newer ones or problems."""

import os
import socket
from functools import cache
from http import HTTPStatus
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import Protocol
from urllib.parse import unquote, urlsplit

from jinja2 import FileSystemLoader, Template

from generator.render.environment import environment
from generator.shipped import shipped_root

OWN = "/handbook-serve/"  # addresses below it are the host's own
_SCRIPT = """
const here = document.currentScript.dataset.number;
const look = () => fetch("/handbook-serve/number").then(answer => answer.text())
  .then(number => { if (number !== here) location.reload(); }, () => {});
setInterval(look, 1000);
"""
_TEXTS = {
    "script.js": ("text/javascript", _SCRIPT),
    "style.css": (
        "text/css",
        ".serve-problems{background:#fff;color:#8a0000;border-bottom:4px solid;padding:8px 16px}",
    ),
}


class Showing(Protocol):
    """What is to be shown, as the builder leaves it."""

    @property
    def folder(self) -> Path: ...
    @property
    def number(self) -> int: ...
    @property
    def problems(self) -> str: ...
    def is_built(self) -> bool: ...


class Host(ThreadingHTTPServer):
    """Bound when it is made: an OSError where the port is in use."""

    daemon_threads = True
    allow_reuse_address = os.name != "nt"  # there it would take the port from whoever has it

    def __init__(self, name: str, port: int) -> None:
        self.address_family = socket.AF_INET6 if ":" in name else socket.AF_INET
        self.name = name
        super().__init__((name, port), _Handler)

    def show(self, shown: Showing) -> None:
        self.shown = shown

    def answers_to(self, asked: str, own_address: str) -> bool:
        """A page elsewhere may have a name of its own lead here; only ours are answered."""
        name = (urlsplit(f"//{asked}").hostname or "").rstrip(".")
        machine = socket.gethostname().lower()
        return name in {"localhost", self.name.lower(), own_address.lower(), machine, f"{machine}.local"}


class _Handler(SimpleHTTPRequestHandler):
    server: Host

    def log_message(self, format: str, *args: object) -> None:
        """Silent: the terminal is for problems."""

    def do_HEAD(self) -> None:
        self.do_GET()

    def do_GET(self) -> None:
        path = unquote(urlsplit(self.path).path)
        if not self._is_for_us():
            self._send(HTTPStatus.MISDIRECTED_REQUEST, "text/plain", b"this host does not go by that name\n")
        elif path.startswith(OWN):
            self._own(path.removeprefix(OWN))
        elif not self.server.shown.is_built():
            self._send(HTTPStatus.SERVICE_UNAVAILABLE, "text/html", self._state_page())
        else:
            self._file(path)

    def _is_for_us(self) -> bool:
        asked = self.headers.get("Host", "")
        return self.server.answers_to(asked, str(self.connection.getsockname()[0]))

    def _own(self, name: str) -> None:
        shown = self.server.shown
        texts = _TEXTS | {"number": ("text/plain", str(shown.number))}
        if name == "problems":
            self._send(HTTPStatus.OK, "text/html", self._state_page())
        elif name in texts:
            kind, text = texts[name]
            self._send(HTTPStatus.OK, kind, text.encode())
        else:
            self._send(HTTPStatus.NOT_FOUND, "text/plain", b"there is nothing here\n")

    def _state_page(self) -> bytes:
        return self._with_news(_template("handbook/serve.html").render(shown=self.server.shown))

    def _file(self, path: str) -> None:
        folder = self.server.shown.folder
        file = folder.joinpath(path.lstrip("/"))
        if file.is_dir() and not path.endswith("/"):
            self.send_response(HTTPStatus.MOVED_PERMANENTLY)
            self.send_header("Location", f"{urlsplit(self.path).path}/")
            self.send_header("Content-Length", "0")
            self.end_headers()
            return
        file, code = (file / "index.html" if file.is_dir() else file), HTTPStatus.OK
        if not file.is_file() or not file.resolve().is_relative_to(folder.resolve()):
            file, code = folder / "404.html", HTTPStatus.NOT_FOUND
        try:
            content = file.read_bytes()
        except OSError:  # exchanged for a newer handbook at this moment
            self._send(HTTPStatus.SERVICE_UNAVAILABLE, "text/html", self._state_page())
            return
        kind = self.guess_type(str(file))
        self._send(code, kind, self._with_news(content.decode()) if kind == "text/html" else content)

    def _with_news(self, html: str) -> bytes:
        """A line above a page that is not the newest, and the script that fetches newer ones."""
        news = _template("handbook/serve_news.html").render(shown=self.server.shown)
        head, body, rest = html.partition("<body>")
        return f"{head}{body}{news}{rest}".encode()

    def _send(self, code: HTTPStatus, kind: str, content: bytes) -> None:
        self.send_response(code)
        self.send_header("Content-Type", f"{kind}; charset=utf-8" if kind.startswith("text/") else kind)
        self.send_header("Content-Length", str(len(content)))
        self.send_header("Cache-Control", "no-store")
        self.end_headers()
        if self.command != "HEAD":
            self.wfile.write(content)


@cache
def _template(name: str) -> Template:
    return environment(FileSystemLoader(shipped_root() / "site_overrides")).get_template(name)
