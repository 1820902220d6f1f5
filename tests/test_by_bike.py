"""Each bike is judged by its own room beside the chain, a pair by the least room of all bikes that run the chain.

The reckoning beside it is a club in which the bike stands alone.
"""

import json
import re
from dataclasses import replace
from typing import Any

import pytest

from generator.cli.dispatch import main
from generator.compute.fit.fits import fit_table
from generator.rules.rooms import rooms_differ
from tests.handbook import bodies, demo, demo_all, demo_site


def test_a_bike_is_judged_as_if_it_stood_alone() -> None:
    for id_, bike in demo().bikes.items():
        alone = replace(demo(), bikes={id_: bike})
        assert demo_all().by_bike[id_] == fit_table(alone, [bike.record.chain]), id_


def test_the_row_of_a_bike_that_differs_leads_to_its_panel() -> None:
    told = 0
    for (chain, link), on_bikes in demo_all().apart.items():
        path = f"pairs/{chain}/{link}/"
        if path not in bodies():
            continue
        for each in on_bikes:
            panel = re.search(rf'{path}#(on-[a-z0-9-]+)"', bodies()[f"bikes/{each.bike}/"])
            assert panel and f'id="{panel[1]}"' in bodies()[path], (path, each.bike)
            told += 1
    assert told


def test_a_pair_is_never_better_than_on_its_worst_bike() -> None:
    shared = [bike for bike in demo().bikes.values() if rooms_differ(demo(), bike.record.chain)]
    assert shared
    of_pair = {(fit.chain, fit.link): fit for fit in demo_all().pairs}
    for bike in shared:
        for fit in demo_all().by_bike[bike.id]:
            pair = of_pair[fit.chain, fit.link]
            if fit.worst is not None and pair.worst is not None:
                assert fit.worst <= pair.worst, (bike.id, fit.link)


def of_file() -> dict[tuple[str, str], list[dict[str, Any]]]:
    """What fits.json says of each pair, bike by bike."""
    fits = next(str(a.content) for a in demo_site().assets if a.path == "data/v1/fits.json")
    return {(pair["chain"], pair["link"]): pair["by_bike"] for pair in json.loads(fits)["pairs"]}


@pytest.mark.long
def test_the_file_tells_the_bikes_apart_where_some_bike_has_not_the_verdict_of_the_pair() -> None:
    told, apart = of_file(), 0
    by_itself = {
        id_: {fit.link: fit for fit in fit_table(replace(demo(), bikes={id_: bike}), [bike.record.chain])}
        for id_, bike in demo().bikes.items()
        if rooms_differ(demo(), bike.record.chain)
    }
    for fit in demo_all().pairs:
        alone = {
            id_: found[fit.link]
            for id_, found in by_itself.items()
            if demo().bikes[id_].record.chain == fit.chain
        }
        if all((each.best, each.worst) == (fit.best, fit.worst) for each in alone.values()):
            assert told[fit.chain, fit.link] == []
            continue
        apart += 1
        assert told[fit.chain, fit.link] == [
            {"bike": id_, "word": each.word, "best": each.best, "worst": each.worst}
            for id_, each in sorted(alone.items())
        ]
    assert apart >= 2


def test_page_and_file_and_explanation_tell_the_same_of_each_bike(capsys: pytest.CaptureFixture[str]) -> None:
    told = of_file()
    for (chain, link), bikes in told.items():
        path = f"pairs/{chain}/{link}/"
        if path in bodies():
            assert ("panels__of" in bodies()[path]) == bool(bikes), path
            for each in bikes:
                assert each["bike"] in bodies()[path]
    (chain, link), bikes = next((pair, found) for pair, found in told.items() if found)
    assert main(["explain", chain, link, "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["pair"]["by_bike"] == bikes
