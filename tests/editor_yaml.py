"""YAML as an editor's schema checker reads it (YAML 1.2, core schema): `yes` and dates are text, 520 is a number.

Outside source: YAML 1.2.2, section 10.3.2, tag resolution of the core schema.
"""

import re
from typing import Any

import yaml


class EditorLoader(yaml.SafeLoader):
    """Plain scalars resolve as the core schema says."""

    yaml_implicit_resolvers: dict[str, Any] = {}  # noqa: RUF012 - overrides PyYAML's own table


for tag, pattern, first in (
    ("bool", r"true|True|TRUE|false|False|FALSE", "tTfF"),
    ("null", r"~|null|Null|NULL|", "~nN\0"),
    ("int", r"[-+]?[0-9]+", "-+0123456789"),
    ("float", r"[-+]?(\.[0-9]+|[0-9]+(\.[0-9]*)?)([eE][-+]?[0-9]+)?", "-+.0123456789"),
):
    EditorLoader.add_implicit_resolver(
        f"tag:yaml.org,2002:{tag}", re.compile(f"^(?:{pattern})$"), [*first.replace("\0", ""), ""]
    )


def as_editor_reads(text: str) -> Any:
    return yaml.load(text, EditorLoader) or {}
