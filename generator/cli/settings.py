"""What the environment says of where a handbook is published and shown."""

import os
import re

_URL = re.compile(r"https?://[\w.-]+(:\d{1,5})?(/[\w.~!$&'()*+,;=:@%/-]*)?")
_ADDRESS = re.compile(r"(\[(?P<six>[0-9A-Fa-f:]+)\]|(?P<name>[\w.-]+)):(?P<port>\d{1,5})")
MOST_PORT = 65535


class WrongSetting(Exception):
    """A variable of the environment that cannot be used; the message is a sentence."""


def check_site_url() -> None:
    """The site builder reads HANDBOOK_SITE_URL itself; this says beforehand, in plain words, what is wrong with it."""
    written = os.environ.get("HANDBOOK_SITE_URL", "")
    found = _URL.fullmatch(written)
    if written and (found is None or int((found[1] or ":0")[1:]) > MOST_PORT):
        raise WrongSetting(
            f"HANDBOOK_SITE_URL is '{written}': write the whole address of the site, as https://club.example.org/chains/"
        )


def address() -> tuple[str, int]:
    """Host and port of HANDBOOK_ADDRESS, where `serve` shows the handbook."""
    written = os.environ.get("HANDBOOK_ADDRESS", "") or "127.0.0.1:8000"
    found = _ADDRESS.fullmatch(written)
    if found is None or int(found["port"]) > MOST_PORT:
        raise WrongSetting(f"HANDBOOK_ADDRESS is '{written}': write host and port, as 127.0.0.1:8000")
    return found["six"] or found["name"], int(found["port"])
