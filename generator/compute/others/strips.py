"""Every spare strip in every chain: same sprockets, same joints, same wear?"""

from collections.abc import Iterable, Mapping
from dataclasses import replace
from itertools import product

from generator.compute.fit.categories import seal_word
from generator.compute.fit.refused import size_refused
from generator.compute.fit.wear_state import wear_state
from generator.compute.others.judge import judge_meetings
from generator.compute.others.meeting import Meeting, Value, first_reason, known, met, read
from generator.compute.others.result import PartFit
from generator.compute.others.size_codes import pitch_of, relation_of
from generator.model.chain_parts import Chain, Strip
from generator.model.dataset import Dataset, Part, Shelf
from generator.model.quantity import Quantity
from generator.model.reading import Reading
from generator.rules.joined import ONE, Behind
from generator.rules.table import rules_of
from generator.rules.worn import elongation

# strip's symbol, chain's symbol, field of both
COMPARED = (
    ("sd1", "d1", "roller_diameter"),
    ("sb1", "b1", "inner_width"),
    ("sd3", "d3", "bush_bore"),
    ("sb3", "b3", "between_outer_plates"),
    ("sb2b", "b2b", "over_bush_ends"),
)
# millionths of a per cent in a part per million
OF_PPM = 100
BUSH_ENDS = "neighbour-bush-ends"
ASKED_OF_STOPPED = ("strip-size", "strip-pitch")


def strip_fits(dataset: Dataset) -> tuple[PartFit, ...]:
    pairs = product(dataset.strips.values(), dataset.chains.values())
    meetings = [_meeting(dataset, strip, chain) for strip, chain in pairs]
    rules = rules_of(dataset, "strip", "neighbours")
    return judge_meetings(meetings, rules, "strip", dataset)


def bush_end_fits(dataset: Dataset, pairs: Iterable[tuple[Part[Strip], Part[Chain]]]) -> tuple[PartFit, ...]:
    """The one check that a joint between strip and chain adds to its two sides, by itself."""
    meetings = [replace(_meeting(dataset, strip, chain), stopped_by=(BUSH_ENDS,)) for strip, chain in pairs]
    return judge_meetings(meetings, rules_of(dataset, "neighbours"), "strip", dataset)


def _meeting(dataset: Dataset, strip: Part[Strip], chain: Part[Chain]) -> Meeting:
    refused = strip_refused(dataset, strip) or chain_refused(dataset, chain)
    if refused:
        return Meeting("strip", met(strip, chain), refused=refused)
    values = _values(dataset, strip, chain)
    size = relation_of(dataset, strip.record.size_code, chain.record.size_code)
    return Meeting(
        "strip",
        met(strip, chain),
        values=values,
        case={
            "rollers": known(values["sd1"], values["d1"]),
            "widths": known(values["sb1"], values["b1"]),
            # one inner link alone has no outer plates
            "outer": "yes" if strip.record.pitches > 1 else "no",
            "loop": "same" if _same_loop(strip, chain) else "other",
        },
        words={
            "strip-size": size,
            "kind": "same" if strip.record.kind == chain.record.kind else "differs",
            "seal": seal_word(chain.record.seal, strip.record.seal),
            "wear": wear_state(dataset, chain),
            "always": "always",
        },
        asks={
            "seal": _seal_asked(strip, chain),
            "wear": Reading("chain", chain.id, "elongation"),
        },
        stopped_by=ASKED_OF_STOPPED if size == "other-pitch" else (),
    )


def strip_refused(dataset: Dataset, strip: Part[Strip]) -> str | None:
    return size_refused(dataset, strip.record.size_code, "strip") or first_reason(
        ((strip.record.kind == "unknown", "it is not known whether the strip is plain or sealed"),)
    )


def chain_refused(dataset: Dataset, chain: Part[Chain]) -> str | None:
    return size_refused(dataset, chain.record.size_code, "chain") or first_reason(
        (
            (chain.record.kind == "unknown", "it is not known whether the chain is plain or sealed"),
            (chain.record.state == "modified", "the chain was modified"),
        )
    )


def _values(dataset: Dataset, strip: Part[Strip], chain: Part[Chain]) -> Mapping[str, Value]:
    values: dict[str, Value] = {}
    for of_strip, of_chain, field in COMPARED:
        values |= {of_strip: read(strip, field), of_chain: read(chain, field)}
    return values | {
        "sp": _pitch(dataset, strip),
        # wear shows in what is read on a chain, and is judged as elongation: its pitch is that of its size code
        "p": pitch_of(dataset, chain.record.size_code),
        "es": _elongation(strip, dataset.shelf),
        "ec": _elongation(chain, dataset.shelf),
    }


def _pitch(dataset: Dataset, strip: Part[Strip]) -> Value:
    """As read; where it was not, the one its size code stands for."""
    own = read(strip, "pitch")
    return own if own.quantity else pitch_of(dataset, strip.record.size_code)


def _same_loop(strip: Part[Strip], chain: Part[Chain]) -> bool:
    """Cut from it and not ridden since: nobody need measure either."""
    return strip.record.cut_from == chain.id and strip.record.ridden_since is False


def _elongation(part: Part[Strip] | Part[Chain], shelf: Shelf) -> Value:
    """Per cent, in millionths; of what nobody measured anything up to the most that runs."""
    found = elongation(part, shelf)
    per_cent = Quantity(
        found.low * OF_PPM,
        found.nominal * OF_PPM,
        found.high * OF_PPM,
        found.evidence,
        found.source,
        found.text,
    )
    read = None if found.evidence == "unknown" else per_cent
    return Value(per_cent, (Behind(Reading(part.kind, part.id, "elongation"), ONE, read),))


def _seal_asked(strip: Part[Strip], chain: Part[Chain]) -> Reading:
    part = strip if strip.record.seal == "unknown" else chain
    return Reading(part.kind, part.id, "seal")
