"""Each bike is judged by its own room beside the chain, a pair by the least room of all bikes that run the chain.

The reckoning beside it is a club in which the bike stands alone.
"""

import json
from dataclasses import replace
from typing import Any

import pytest
from generator.render.pages.pair_tables import check_remark
from generator.render.say.categories import joint_of
from generator.render.say.measured import found

from generator.cli.dispatch import main
from generator.compute.fit.fits import fit_table
from generator.render.say.said import plain
from generator.rules.rooms import ROOM, rooms_differ
from tests.handbook import bodies, demo, demo_all, demo_site


@pytest.mark.long
def test_a_bike_is_judged_as_if_it_stood_alone() -> None:
    for id_, bike in demo().bikes.items():
        alone = replace(demo(), bikes={id_: bike})
        assert demo_all().by_bike[id_] == fit_table(alone, [bike.record.chain]), id_


def test_a_bike_whose_room_is_read_does_not_wait_for_one_whose_is_not() -> None:
    """Both run tan-520, only one of them is measured."""
    read, unread = demo().bikes["b05"], demo().bikes["b06"]
    assert read.record.chain == unread.record.chain == "tan-520"
    assert ROOM in read.dims and ROOM not in unread.dims
    verdicts = {bike: {fit.link: fit.word for fit in demo_all().by_bike[bike]} for bike in ("b05", "b06")}
    of_pair = {fit.link: fit.word for fit in demo_all().pairs if fit.chain == "tan-520"}
    assert of_pair == {
        link: "no-go" if "no-go" in (verdicts["b05"][link], word) else word
        for link, word in verdicts["b06"].items()
    }
    settled = [link for link, word in of_pair.items() if word == "measure-first" != verdicts["b05"][link]]
    assert settled
    for link in settled:
        assert (
            f"By the room of each alone: b05: {verdicts['b05'][link]}" in bodies()[f"pairs/tan-520/{link}/"]
        )
    path = "bikes/b05/"
    assert "Judged by the room beside the chain of this bike alone" in bodies()[path]
    assert "here a room counts that nobody has read" in "".join(
        bodies()[f"pairs/tan-520/{link}/"] for link in of_pair if f"pairs/tan-520/{link}/" in bodies()
    )


def test_a_pair_is_never_better_than_on_its_worst_bike() -> None:
    shared = [bike for bike in demo().bikes.values() if rooms_differ(demo(), bike.record.chain)]
    assert shared
    of_pair = {(fit.chain, fit.link): fit for fit in demo_all().pairs}
    for bike in shared:
        for fit in demo_all().by_bike[bike.id]:
            pair = of_pair[fit.chain, fit.link]
            if fit.worst is not None and pair.worst is not None:
                assert fit.worst <= pair.worst, (bike.id, fit.link)


def test_what_is_not_known_is_said_to_matter_only_where_it_does() -> None:
    """A room nobody read leaves no check open that the own joint of the chain settles."""
    told = []
    for fit in demo_all().pairs:
        joint = joint_of(demo(), fit.chain, fit.link, fit.option) if fit.option else None
        for check in fit.option.checks if fit.option else ():
            if joint is None or check.category or not check.missing or check.settled_by_trial:
                continue
            closed = check.best == check.worst
            told.append(closed)
            assert check_remark(joint, check).endswith("; that changes nothing here") == closed
            assert ("Without it this check is open." in plain(found(check, joint))) != closed
    assert set(told) == {True, False}


def of_file() -> dict[tuple[str, str], list[dict[str, Any]]]:
    """What fits.json says of each pair, bike by bike."""
    fits = next(str(a.content) for a in demo_site().assets if a.path == "data/v1/fits.json")
    return {(pair["chain"], pair["link"]): pair["by_bike"] for pair in json.loads(fits)["pairs"]}


@pytest.mark.long
def test_the_file_tells_the_bikes_apart_where_some_bike_has_not_the_verdict_of_the_pair() -> None:
    told, apart = of_file(), 0
    for fit in demo_all().pairs:
        bikes = {id_: bike for id_, bike in demo().bikes.items() if bike.record.chain == fit.chain}
        alone = {
            id_: fit_table(replace(demo(), bikes={id_: bike}), [fit.chain], [fit.link])[0]
            for id_, bike in bikes.items()
            if rooms_differ(demo(), fit.chain)
        }
        if all((each.best, each.worst) == (fit.best, fit.worst) for each in alone.values()):
            assert told[fit.chain, fit.link] == []
            continue
        apart += 1
        assert told[fit.chain, fit.link] == [
            {"bike": id_, "word": each.word, "best": each.best, "worst": each.worst}
            for id_, each in sorted(alone.items())
        ]
    assert apart >= 5


def test_page_and_file_and_explanation_tell_the_same_of_each_bike(capsys: pytest.CaptureFixture[str]) -> None:
    told = of_file()
    for (chain, link), bikes in told.items():
        path = f"pairs/{chain}/{link}/"
        if path in bodies():
            assert ("By the room of each alone:" in bodies()[path]) == bool(bikes), path
            for each in bikes:
                assert f"{each['bike']}: " in bodies()[path]
    (chain, link), bikes = next((pair, found) for pair, found in told.items() if found)
    assert main(["explain", chain, link, "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["pair"]["by_bike"] == bikes
    assert main(["explain", chain, link]) == 0
    said = capsys.readouterr().out
    for each in bikes:
        assert f"{each['bike']}: " in said.split("Option 1 of")[0]
