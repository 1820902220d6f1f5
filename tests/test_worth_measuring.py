"""What is most worth measuring: counted over pairs, and true when it is measured."""

from dataclasses import replace
from typing import Any

from generator.compute.fit.fits import fit_table
from generator.compute.fit.result import MeasureNext, PairFit, Reading
from generator.compute.worth_measuring import Worth, worth_measuring
from generator.load.folder import load_club
from generator.model.quantity import Quantity
from generator.render.worth_text import worth_text
from generator.validate.dataset import build_dataset
from generator.validate.measure import with_between_outer_plates
from tests.clubs import DATA, shelf_files


def open_pair(link: str, reading: Reading, to_within: int | None) -> PairFit:
    return PairFit("chain", link, 0, 3, None, True, measure_next=MeasureNext(reading, to_within))


def test_readings_are_counted_and_the_closest_asked_for() -> None:
    bore, reach = Reading("chain", "a", "bush_bore"), Reading("link", "b", "pin_reach")
    fits = [
        open_pair("1", bore, 50_000),
        open_pair("2", bore, 20_000),
        open_pair("3", reach, None),
        PairFit("chain", "4", 0, 0, None, True),
    ]
    assert worth_measuring(fits) == (Worth(bore, 2, 20_000), Worth(reach, 1, None))
    assert worth_text(worth_measuring(fits), fits).splitlines() == [
        "of 4 pairs 3 are measure-first and 0 cannot be judged",
        "most worth measuring next:",
        "  chain a: bush_bore to within ±0.02 mm (2 open pairs)",
        "  link b: pin_reach (1 open pair)",
    ]


def test_nothing_open_is_said_only_where_nothing_is_open() -> None:
    decided = PairFit("chain", "1", 0, 0, None, True)
    unnamed = PairFit("chain", "2", 1, 3, None, True)
    refused = PairFit("chain", "3", None, None, "its kind is not known", True)
    assert worth_text((), [decided]) == "all of 1 pairs are decided by what is known\n"
    assert worth_text((), []).startswith("no pair to judge yet")
    said = worth_text((), [decided, unnamed, refused])
    assert "1 are measure-first and 1 cannot be judged" in said
    assert "measure the chain and the link first" in said
    assert "decided by" not in said


def test_measuring_what_was_asked_settles_or_narrows() -> None:
    """Each open pair of the demo whose reading has a closeness: read that close, its open check closes or
    another one is named."""
    demo, _ = build_dataset(load_club(DATA / "demo"), shelf_files())
    assert demo is not None
    fits = [fit for fit in fit_table(demo) if fit.measure_next and fit.measure_next.to_within]
    assert len(fits) >= 10
    for fit in fits[:20]:
        asked = fit.measure_next
        assert asked is not None and asked.to_within is not None
        reading = asked.reading
        kind = {"chain": "chains", "link": "links", "clip": "clips", "bike": "bikes", "seal": "seals"}[
            reading.kind
        ]
        parts = getattr(demo, kind)
        part = parts[reading.id]
        before = part.dims.get(reading.field)
        if before is None:
            continue
        nominal, within = before.nominal, asked.to_within
        closer = Quantity(max(before.low, nominal - within), nominal, min(before.high, nominal + within))
        dims = {**part.dims, reading.field: closer}
        if reading.kind == "chain" and part.record.between_outer_plates is None:
            # derived from what may just have been read again
            del dims["between_outer_plates"]
            dims = with_between_outer_plates(dims)
        sharper = replace(part, dims=dims)
        changed: dict[str, Any] = {kind: {**parts, reading.id: sharper}}
        measured = replace(demo, **changed)
        (after,) = fit_table(measured, [fit.chain], [fit.link])
        assert after.measure_next != asked, (fit.chain, fit.link, reading)
