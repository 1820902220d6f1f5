"""The names that the rules for other parts speak of, table by table: what each stands for there."""

from collections.abc import Mapping
from functools import cache

from generator.rules.forms import Vocabulary, dimension
from generator.rules.symbols import SYMBOLS

_OF_JOINT = ("k", "k0", "cs", "cm", "csp", "ks", "bw", "gw", "gd", "pl")
_STRIP: Mapping[str, str] = {
    "sd1": "roller of the strip",
    "d1": "roller of the chain",
    "sb1": "between the inner plates of the strip",
    "b1": "between the inner plates of the chain",
    "sd3": "bore of the strip's bush",
    "d3": "bore of the chain's bush",
    "sb3": "between the outer plates of the strip",
    "b3": "between the outer plates of the chain",
    "sb2b": "over the bush ends of the strip",
    "b2b": "over the bush ends of the chain",
    "sp": "pitch of the strip, as read or by its size code",
    "p": "nominal pitch of the chain, by its size code",
    "es": "elongation of the strip",
    "ec": "elongation of the chain",
}
# by file of rules; the others speak of the names of a joint
OTHER_SYMBOLS: Mapping[str, Mapping[str, str]] = {
    "clip_link": {name: SYMBOLS[name].words for name in _OF_JOINT},
    "plate": {
        "t": "thickness of the loose plate",
        "h": "height of the loose plate",
        "hs": "between the holes of the loose plate",
        "p": "the pitch that the size code of the loose plate stands for",
        "tc": "thickness of the link's own side plate",
        "h2": "height of the link's own side plate",
        "pl": "nominal pitch of the link, by its size code",
    },
    "strip": _STRIP,
    "neighbours": _STRIP,
    "tool": {
        "jaw": "widest thing that goes between the jaws of the tool",
        "tp": "the tool's pushing pin",
        "b4": "over two riveted heads of the chain",
        "pd": "pin of the chain",
        "L": "pin of the link, fixed plate to tip",
        "t": "side plate of the link",
    },
    "key": {},
    "in_use": {},
}


@cache
def vocabulary_of(table: str) -> Vocabulary:
    """Names that stand for dimensions only."""
    return Vocabulary({name: dimension(name) for name in OTHER_SYMBOLS[table]})
