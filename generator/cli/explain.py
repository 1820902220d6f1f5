"""`handbook explain`: one pair on one screen, or with every option, check and edge."""

import sys
from dataclasses import dataclass, replace
from pathlib import Path
from textwrap import fill

from generator.cli.club import open_club
from generator.cli.exit_codes import FINE, WRONG_USAGE
from generator.cli.ids import wrong_ids
from generator.compute.fit.by_bike import apart_on
from generator.compute.fit.fits import explain_pair, fit_table
from generator.compute.fit.options import bench
from generator.compute.fit.result import OptionFit
from generator.compute.next_act import next_act
from generator.model.dataset import Dataset

WIDTH = 80
_CLOSED_BY = {"rivet": "is riveted", "screw": "is closed by nuts"}


@dataclass(frozen=True, slots=True)
class Asked:
    """What the command line asks for; `chain` may be the id of a bike, which stands for its chain and its room."""

    chain: str
    link: str
    clip: str | None = None
    bike: str | None = None
    every: bool = False
    as_json: bool = False


def explain(club: Path | None, asked: Asked) -> int:
    """Exit code 0 whatever the answer; 2 for an id the club does not have."""
    opened = open_club(club, in_full=False, quick=True)
    if not isinstance(opened, Dataset):
        return opened
    asked = _on_its_bike(opened, asked)
    wrong = wrong_ids(opened, asked.chain, asked.link, asked.clip, asked.bike)
    if wrong:
        print("\n".join(_folded(message) for message in wrong), file=sys.stderr)
        return WRONG_USAGE
    sys.stdout.write(_answer(opened, asked))
    return FINE


def _on_its_bike(dataset: Dataset, asked: Asked) -> Asked:
    """A bike where a chain is asked for is that bike with its chain."""
    bike = dataset.bikes.get(asked.chain)
    if bike is None or asked.chain in dataset.chains:
        return asked
    return replace(asked, chain=bike.record.chain, bike=asked.bike or bike.id)


def _answer(dataset: Dataset, asked: Asked) -> str:
    if asked.bike is not None:
        dataset = replace(dataset, bikes={asked.bike: dataset.bikes[asked.bike]})
    brief = not (asked.as_json or asked.every or asked.clip is not None)
    options: tuple[OptionFit, ...] = ()
    if brief:
        (fit,) = fit_table(dataset, [asked.chain], [asked.link])
    else:
        fit, options = explain_pair(dataset, asked.chain, asked.link)
    shown = tuple(option for option in options if asked.clip in (None, option.clip))
    if asked.clip is not None and options and not shown:
        print(_folded(_no_option(dataset, asked.link, asked.clip)), file=sys.stderr)
    act = next_act(dataset, fit)
    if asked.as_json:
        from generator.render.contract.envelope import json_text
        from generator.render.contract.fits_json import explain_document

        return json_text(explain_document(dataset, fit, shown, apart_on(dataset, fit), act))
    if asked.every or asked.clip is not None:
        from generator.render.explain_long import explain_long

        return explain_long(dataset, fit, shown, apart_on(dataset, fit), asked.clip)
    from generator.render.explain_text import explain_text

    return explain_text(dataset, fit, act, asked.bike)


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
    if link in bench(dataset).ruled_out.get(clip, ()):
        return f"clip '{clip}' lies with links of another pitch, and the spacing of its seats was not read: no option with it to show"
    return f"the pitch alone keeps the pair apart, whatever the clip: no option with '{clip}' to show"
