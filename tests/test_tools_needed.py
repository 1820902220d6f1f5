"""What a joint needs and the club has not, or has and never measured, is told as what it is."""

from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest

from generator.compute.others.tools import tool_fits
from generator.load.problem_texts import load_catalogue
from generator.model.dataset import Part
from generator.model.tools_and_bikes import Tool
from generator.render.base.components import Need
from generator.render.pages.book import book_of
from generator.render.pages.needs import needs_of
from tests.handbook import demo, demo_all, demo_fits
from tests.samples import DATA

Changed = Callable[[Part[Tool]], Part[Tool]]


def needs(link: str, does: str, changed: Changed) -> dict[str, Need]:
    """Of a link on the chain tan-520, by what it is, with the tools that do a job changed."""
    tools = {id_: changed(t) if t.record.does == does else t for id_, t in demo().tools.items()}
    dataset = replace(demo(), tools=tools)
    others = replace(demo_all().others, tools=tool_fits(dataset))
    book = book_of(dataset, replace(demo_all(), others=others), load_catalogue(DATA))
    fit = next(fit for fit in demo_fits() if (fit.chain, fit.link) == ("tan-520", link))
    return {need.kind: need for need in needs_of(book, fit)}


def as_it_is(tool: Part[Tool]) -> Part[Tool]:
    return tool


def unmeasured(tool: Part[Tool]) -> Part[Tool]:
    return replace(tool, dims={})


def of_record(**fields: Any) -> Changed:
    return lambda tool: replace(tool, record=tool.record.model_copy(update=fields))


@pytest.mark.parametrize(
    ("link", "does", "changed", "name", "gone"),
    [
        ("tin-8-tan", "press", as_it_is, "Pocket side-plate press", ""),
        ("tin-8-tan", "press", unmeasured, "Pocket side-plate press", "not measured"),
        ("tin-8-tan", "press", of_record(takes=("420",)), "Side-plate press", "missing: no press"),
        ("tin-8-proud", "riveter", as_it_is, "Riveter for hollow pins", ""),
        ("tin-8-proud", "riveter", of_record(takes=("420",)), "Riveter", "missing: no riveter"),
        (
            "tin-8-proud",
            "riveter",
            of_record(does="other"),
            "A riveter for these pins",
            "missing: no riveter",
        ),
    ],
)
def test_a_tool_is_there_or_not_measured_or_missing(
    link: str, does: str, changed: Changed, name: str, gone: str
) -> None:
    found = needs(link, does, changed)[does]
    assert found.name == name
    assert found.gone.startswith(gone)
    assert bool(found.gone) == bool(gone)
