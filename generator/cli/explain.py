"""`handbook explain`: one pair with every option, check, edge and what to measure next.

Goes in: ids.  Comes out: text for a person, or the JSON of the contract.
"""

import sys
from pathlib import Path
from textwrap import fill

from generator.cli.club import open_club
from generator.cli.exit_codes import FINE, WRONG_USAGE
from generator.cli.ids import wrong_ids
from generator.compute.fit.by_bike import apart_on
from generator.compute.fit.fits import explain_pair
from generator.model.dataset import Dataset
from generator.render.contract.envelope import json_text
from generator.render.contract.fits_json import explain_document
from generator.render.explain_text import explain_text

WIDTH = 80
_CLOSED_BY = {"rivet": "is riveted", "screw": "is closed by nuts"}


def explain(club: Path | None, chain: str, link: str, clip: str | None, as_json: bool) -> int:
    """Exit code 0 whatever the answer; 2 for an id the club does not have."""
    opened = open_club(club, in_full=False)
    if not isinstance(opened, Dataset):
        return opened
    wrong = wrong_ids(opened, chain, link, clip)
    if wrong:
        print("\n".join(_folded(message) for message in wrong), file=sys.stderr)
        return WRONG_USAGE
    fit, options = explain_pair(opened, chain, link)
    shown = tuple(option for option in options if clip in (None, option.clip))
    if clip is not None and options and not shown:
        print(_folded(_no_option(opened, link, clip)), file=sys.stderr)
    on_bikes = apart_on(opened, fit)
    if as_json:
        sys.stdout.write(json_text(explain_document(opened, fit, shown, on_bikes)))
    else:
        sys.stdout.write(explain_text(opened, fit, shown, on_bikes))
    return FINE


def _folded(message: str) -> str:
    """On lines of a narrow terminal, ids whole."""
    return fill(message, WIDTH, subsequent_indent="  ", break_on_hyphens=False, break_long_words=False)


def _no_option(dataset: Dataset, link: str, clip: str) -> str:
    """Why no option of the link has this clip: an answer too, so not a fault."""
    closure = dataset.links[link].record.closure
    if closure in _CLOSED_BY:
        return f"link '{link}' {_CLOSED_BY[closure]} and has no clip: no option with '{clip}' to show"
    if dataset.clips[clip].record.count == 0:
        return f"none of clip '{clip}' is left (count: 0): no option with it to show"
    return f"the pitch alone keeps the pair apart, whatever the clip: no option with '{clip}' to show"
