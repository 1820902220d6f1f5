"""The demo's handbook is the same to the byte wherever, whenever and by whomever it is built."""

import shutil
import subprocess
import sys
from pathlib import Path

from generator.shipped import shipped_root
from tests.test_site_shell import other_machine, tree

# another day: every way that Python reads the clock is moved, before anything else is imported
COMMAND = """
import datetime, os, sys, time
os.umask(0o077)
ahead = 400 * 86400 + 12345
real, moved = time.time, lambda: real() + ahead
time.time, time.time_ns = moved, lambda: int(moved() * 10**9)
local, utc = time.localtime, time.gmtime
time.localtime = lambda s=None: local(moved() if s is None else s)
time.gmtime = lambda s=None: utc(moved() if s is None else s)
class Day(datetime.date):
    @classmethod
    def today(cls):
        return cls.fromtimestamp(moved())
class Moment(datetime.datetime):
    @classmethod
    def now(cls, tz=None):
        return cls.fromtimestamp(moved(), tz)
    @classmethod
    def utcnow(cls):
        return cls.fromtimestamp(moved(), datetime.timezone.utc).replace(tzinfo=None)
datetime.date, datetime.datetime = Day, Moment
assert datetime.datetime.now().date() > datetime.date(2000, 1, 1)
from generator.cli import main
sys.exit(main(sys.argv[1:]))
"""


def test_the_demo_is_the_same_to_the_byte(demo_folder: Path, tmp_path: Path) -> None:
    """Another folder for club and target, time zone, hash seed, umask, language, day, SOURCE_DATE_EPOCH."""
    club = Path(shutil.copytree(shipped_root() / "data" / "demo", tmp_path / "a b" / "Club ü"))
    target = tmp_path / "elsewhere" / "deep" / "site"
    command = [sys.executable, "-c", COMMAND, "build", "--club", str(club), "--to", str(target)]
    subprocess.run(command, env=other_machine(), cwd=tmp_path, check=True, capture_output=True)
    assert tree(target) == tree(demo_folder)
