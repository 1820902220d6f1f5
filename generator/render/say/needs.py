"""What the tools of a joint are called, and what is said where one is missing."""

from collections.abc import Mapping

from generator.render.base.components import Need

PRESS_FOR = "A side-plate press"
RIVETER_FOR = "A riveter for these pins"
BREAKER_FOR = "A breaker that opens this chain"
NONE_OF_THE_CLUB: Mapping[str, str] = {
    "press": "Side-plate press",
    "riveter": "Riveter",
    "breaker": "Breaker",
    "pliers": "Narrow pliers",
}
NO_TOOL: Mapping[str, str] = {
    "press": "missing: no press of the club takes it",
    "riveter": "missing: no riveter of the club takes it",
    "breaker": "missing: no breaker of the club opens it",
    "pliers": "missing: the club has none",
}
NOT_MEASURED = "not measured: its jaws may be too small"
GREASE = Need("grease", "Grease, clean rag", detail="for pins and seals")
GOGGLES = Need("goggles", "Goggles", detail="clips and pins fly")


def with_key(key: str) -> str:
    return f"with {key}"


def key_gone(tool: str, key: str) -> str:
    return f"missing: {key.split(',')[0] or 'its key'}, without which {tool[:1].lower()}{tool[1:]} is dead weight"
