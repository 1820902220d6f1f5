"""Reads the catalogue of problem codes that ships."""

import re
from collections.abc import Collection
from pathlib import Path
from typing import Any, cast

from generator.load.strict_yaml import parse, to_plain
from generator.problems.catalogue import Catalogue, catalogue_of

_ENTRIES = re.compile(r"^(?=[A-Z]\d{3}:)", re.MULTILINE)


def load_catalogue(data: Path, only: Collection[str] | None = None) -> Catalogue:
    """Every code with its words, or `only` those; the file ships with the generator, so a fault in it is ours."""
    name = "problems.yaml"
    text = (data / name).read_text("utf-8")
    if only is not None:
        text = "".join(one for one in _ENTRIES.split(text) if one[:4] in only)
    if not text:
        return {}
    node, problems = parse(text, name)
    if node is None or problems:
        raise ValueError(f"{name} is not well-formed: {problems}")
    return catalogue_of(cast("dict[str, Any]", to_plain(node)))
