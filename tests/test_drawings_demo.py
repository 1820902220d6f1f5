"""The section drawing of every demo pair against the readings and the checks it is drawn from.

Outside source: the demo club's own dimensions and the computed clearances, read back from the picture.
"""

import re
from functools import cache
from pathlib import Path

import pytest

from generator.compute.fit.fits import fit_table
from generator.compute.fit.result import CheckFit, PairFit
from generator.load.folder import load_club, load_shelf
from generator.model.dataset import Dataset
from generator.render.pages.pair_drawing import pair_drawing
from generator.validate.dataset import build_dataset
from tests.drawing_checks import Picture, picture

ROOT = Path(__file__).parent.parent
OF_CHAIN = {
    "bush_bore",
    "over_inner_plates",
    "over_bush_ends",
    "between_outer_plates",
    "over_riveted_pins",
    "plate_thickness",
}
OF_LINK = {"pin_diameter", "pin_reach", "pin_length", "shoulder_depth", "groove_width", "groove_diameter", "side_plate_thickness"}  # fmt: skip


@cache
def demo() -> Dataset:
    dataset, _ = build_dataset(load_club(ROOT / "data" / "demo"), load_shelf(ROOT / "data"))
    assert dataset is not None
    return dataset


@cache
def fits() -> tuple[PairFit, ...]:
    return fit_table(demo())


@cache
def drawn(chain: str, link: str) -> Picture:
    return picture(pair_drawing(demo(), next(f for f in fits() if (f.chain, f.link) == (chain, link))))


@pytest.mark.parametrize("chain", sorted(demo().chains))
def test_every_pair_of_a_chain_is_drawn_as_measured(chain: str) -> None:
    pairs = [fit for fit in fits() if fit.chain == chain]
    assert len(pairs) == len(demo().links)
    for fit in pairs:
        _drawn_as_measured(fit)


def _drawn_as_measured(fit: PairFit) -> None:
    found = drawn(fit.chain, fit.link)
    chain, link = demo().chains[fit.chain].dims, demo().links[fit.link].dims
    dims = found.dims()
    for name, mm in dims.items():
        part = chain if name in OF_CHAIN else link if name in OF_LINK else None
        if part is not None:
            assert mm == pytest.approx(part[name].nominal / 1e6, abs=0.01), (fit.chain, fit.link, name)
    assert {name for name in chain if name in OF_CHAIN} <= set(dims)
    checks = {check.id: check.clearance for check in fit.option.checks} if fit.option else {}
    for check, (mm, sign) in found.clearances().items():
        span = checks[check]
        assert span is not None
        nominal = round(span.nominal)
        assert mm == pytest.approx(nominal / 1e6, abs=0.01), (fit.chain, fit.link, check)
        assert sign == (nominal > 0) - (nominal < 0)


def test_a_clash_somewhere_and_a_gap_somewhere() -> None:
    signs = [sign for fit in fits() for _, sign in drawn(fit.chain, fit.link).clearances().values()]
    assert {-1, 1} <= set(signs)


@pytest.mark.parametrize("brief", [False, True])
def test_what_a_check_takes_is_never_called_a_clash(brief: bool) -> None:
    """From the checks themselves: a clash is less than nothing and less than proper takes; the deciding one is drawn so."""
    told = 0
    for fit in fits():
        if fit.option is None:
            continue
        svg = pair_drawing(demo(), fit, brief)
        rules = demo().shelf.joint_rules
        clashing = {
            rules[check.rule_id].title
            for check in fit.option.checks
            if check.clearance is not None and check.clearance.nominal < 0 and not _taken(check)
        }
        said = {
            words.split(":")[0] for words in re.findall(r"<text[^>]*>([^<>]*): (?:<tspan[^>]*>)?clash ", svg)
        }
        assert said <= clashing, (fit.chain, fit.link, said - clashing)
        told += len(said)
        if "-clash)" in svg and fit.option.deciding_check.clearance is not None:
            assert rules[fit.option.deciding_check.rule_id].title in clashing
    assert told > 10


def _taken(check: CheckFit) -> bool:
    """Whether proper takes so little: it asks for no least, or for less still."""
    edges = [edge for edge in check.edges if edge.rung == 0 and edge.at is not None]
    low = [edge.at for edge in edges if edge.side == "low" and edge.at is not None]
    assert check.clearance is not None
    return check.clearance.nominal >= max(low) if low else bool(edges)
