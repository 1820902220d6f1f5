"""What the hand sets stands in the answer of the terminal and on the page of the pair, where it applies and only there."""

from collections.abc import Iterator
from html import unescape

import pytest

from generator.compute.fit.result import PairFit
from generator.render.base.lengths import shown_length
from generator.render.base.routes import pair_route
from generator.render.explain_long import explain_long
from generator.render.explain_text import explain_text
from generator.render.say.joint import goes_in, seals_and_seat
from tests.handbook import bodies, demo, demo_all, demo_fits


def fitted() -> Iterator[PairFit]:
    return (fit for fit in demo_fits() if fit.option is not None and fit.word != "no-go" and fit.own_page)


def told(fit: PairFit) -> str:
    return " ".join(explain_text(demo(), fit, None).split())


def page(fit: PairFit) -> str:
    return " ".join(unescape(bodies()[pair_route(fit)]).split())


def keys(fit: PairFit) -> str:
    html = page(fit)
    return html[html.index('<dl class="keys') : html.index('id="why"')]


def test_washers_under_the_clip_are_named_wherever_the_way_needs_them() -> None:
    with_washers = [fit for fit in fitted() if fit.option is not None and fit.option.spacer]
    assert with_washers, "the demo has such a pair"
    for fit in fitted():
        option = fit.option
        assert option is not None
        needed = option.spacer is not None
        washers = f"a washer ({option.spacer}) on each pin under the clip"
        assert (f"A washer of {option.spacer} on each pin, under the clip." in told(fit)) == needed, fit
        assert (washers in goes_in(demo(), option)) == needed
        assert ("<dt>Under the clip</dt>" in keys(fit)) == needed, fit
        assert (f"A washer of {option.spacer} on each pin, under the clip." in page(fit)) == needed
        assert (washers in " ".join(explain_long(demo(), fit, (option,), ()).split())) == needed


def test_a_plate_that_belongs_against_its_clip_is_not_pressed_level() -> None:
    found = [fit for fit in fitted() if fit.option is not None and fit.option.seat == "clip"]
    assert found
    for fit in found:
        assert "plate pressed only as far as its clip" in told(fit), fit
        assert "only until the grooves are clear" in page(fit)
        assert "stop at the width above" not in page(fit)


def test_the_width_to_press_to_stands_beside_that_of_the_neighbours() -> None:
    found = [fit for fit in fitted() if fit.press_to is not None and fit.beside is not None]
    assert found
    for fit in found:
        assert fit.press_to is not None and fit.beside is not None
        width, beside = shown_length(fit.press_to.nominal), shown_length(fit.beside.nominal)
        assert f"press to {width.mm} over both plates, the neighbours are {beside.mm}" in told(fit)
        assert "<dt>Beside the joint</dt>" in keys(fit), fit


def test_how_to_ease_back_is_told_of_plates_that_can_go_too_far() -> None:
    for fit in fitted():
        pressed = demo().links[fit.link].record.plate_fit == "press"
        assert ("ease it back" in told(fit)) == pressed, fit
        assert ("ease it back" in page(fit)) == pressed, fit


def test_hollow_rivet_pins_have_their_flare_and_no_others() -> None:
    for fit in fitted():
        link = demo().links[fit.link].record
        flared = link.closure == "rivet" and link.pin_kind != "solid"
        assert ("a crack means a new link" in told(fit)) == flared, fit
        assert ("Flare the pins with the riveter to" in page(fit)) == flared, fit


@pytest.mark.parametrize("pair", [("grey-520", "tin-1-slip"), ("grey-520", "tin-1-blue")])
def test_the_same_clip_without_washers_or_pressed_level_is_another_way(pair: tuple[str, str]) -> None:
    (fit,) = [each for each in demo_fits() if (each.chain, each.link) == pair]
    assert fit.option is not None
    others = page(fit)[page(fit).index('id="other"') : page(fit).index('id="numbers"')]
    alike = [
        way
        for way in demo_all().ways[pair]
        if (way.clip, way.seals, way.seal_set) == (fit.option.clip, fit.option.seals, fit.option.seal_set)
        and (way.seat, way.spacer) != (fit.option.seat, fit.option.spacer)
    ]
    assert alike
    for way in alike:
        assert f"({seals_and_seat(way)})" in others, way
