"""Printed wear lengths, against the pitches that ship.

Outside sources: owners' forums and a vendor's how-to guide (see published.yaml).  One printed figure
is wrong by a millimetre, and ours must not agree with it.
"""

from typing import Any

import pytest

from tests.outside.figures import exact, mm, published

EXAMPLES = {example["id"]: example for example in published()["elongation"]}
SIZE_OF = {12.7: "428", 15.875: "520"}


@pytest.mark.parametrize("name", sorted(n for n, e in EXAMPLES.items() if e["pitch"] in SIZE_OF))
def test_printed_wear_lengths_follow_from_our_pitch(name: str) -> None:
    example: dict[str, Any] = EXAMPLES[name]
    new = example["pitches"] * mm(SIZE_OF[example["pitch"]], "p")
    half = exact("0.5") if isinstance(example["new"], int) else exact("0.05")  # as rounded in print
    assert abs(new - exact(example["new"])) <= half
    for percent, printed in example["at"].items():
        agrees = abs(new * (1 + exact(percent) / 100) - exact(printed)) <= half
        assert agrees == (percent not in example.get("wrong", [])), percent


def test_pins_less_one_are_the_pitches() -> None:
    example = EXAMPLES["nineteen-pins"]
    assert example["pins"] - 1 == example["pitches"]
    # counting pins as pitches would be out by a whole pitch
    assert abs(example["pins"] * mm("520", "p") - example["new"]) > 15
