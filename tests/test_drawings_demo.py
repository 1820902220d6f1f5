"""The drawing of every demo pair: its numbers are those of the reasons beside it, its width that of the key facts."""

import re

from generator.render.base.lengths import shown_length
from generator.render.pages.pair_drawing import pair_drawing
from generator.render.say.reasons import reasons
from tests.handbook import bodies, demo, demo_fits


def test_dots_and_reasons_carry_the_same_numbers() -> None:
    for fit in demo_fits():
        if not fit.own_page or fit.option is None:
            continue
        told = reasons(demo(), fit)
        places = [reason.place for reason in told if reason.place is not None]
        svg = str(pair_drawing(demo(), fit, told))
        numbers = re.findall(r'class="d-dot-n"[^>]*>([0-9])<', svg)
        assert sorted(numbers) == [str(n + 1) for n in range(len(places))], (fit.chain, fit.link)
        assert len(places) <= 5


def test_the_width_of_the_drawing_stands_large_on_the_page() -> None:
    told = 0
    for fit in demo_fits():
        width = fit.press_to
        if not fit.own_page or fit.option is None or width is None:
            continue
        shown = shown_length(width.nominal)
        assert f"press to {shown.mm}" in str(pair_drawing(demo(), fit, reasons(demo(), fit)))
        if fit.word != "no-go":
            assert f"<b>{shown.mm}</b> <i>{shown.inch}</i>" in bodies()[f"pairs/{fit.chain}/{fit.link}/"]
            told += 1
    assert told > 20
