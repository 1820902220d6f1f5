"""A starter club folder: every file with commented records, so that a club begins by filling in."""

import json
from collections.abc import Iterable, Mapping
from typing import Any

from generator.model.club import Club, Instrument, RuleOverride
from generator.model.kinds import MODELS
from generator.model.record import Record
from generator.model.shipped import InstrumentKind
from generator.model.wear_row import WearRow
from generator.render.schema.club import club_schemas, schema_file
from generator.render.schema.field_facts import MAY_BE_UNKNOWN, FieldFacts, field_facts
from generator.render.schema.folder_guide import files_text
from generator.render.schema.publishing import PUBLISHING

# nobody reads the clock, so a new folder needs a day to speak for
FIRST_DAY = "2027-01-01"


def starter_files(instruments: Mapping[str, InstrumentKind], wear_limits: Iterable[str]) -> dict[str, str]:
    """Every file of the folder, with the schemas its editor lines point to."""
    files = {kind.file: _records_text(kind) for kind in MODELS.values()}
    files[Club.file] = _club_text(instruments, wear_limits)
    files[WearRow.file] = ",".join(WearRow.model_fields) + "\n"
    files["PUBLISHING.md"] = PUBLISHING
    files["FILES.md"] = files_text()
    return files | {f"schema/{name}": schema_text(schema) for name, schema in club_schemas().items()}


def schema_text(schema: Mapping[str, Any]) -> str:
    return json.dumps(schema, indent=2, sort_keys=True, ensure_ascii=False) + "\n"


def _records_text(kind: type[Record]) -> str:
    """The record waits behind a #, so that nothing invented gets into a handbook."""
    record = [f"first-{kind.kind_word.replace(' ', '-')}:", *_field_lines(field_facts(kind))]
    head = [
        _editor_line(kind.file),
        f"# {' '.join((kind.__doc__ or '').split())}",
        f"# One record each; its id is {_id_advice(kind)}. Small letters, digits and hyphens.",
        "# Take away the # and the blank behind it from the first line and from each line you need, and write its value.",
        "# What is left behind its # is not known; nothing here is a value until you write it.",
        "# The schema folder tells your editor what may stand where; `handbook check` tells you all that is wrong.",
        "",
    ]
    return "\n".join([*head, *_behind_hash(record)]) + "\n"


def _id_advice(kind: type[Record]) -> str:
    return "the id of a shipped rule" if kind is RuleOverride else "what is written on the bag or tag"


def _club_text(instruments: Mapping[str, InstrumentKind], wear_limits: Iterable[str]) -> str:
    ready = {"name": "Our club", "id": "our-club", "as_of": FIRST_DAY}
    notes = {
        "as_of": "Nothing here reads the clock. This day stands in until you write that of your last look at the"
        "\ndata: a reading after it is refused. Once any record has a date you may take the line out.",
        "wear_rule": f"One of: {', '.join(wear_limits)}",
    }
    advice = "# Take away the # and the blank behind it from a line to use it."
    lines = [_editor_line(Club.file), f"# {Club.__doc__}", advice, ""]
    for fact in field_facts(Club):
        if fact.name == "instruments":
            lines += _instrument_lines(instruments)
            continue
        lines += _comment(fact, notes.get(fact.name, ""), "")
        lines.append(
            f"{fact.name}: {ready[fact.name]}"
            if fact.name in ready
            else f"# {fact.name}: {_value(fact)}".rstrip()
        )
    return "\n".join(lines) + "\n"


def _instrument_lines(kinds: Mapping[str, InstrumentKind]) -> list[str]:
    block = ["instruments:", "  shed-caliper:"]
    for fact in field_facts(Instrument):
        note = _kinds_note(kinds) if fact.name == "kind" else ""
        value = _least_exact(kinds) if fact.name == "kind" else _value(fact)
        block += [
            *_comment(fact, note, "    "),
            f"    {'' if fact.required else '# '}{fact.name}: {value}".rstrip(),
        ]
    return [
        "# The club's instruments, each under an id that records name in measured_with.",
        *_behind_hash(block),
    ]


def _kinds_note(kinds: Mapping[str, InstrumentKind]) -> str:
    return f"One of: {', '.join(kinds)};\nor own, then with its plus-minus below. As it stands: the least exact caliper."


def _least_exact(kinds: Mapping[str, InstrumentKind]) -> str:
    """A kind left as it stands must not make readings look better than they are."""
    with_jaws = {
        id_: max(kind.outside.readings)
        for id_, kind in kinds.items()
        if kind.outside and kind.inside and kind.depth
    }
    return max(with_jaws, key=lambda id_: (with_jaws[id_], id_))


def _field_lines(facts: Iterable[FieldFacts]) -> list[str]:
    return [
        line
        for fact in facts
        for line in (*_comment(fact, "", "  "), f"  {fact.name}: {_value(fact)}".rstrip())
    ]


def _comment(fact: FieldFacts, note: str, indent: str) -> list[str]:
    """Whether it must be there, what may be written, what it means."""
    need = "required" if fact.required else "optional"
    symbol = f" ({fact.symbol})" if fact.symbol else ""
    default = f"; left out: {fact.default}" if fact.default else ""
    lines = [f"{indent}# {need}{symbol}, {fact.holds}{default}. {fact.description}"]
    return [*lines, *(f"{indent}# {line}" for line in note.splitlines())]


def _value(fact: FieldFacts) -> str:
    """Unknown where that is allowed; else nothing, which `handbook check` refuses until somebody writes it."""
    return "unknown" if fact.kind in MAY_BE_UNKNOWN or "unknown" in fact.choices else ""


def _behind_hash(lines: Iterable[str]) -> list[str]:
    return [f"# {line}" for line in lines]


def _editor_line(file: str) -> str:
    return f"# yaml-language-server: $schema=schema/{schema_file(file)}"
