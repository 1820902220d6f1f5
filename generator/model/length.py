"""Lengths, forces and masses as people write them, in exact base units."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace
from difflib import get_close_matches
from fractions import Fraction

from generator.model.quantity import EVIDENCE_ORDER, Evidence
from generator.model.reading_text import read_value
from generator.model.told_text import told_value
from generator.model.units import FORCES, LENGTHS, MASSES, Units
from generator.model.written import LengthFault, Written

BLOCK_KEYS = ("is", "from", "plus_minus", "source")
_SOURCE = re.compile(r"[a-z0-9][a-z0-9-]{0,39}\[[^\[\]]{1,80}\]")


def parse_length(value: object) -> Written:
    """A length in nanometres."""
    return _parse(value, LENGTHS)


def parse_force(value: object) -> Written:
    """A force in millinewtons."""
    return _parse(value, FORCES)


def parse_mass(value: object) -> Written:
    """A mass in milligrams."""
    return _parse(value, MASSES)


def block_fault_key(block: Mapping[str, object], code: str, message: str) -> str | None:
    """Which key of a block is at fault, so that the caret can stand under it."""
    for key in ("is", "plus_minus"):
        for units in (LENGTHS, FORCES, MASSES):
            try:
                _inner(block.get(key, "unknown"), units)
            except LengthFault as fault:
                if (fault.code, fault.message) == (code, message):
                    return key
    if code == "L120":
        return next((key for key in block if key not in BLOCK_KEYS), None)
    return {"L122": "from", "L123": "source", "L124": "plus_minus"}.get(code)


def _parse(value: object, units: Units) -> Written:
    if isinstance(value, str):
        return _text(value, units)
    if isinstance(value, Mapping):
        return _block(value, units)
    fix = f"write one value, such as {units.example}, or several readings on one line"
    raise LengthFault("L125", f"a list is not a {units.what}", fix)


def _inner(value: object, units: Units) -> Written:
    if not isinstance(value, str):
        message = f"one {units.what} is needed here, not a list or a block"
        raise LengthFault("L125", message, f"write {units.example}")
    return _text(value, units)


def _text(value: str, units: Units) -> Written:
    told = told_value(value, units) if units is LENGTHS else None
    return told or read_value(value, units)


def _block(block: Mapping[object, object], units: Units) -> Written:
    for key in block:
        if key not in BLOCK_KEYS:
            fix = _nearest(str(key), BLOCK_KEYS)
            raise LengthFault("L120", f"a {units.what} has no key '{str(key)[:60]}'", fix)
    if "is" not in block:
        raise LengthFault("L121", f"the {units.what} itself is missing", f"add is: {units.example}")
    written = _inner(block["is"], units)
    half = _block_half(block, written, units)
    return replace(written, plus_minus=half, evidence=_evidence(block), source=_source(block))


def _block_half(block: Mapping[object, object], written: Written, units: Units) -> Fraction | None:
    if "plus_minus" not in block:
        return written.plus_minus
    half = _inner(block["plus_minus"], units)
    if written.plus_minus is not None or written.is_unknown:
        message = "plus_minus stands beside a ± already written, or beside unknown"
        raise LengthFault("L124", message, "write it once, beside a value")
    if len(half.readings) != 1 or half.plus_minus is not None or half.readings[0] == 0:
        message = f"'{half.text[:60]}' is not one plus-minus"
        raise LengthFault("L124", message, "write one value, such as 0.05 mm")
    return half.readings[0]


def _evidence(block: Mapping[object, object]) -> Evidence | None:
    word = block.get("from")
    known = next((evidence for evidence in EVIDENCE_ORDER if evidence == word), None)
    if word is not None and known is None:
        fix = _nearest(str(word), EVIDENCE_ORDER)
        raise LengthFault("L122", f"'{str(word)[:60]}' is not an evidence word", fix)
    return known


def _source(block: Mapping[object, object]) -> str | None:
    source = block.get("source")
    if source is None:
        return None
    if not isinstance(source, str) or not _SOURCE.fullmatch(source):
        message = f"'{str(source)[:60]}' does not cite a source"
        raise LengthFault("L123", message, "write id[place], such as chain-handbook[table 1.9]")
    return source


def _nearest(word: str, choices: Sequence[str]) -> str:
    near = get_close_matches(word, choices, 1)
    hint = f"did you mean {near[0]}? " if near else ""
    return f"{hint}use {', '.join(choices)}"
