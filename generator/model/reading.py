"""One reading a result rests on: the part it is of, and the field."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Reading:
    """`kind` is that of the part, such as link; `id` its own; `field` the field of its record."""

    kind: str
    id: str
    field: str
