"""What an answer may name: records of the club, its instruments, size codes; and what waits for a record to be written."""

import re
from collections.abc import Iterator

from generator.model.chain_parts import NO_PART
from generator.model.dataset import Shelf
from generator.model.kinds import MODELS
from generator.model.node import Block, LoadedFolder
from generator.validate.cross.references import REFERENCES
from generator.validate.wording import nearest

WAITS = "waits for its record"


def may_name(kind: str, field: str, club: LoadedFolder, shelf: Shelf) -> tuple[str, ...] | None:
    """Sorted; None for a field that names nothing."""
    if field in ("size_code", "takes"):
        return tuple(sorted(shelf.sizes))
    if field == "measured_with":
        tools = club.node("club.yaml").entries.get("instruments")
        return tuple(sorted(tools.value.entries)) if tools and isinstance(tools.value, Block) else ()
    target = REFERENCES.get(kind, {}).get(field)
    return None if target is None else tuple(sorted(club.node(MODELS[target].file).entries))


def is_record(kind: str, field: str) -> bool:
    return field in REFERENCES.get(kind, {})


def not_there(told: str, known: tuple[str, ...]) -> list[str]:
    """Of one id or of a list of them; `none` and `unknown` name nothing."""
    words = [word.strip() for word in told.strip("[]").split(",")]
    return [word for word in words if word not in (*known, *NO_PART)]


def says_not_there(kind: str, field: str, word: str, known: tuple[str, ...]) -> str:
    """As `handbook check` says it, before anything is written."""
    near = nearest(word, known)
    meant = f"; did you mean {near}?" if near else ""
    if field == "measured_with":
        return f"X303 there is no instrument '{word}' in club.yaml{meant}"
    if not is_record(kind, field):
        return f"X305 no sizes are known for the code '{word}'{meant}"
    target = MODELS[REFERENCES[kind][field]]
    return f"X301 there is no {target.kind_word} '{word}' in {target.file} yet{meant}"


def waiting_lines(club: LoadedFolder, kind: str, id_: str) -> Iterator[tuple[str, int, str]]:
    """File, line and field of what was told of this record before it was there."""
    for name, text in sorted(club.texts.items()):
        for number, line in enumerate(text.splitlines(), start=1):
            found = re.fullmatch(rf"  # (\w+): (.+?)  # {WAITS}", line)
            if found and id_ in not_there(found[2], ()):
                of = next((k for k, model in MODELS.items() if model.file == name), "")
                if REFERENCES.get(of, {}).get(found[1]) == kind:
                    yield name, number, found[1]
