"""`handbook serve`: what it shows while data are broken, away or being mended, and to whom."""

import http.client
import os
import shutil
import signal
import socket
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import suppress
from pathlib import Path
from threading import Thread

import pytest

from generator.cli import main
from generator.cli.exit_codes import CANNOT_READ_OR_WRITE, FINE, WRONG_USAGE
from generator.shipped import shipped_root
from generator.site.content import ClubRefused
from generator.site.serve import Shown, follow
from generator.site.serve_http import Host
from generator.site.watch import state_of
from tests.processes import running

SMALL_CLUB = shipped_root() / "data" / "problems_base"
PATIENCE = 120  # s


def asked(port: int, path: str = "/", host: str = "127.0.0.1") -> tuple[int, str]:
    connection = http.client.HTTPConnection("127.0.0.1", port, timeout=PATIENCE)
    try:
        connection.request("GET", path, headers={"Host": host})
        answer = connection.getresponse()
        return answer.status, answer.read().decode()
    finally:
        connection.close()


def until(condition: Callable[[], bool], what: str) -> None:
    limit = time.monotonic() + PATIENCE
    while not condition():
        assert time.monotonic() < limit, what
        time.sleep(0.05)


class Bench:
    """A handbook of one page whose builder does as it is told."""

    def __init__(self, folder: Path) -> None:
        self.shown, self.state = Shown(folder), 0
        self.fault: Exception | None = None
        self.host = Host("127.0.0.1", 0)
        self.host.show(self.shown)
        self.port = self.host.server_port

    def look(self) -> int:
        if self.state < 0:
            raise KeyboardInterrupt
        return self.state

    def build(self) -> None:
        if self.fault:
            raise self.fault
        self.shown.folder.joinpath("a").mkdir(exist_ok=True)
        page = f"<!doctype html><html><body><p>handbook {self.state}</p></body></html>"
        for name in ("index.html", "a/index.html", "404.html"):
            self.shown.folder.joinpath(name).write_text(page)

    def change(self, fault: Exception | None = None) -> None:
        number = self.shown.number
        self.fault = fault
        self.state += 1
        until(lambda: self.shown.number > number, "the change was not seen")


@pytest.fixture
def bench(tmp_path: Path) -> Iterator[Bench]:
    made = Bench(tmp_path)
    made.host.show(made.shown)
    threads = [Thread(target=made.host.serve_forever), Thread(target=_following, args=(made,))]
    for thread in threads:
        thread.start()
    try:
        yield made
    finally:
        made.state = -1
        made.host.shutdown()
        made.host.server_close()
        for thread in threads:
            thread.join()


def _following(bench: Bench) -> None:
    with suppress(KeyboardInterrupt):
        follow(bench.shown, bench.look, bench.build)


def test_the_last_good_state_stays_and_the_problems_have_a_page(bench: Bench) -> None:
    bench.change()
    assert "handbook 1" in asked(bench.port)[1]
    assert "See what is wrong" not in asked(bench.port)[1]
    bench.change(ClubRefused("links.yaml:3:1  L104  <b>no</b>"))
    code, page = asked(bench.port, "/a/")
    assert code == 200 and "handbook 1" in page and "See what is wrong" in page
    said = asked(bench.port, "/handbook-serve/problems")[1]
    assert "links.yaml:3:1  L104  &lt;b&gt;no&lt;/b&gt;" in said
    bench.change()
    code, page = asked(bench.port, "/a/")
    assert "handbook 3" in page and "See what is wrong" not in page
    assert "Nothing is wrong" in asked(bench.port, "/handbook-serve/problems")[1]


def test_without_any_good_state_every_address_shows_the_problems(bench: Bench) -> None:
    bench.change(ClubRefused("club.yaml:1:1  Y101  broken"))
    for path in ("/", "/a/", "/pairs/x/"):
        code, page = asked(bench.port, path)
        assert code == 503 and "club.yaml:1:1  Y101  broken" in page
    bench.change()
    assert asked(bench.port)[0] == 200


def test_an_open_page_learns_of_every_change(bench: Bench) -> None:
    """Its script compares the number it came with."""
    bench.change()
    for fault in (None, ClubRefused("problem"), None):
        page, number = asked(bench.port)[1], asked(bench.port, "/handbook-serve/number")[1]
        assert f'data-number="{number}"' in page
        bench.change(fault)
        assert asked(bench.port, "/handbook-serve/number")[1] != number


def test_only_the_names_of_this_machine_are_answered(bench: Bench) -> None:
    """A page elsewhere can have its own name lead to 127.0.0.1 and read what is served there (DNS rebinding)."""
    bench.change()
    machine = socket.gethostname()
    for name in (
        "127.0.0.1",
        f"127.0.0.1:{bench.port}",
        "localhost:8000",
        machine.upper(),
        f"{machine}.local",
    ):
        assert asked(bench.port, host=name)[0] == 200, name
    for name in (
        "rebound.example.org",
        "localhost.example.org",
        "192.0.2.7",
        "",
        "127.0.0.1.example.org:80",
        "@",
    ):
        code, page = asked(bench.port, host=name)
        assert code == 421 and "handbook 1" not in page, name
        assert asked(bench.port, "/handbook-serve/problems", host=name)[0] == 421


@pytest.mark.parametrize(
    "path", ["/../secret.txt", "/%2e%2e/secret.txt", "//secret.txt", "/a/../../secret.txt"]
)
def test_nothing_outside_the_handbook_is_shown(bench: Bench, path: str) -> None:
    bench.change()
    bench.shown.folder.parent.joinpath("secret.txt").write_text("secret")
    code, page = asked(bench.port, path)
    assert code == 404 and "secret" not in page


def test_a_folder_without_its_slash_is_led_to_it(bench: Bench) -> None:
    bench.change()
    assert asked(bench.port, "/a")[0] == 301


def test_a_fault_of_a_template_is_shown_and_ends_nothing(bench: Bench) -> None:
    bench.change(ZeroDivisionError("in a template"))
    assert "ZeroDivisionError: in a template" in asked(bench.port)[1]
    bench.change()
    assert asked(bench.port)[0] == 200


def test_what_is_watched(tmp_path: Path) -> None:
    """A folder that goes away and comes back is seen; what is built inside it is not looked at."""
    club, program = tmp_path / "club", tmp_path / "program"
    shutil.copytree(SMALL_CLUB, club)
    (program / "data" / "rules").mkdir(parents=True)
    before = state_of(club, program)
    club.rename(tmp_path / "away")
    assert state_of(club, program) != before
    tmp_path.joinpath("away").rename(club)
    assert state_of(club, program) == before
    (club / "site").mkdir()
    before = state_of(club, program)
    (club / "site" / "index.html").touch()
    assert state_of(club, program) == before
    (program / "data" / "rules" / "joint.yaml").touch()
    assert state_of(club, program) != before


def test_a_port_in_use_is_named_before_the_work(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr("generator.site.serve.follow", lambda *_: pytest.fail("the work must not even start"))
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = taken.getsockname()[1]
        monkeypatch.setenv("HANDBOOK_ADDRESS", f"127.0.0.1:{port}")
        assert main(["serve", "--club", str(SMALL_CLUB)]) == CANNOT_READ_OR_WRITE
    assert f"port {port} of 127.0.0.1 is in use" in capsys.readouterr().err


@pytest.mark.parametrize(
    "written", ["8000", "127.0.0.1", "127.0.0.1:x", "127.0.0.1:99999", "a b:80", "192.0.2.7:8000"]
)
def test_a_wrong_address_gives_2_and_a_sentence(
    written: str, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv("HANDBOOK_ADDRESS", written)
    assert main(["serve", "--club", str(SMALL_CLUB)]) == WRONG_USAGE
    assert capsys.readouterr().err.startswith("HANDBOOK_ADDRESS")


@pytest.mark.parametrize(
    "written",
    [
        "club.example.org",
        "ftp://x.org/",
        "https://",
        "https://x.org/?a",
        'https://x.org/"><b>',
        "https://x:99999/",
    ],
)
def test_a_wrong_address_of_the_site_gives_2_and_a_sentence(
    written: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv("HANDBOOK_SITE_URL", written)
    assert main(["build", "--club", str(SMALL_CLUB), "--to", str(tmp_path / "site")]) == WRONG_USAGE
    assert f"HANDBOOK_SITE_URL is '{written}'" in capsys.readouterr().err
    assert list(tmp_path.iterdir()) == []


def test_a_folder_that_is_not_there_gives_3(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("HANDBOOK_ADDRESS", "127.0.0.1:0")
    assert main(["serve", "--club", str(tmp_path / "typo")]) == CANNOT_READ_OR_WRITE


def test_the_command_follows_a_club_through_problems_and_absence(tmp_path: Path) -> None:
    club = Path(shutil.copytree(SMALL_CLUB, tmp_path / "club"))
    sound = club.joinpath("chains.yaml").read_text()
    club.joinpath("chains.yaml").write_text("a: [\n")
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    # what is started in the background by a shell has Ctrl-C ignored, and passes that on
    heeding = "import signal; signal.signal(signal.SIGINT, signal.default_int_handler)"
    command = [
        sys.executable,
        "-c",
        f"{heeding}; import generator.cli as cli; cli.run()",
        "serve",
        "--club",
        str(club),
    ]
    environment = os.environ | {
        "HANDBOOK_ADDRESS": f"127.0.0.1:{port}",
        "HANDBOOK_SITE_URL": "https://x.org/club/",
    }
    said = tmp_path / "said.txt"
    with said.open("w") as log, running(command, tmp_path, env=environment, stderr=log) as serving:

        def shows(part: str, path: str = "/") -> bool:
            assert serving.poll() is None, said.read_text()
            try:
                return part in asked(port, path)[1]
            except OSError:
                return False

        until(lambda: shows("chains.yaml:1:4  Y101"), "the problems were not shown")
        club.joinpath("chains.yaml").write_text(sound)
        until(lambda: shows("Content-Security-Policy"), "the mended club was not built")
        assert 'href="/assets/face.css"' in asked(port, "/not/here/")[1]
        club.rename(tmp_path / "away")
        until(lambda: shows("See what is wrong"), "that the folder is away was not seen")
        assert shows("F101", "/handbook-serve/problems")
        text = (tmp_path / "away" / "club.yaml").read_text()
        named = next(line for line in text.splitlines() if line.startswith("name:"))
        (tmp_path / "away" / "club.yaml").write_text(text.replace(named, "name: Renamed While Served"))
        (tmp_path / "away").rename(club)
        until(lambda: shows("Renamed While Served"), "that the folder is back was not seen")
        until(lambda: not shows("See what is wrong"), "the problems stayed")
        serving.send_signal(signal.SIGINT)
        assert serving.wait(PATIENCE) == FINE
    assert "shows the handbook; Ctrl-C stops it" in said.read_text()
