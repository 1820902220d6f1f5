"""`handbook explain`: one pair with every option, check, edge and what to measure next.

Goes in: ids.  Comes out: text for a person, or the JSON of the contract.
"""

import sys
from collections.abc import Iterable, Mapping
from difflib import get_close_matches
from pathlib import Path

from generator.cli.club import open_club
from generator.cli.exit_codes import FINE, WRONG_USAGE
from generator.compute.fit.fits import explain_pair
from generator.model.dataset import Dataset
from generator.render.contract.envelope import json_text
from generator.render.contract.fits_json import explain_document
from generator.render.explain_text import explain_text


def explain(club: Path | None, chain: str, link: str, clip: str | None, as_json: bool) -> int:
    """Exit code 0 whatever the answer; 2 for an id the club does not have."""
    opened = open_club(club)
    if not isinstance(opened, Dataset):
        return opened
    wrong = list(_unknown_ids(opened, chain, link, clip))
    for message in wrong:
        print(message, file=sys.stderr)
    if wrong:
        return WRONG_USAGE
    fit, options = explain_pair(opened, chain, link)
    shown = tuple(option for option in options if clip in (None, option.clip))
    if as_json:
        sys.stdout.write(json_text(explain_document(opened, fit, shown)))
    else:
        sys.stdout.write(explain_text(opened, fit, shown))
    return FINE


def _unknown_ids(dataset: Dataset, chain: str, link: str, clip: str | None) -> Iterable[str]:
    asked: tuple[tuple[str, str | None, Mapping[str, object]], ...] = (
        ("chain", chain, dataset.chains),
        ("connecting link", link, dataset.links),
        ("clip", clip, dataset.clips),
    )
    for kind, id_, known in asked:
        if id_ is not None and id_ not in known:
            near = get_close_matches(id_, known, n=1, cutoff=0.5)
            hint = f"; did you mean '{near[0]}'?" if near else f"; known: {', '.join(list(known)[:12])}"
            yield f"there is no {kind} '{id_}'{hint}"
