"""Reads the catalogue of problem codes that ships.

Goes in: the shipped data folder.  Comes out: the catalogue.
"""

from pathlib import Path
from typing import Any, cast

from generator.load.strict_yaml import parse, to_plain
from generator.problems.catalogue import Catalogue, catalogue_of


def load_catalogue(data: Path) -> Catalogue:
    """Every code with its words; the file ships with the generator, so a fault in it is ours."""
    name = "problems.yaml"
    node, problems = parse((data / name).read_text("utf-8"), name)
    if node is None or problems:
        raise ValueError(f"{name} is not well-formed: {problems}")
    return catalogue_of(cast("dict[str, Any]", to_plain(node)))
