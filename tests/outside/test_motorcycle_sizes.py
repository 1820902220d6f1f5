"""The motorcycle sizes that ship, against every figure that was read elsewhere.

Outside sources are named in published.yaml: an engineer's note on JIS B 1801 and B 1802, two retail
tables, a chain handbook of 1997, the front matter of ISO 10190, and rows from memory as sane ranges.
"""

from fractions import Fraction

import pytest

from generator.model.length import parse_length
from tests.outside.figures import FIELD, exact, in_mm, mm, others_mm, published, sizes

MOTO = published()["motorcycle"]
READ = [
    (table, code, symbol, figure)
    for table in ("engineers_note", "retail_table", "second_retail_table", "handbook_table")
    for code, row in MOTO[table]["rows"].items()
    for symbol, figure in row.items()
    if symbol in ("p", "d1", "b1")
]
DOUBTED = [
    (code, symbol) for code, row in MOTO["engineers_note"]["rows"].items() for symbol in row.get("wrong", [])
]
REMEMBERED = MOTO["remembered_rows"]
UNREAD = {"bush_bore", "over_inner_plates", "between_outer_plates", "over_riveted_pins", "joint_allowance"}


@pytest.mark.parametrize(("table", "code", "symbol", "figure"), READ)
def test_every_figure_read_is_the_one_used_or_is_kept_beside_it(
    table: str, code: str, symbol: str, figure: float
) -> None:
    assert exact(figure) in others_mm(code, symbol) | {mm(code, symbol)}, table


@pytest.mark.parametrize(("code", "symbol"), [*DOUBTED, ("532", "d1")])
def test_we_disagree_with_the_figures_that_other_sources_refute(code: str, symbol: str) -> None:
    # 415 and 420: copied from chain 40; 532: the note writes 'plus something'
    refuted = exact(MOTO["engineers_note"]["rows"][code][symbol])
    assert mm(code, symbol) != refuted
    assert refuted in others_mm(code, symbol)


@pytest.mark.parametrize("code", ["415", "420"])
def test_the_roller_of_415_and_420_is_that_of_asme_chain_41(code: str) -> None:
    # ASME B29.1M: 0.306 in; retail tables 7.75 and 7.77
    assert abs(mm(code, "d1") - Fraction("0.306") * Fraction("25.4")) < exact(0.005)


@pytest.mark.parametrize("code", sorted(MOTO["engineers_note"]["rows"]))
def test_the_widest_sprocket_tooth_goes_between_the_inner_plates(code: str) -> None:
    # JIS B 1802 by the engineer's note; the tooth is 0.3 to 0.8 mm narrower
    room = mm(code, "b1") - exact(MOTO["engineers_note"]["rows"][code]["tooth"])
    assert exact(0.3) <= room <= exact(0.9)


def test_five_eighths_of_an_inch_is_not_what_the_magazine_prints() -> None:
    wrong = MOTO["retailer_magazine_pitch"]
    ours = in_mm(parse_length(f"{wrong['inch']} in"))
    assert ours == mm("520", "p") == exact(15.875)
    assert exact(wrong["printed_mm"]) != ours
    assert exact(wrong["printed_mm"]) in others_mm("520", "p")


def test_pitches_lie_in_the_scope_of_the_motorcycle_standard() -> None:
    scope = MOTO["scope_pitch"]
    pitches = [mm(code, "p") for code, size in sizes().items() if size.family == "motorcycle"]
    assert min(pitches) == exact(scope["low"])
    assert max(pitches) == exact(scope["high"])


def test_the_chain_numbers_of_2008_are_all_known_and_mh_means_h() -> None:
    for number in MOTO["numbers_added_2008"]["codes"]:
        code = number.replace("MH", "H")
        assert code in sizes()
        assert number == code or number in sizes()[code].also_written


@pytest.mark.parametrize("code", sorted(c for c, s in sizes().items() if s.family == "motorcycle"))
def test_a_code_that_ends_in_h_is_of_the_heavy_series(code: str) -> None:
    # GB/T 14212-2010 foreword: MH in the standard, H as the trade stamps it
    assert (sizes()[code].series == "heavy") == code.endswith("H")


@pytest.mark.parametrize("code", sorted(c for c, s in sizes().items() if s.base_code))
def test_a_heavy_chain_has_pitch_roller_and_width_of_its_standard_code(code: str) -> None:
    # a commercial page on heavy-series chain: same pitch, width, roller and sprocket
    base = sizes()[code].base_code or ""
    assert sizes()[code].series == "heavy"
    assert [mm(code, s) for s in ("p", "d1", "b1")] == [mm(base, s) for s in ("p", "d1", "b1")]


@pytest.mark.parametrize("code", sorted(c for c, s in sizes().items() if s.base_code and s.tensile))
def test_a_heavy_chain_is_stronger(code: str) -> None:
    # a trade article on heavy-series chain: thicker plate, higher strength
    heavy, base = sizes()[code].tensile, sizes()[sizes()[code].base_code or ""].tensile
    assert heavy is not None
    assert base is not None
    assert heavy.readings[0] > base.readings[0]


@pytest.mark.parametrize("code", ["428", "428H"])
def test_the_strength_of_428_agrees_with_the_trade_article(code: str) -> None:
    tensile = sizes()[code].tensile
    assert tensile is not None
    newtons = exact(MOTO["strength_428"]["tonne_force"][code]) * exact(9806.65)
    assert abs(tensile.readings[0] / 1000 - newtons) <= newtons / 100


@pytest.mark.parametrize("code", sorted(REMEMBERED["rows"]))
@pytest.mark.parametrize("symbol", ["p", "d1", "b1", "d2", "h2"])
def test_values_are_sane_by_the_remembered_rows(code: str, symbol: str) -> None:
    # from memory: a sane range, not an oracle
    remembered = exact(REMEMBERED["rows"][code][symbol])
    assert abs(mm(code, symbol) - remembered) <= exact(REMEMBERED["within"][symbol])


@pytest.mark.parametrize("code", sorted(REMEMBERED["rows"]))
def test_what_is_only_remembered_says_so_and_carries_its_width(code: str) -> None:
    size = sizes()[code]
    for symbol in ("d2", "h2", "Fu"):
        written = getattr(size, FIELD[symbol])
        assert written.evidence == "from-memory"
        assert written.plus_minus is not None


def test_nothing_is_invented_where_the_standard_could_not_be_read() -> None:
    # ISO 10190, table 1: widths over plates and pins, bush bore and joint allowance were not found
    for code, size in sizes().items():
        if size.family == "motorcycle":
            assert not size.model_fields_set & UNREAD, code
            assert size.note and "not known" in size.note.lower(), code


@pytest.mark.parametrize(("code", "stand_in"), sorted(MOTO["nearest_industrial"]["pairs"].items()))
def test_the_nearest_industrial_chain_has_the_same_pitch_roller_and_width(code: str, stand_in: str) -> None:
    for symbol in ("p", "d1", "b1"):
        # ASME rounds the roller to thousandths of an inch
        assert abs(mm(code, symbol) - mm(stand_in, symbol)) <= exact(0.003), symbol
