"""Ids typed on the command line: are they there, are they of the right kind, what was meant?"""

from collections.abc import Iterator, Mapping, Sequence

from generator.model.dataset import Dataset, Part
from generator.model.kinds import MODELS, PART_KINDS
from generator.model.record import Record
from generator.render.say.names import parts_of
from generator.validate.wording import nearest

# so many ids fit on two lines of a terminal
MOST_NAMED = 12
# an id has at most 40 characters
MOST_SHOWN = 60


def wrong_ids(
    dataset: Dataset, chain: str, link: str, clip: str | None, bike: str | None = None
) -> tuple[str, ...]:
    """One message an id; one for both where chain and link stand the wrong way round."""
    if chain in dataset.links and link in dataset.chains:
        return (f"'{link}' is a chain, '{chain}' a connecting link: write handbook explain {link} {chain}",)
    asked = (("chain", chain), ("link", link), ("clip", clip), ("bike", bike))
    found = [message for kind, id_ in asked if id_ is not None for message in _wrong(dataset, kind, id_)]
    known = dataset.bikes.get(bike or "")
    if not found and known is not None and known.record.chain != chain:
        found.append(f"bike '{known.id}' runs chain '{known.record.chain}', not '{chain}'")
    return tuple(found)


def _wrong(dataset: Dataset, kind: str, typed: str) -> Iterator[str]:
    known, id_ = parts_of(dataset, kind), _shown(typed)
    if typed in known:
        return
    other = next((each for each in PART_KINDS if id_ in parts_of(dataset, each)), None)
    if other is not None:
        yield f"'{id_}' is a {MODELS[other].kind_word}, not a {MODELS[kind].kind_word}{_known(known)}"
        return
    near = nearest(id_, tuple(known))
    hint = f"; did you mean '{near}'?" if near else _known(known)
    yield f"there is no {MODELS[kind].kind_word} '{id_}'{hint}"


def _shown(typed: str) -> str:
    """What was typed, short, and without characters that upset a terminal."""
    printable = "".join(c if c.isprintable() else "\ufffd" for c in typed)
    return printable if len(printable) <= MOST_SHOWN else f"{printable[:MOST_SHOWN]}..."


def _known(known: Mapping[str, Part[Record]]) -> str:
    return f"; known: {first_few(tuple(known))}" if known else "; the club has none"


def first_few(ids: Sequence[str]) -> str:
    """`a, b and 3 more`."""
    named = ", ".join(ids[:MOST_NAMED])
    return f"{named} and {len(ids) - MOST_NAMED} more" if len(ids) > MOST_NAMED else named
