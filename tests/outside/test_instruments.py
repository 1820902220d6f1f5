"""Permissible errors of the caliper kinds that ship.

Outside source: DIN 862, extract sheet, the range that holds 50 to 100 mm (see published.yaml).
"""

import pytest

from tests.outside.figures import exact, in_mm, instruments, published

DIN = published()["instruments"]["din_862_micrometres"]
KINDS = {
    "digital-caliper": "digital_001",
    "vernier-002": "vernier_002",
    "vernier-005": "vernier_005",
    "vernier-01": "vernier_01",
}


@pytest.mark.parametrize(("kind", "row"), sorted(KINDS.items()))
def test_caliper_limits_are_those_of_din_862(kind: str, row: str) -> None:
    shipped = instruments()[kind]
    outside = exact(DIN[row]) / 1000
    added = exact(DIN["added_for_inside_and_depth"]) / 1000
    assert shipped.outside is not None
    assert shipped.inside is not None
    assert shipped.depth is not None
    assert in_mm(shipped.outside) == outside
    assert in_mm(shipped.inside) == in_mm(shipped.depth) == outside + added


def test_only_kinds_of_din_862_cite_it() -> None:
    citing = {kind for kind, record in instruments().items() if record.source.startswith("din-862[")}
    assert citing == set(KINDS)
