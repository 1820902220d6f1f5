"""What a club types is text: closed fields refuse what they do not know, free text comes out as it was typed.

The fields come from the models, so a new one is tested from the day it is there.
"""

import csv
import io
import json
from collections.abc import Iterable, Iterator, Mapping
from functools import cache
from html.parser import HTMLParser
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import pytest
from pydantic import BaseModel

from generator.compute.all_fits import all_fits
from generator.load.files import read_club
from generator.load.problem_texts import load_catalogue
from generator.model.dataset import Dataset
from generator.problems import Problem
from generator.render.downloads.csv_text import harmless
from generator.render.drawings.svg import text
from generator.render.site import handbook_site
from generator.site.content import site_of
from generator.validate.dataset import build_dataset
from tests.clubs import DATA, shelf_files
from tests.handbook import printed
from tests.hostile_club import (
    ALL_MODELS,
    LONGEST,
    WAYS,
    Raw,
    fields_of,
    files_of,
    hostile_club,
    hostile_text,
    sound_club,
    stem_of,
)

CLOSED = [(model, key) for model in ALL_MODELS for key in fields_of(model, free=False)]
FREE = [(model, key) for model in ALL_MODELS for key in fields_of(model, free=True)]
# in the files of data only: no page tells of single trials and rides, nor names a rule otherwise than by its title
NOT_ON_PAGES = {"trials", "rides"}
NOT_ON_PAGES_FIELDS = {("rules", "name"), ("rules", "note")}
ON_PAGES = [
    (model, key)
    for model, key in FREE
    if stem_of(model) not in {*NOT_ON_PAGES, "club"} and (stem_of(model), key) not in NOT_ON_PAGES_FIELDS
]

FORMULA_SIGNS = "=+-@\t\r\n＝＋－＠"  # OWASP, 'CSV injection'


def name(value: Any) -> str:
    return value.__name__ if isinstance(value, type) else str(value)


def built(raw: Raw) -> tuple[Dataset | None, tuple[Problem, ...]]:
    texts = {file: text.encode("utf-8") for file, text in files_of(raw).items()}
    return build_dataset(read_club(texts), shelf_files())


def refused(raw: Raw) -> list[Problem]:
    return [problem for problem in built(raw)[1] if problem.level == "error"]


# ---- closed fields


def test_the_club_is_sound_without_its_hostile_text() -> None:
    """Or the refusals below would prove nothing."""
    assert refused(sound_club("markup")) == []
    assert len(CLOSED) > 150 and len(FREE) > 40


@pytest.mark.parametrize("way", WAYS)
@pytest.mark.parametrize("model", ALL_MODELS, ids=name)
def test_closed_fields_refuse_what_they_do_not_know(model: type[BaseModel], way: str) -> None:
    """Each with the place of its value: its file and its line."""
    stem, keys = stem_of(model), [key for each, key in CLOSED if each is model]
    raw = sound_club("markup")
    record = next(iter(raw[stem].values()))
    record |= dict.fromkeys(keys, WAYS[way])
    file = "club.yaml" if stem == "instruments" else f"{stem}.yaml"
    text, problems = files_of(raw)[file], refused(raw)
    for key in keys:
        found = [problem.place for problem in problems if key in problem.path]
        assert found, (key, [problem.message for problem in problems])
        assert {(place.file, place.line) for place in found} == {(file, _line_of(text, key))}, key
        assert all(place.column > 1 for place in found), key


def _line_of(text: str, key: str) -> int:
    """Where the key stands; the first record of a file comes first."""
    keys = (f"{key}:", f"'{key}':")
    return next(number for number, line in enumerate(text.split("\n"), 1) if line.strip().startswith(keys))


@pytest.mark.parametrize("way", WAYS)
@pytest.mark.parametrize("stem", sorted({stem_of(model) for model in ALL_MODELS} - {"club"}))
def test_an_id_is_closed_too(stem: str, way: str) -> None:
    """It becomes an address and the name of a file."""
    raw = sound_club("markup")
    raw[stem][WAYS[way]] = raw[stem].pop(next(iter(raw[stem])))
    assert any(problem.place.file.startswith(("club", stem)) for problem in refused(raw))


@pytest.mark.parametrize("model", ALL_MODELS, ids=name)
def test_an_unknown_key_is_refused(model: type[BaseModel]) -> None:
    raw = sound_club("markup")
    next(iter(raw[stem_of(model)].values()))["onload"] = WAYS["attribute"]
    # an instrument that is refused is missed by the records that name it
    assert "onload" in [problem.path[-1] for problem in refused(raw)]


@pytest.mark.parametrize("sign", ["\x00", "\x1b", "\u202e", "\u2066", "\ufeff"])
def test_signs_that_hide_or_turn_text_are_refused_with_their_place(sign: str) -> None:
    files = files_of(sound_club("markup"))
    files["links.yaml"] += f"    note: a{sign}b\n"
    _, problems = build_dataset(read_club({n: t.encode() for n, t in files.items()}), shelf_files())
    lines = files["links.yaml"].count("\n")
    places = [(p.place.file, p.place.line, p.place.column) for p in problems if p.level == "error"]
    assert ("links.yaml", lines, 12) in places


def test_free_text_has_an_end() -> None:
    raw = sound_club("markup")
    next(iter(raw["links"].values()))["note"] = "x" * (LONGEST + 1)
    assert [problem.path[-1] for problem in refused(raw)] == ["note"]


# ---- free text


class Text(HTMLParser):
    """What a reader sees, and every tag with its attributes."""

    def __init__(self, html: str) -> None:
        super().__init__(convert_charrefs=True)
        self.parts: list[str] = []
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.feed(html)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))

    def handle_data(self, data: str) -> None:
        self.parts.append(data)


def seen(text: str) -> str:
    """A browser shows any run of white space as one."""
    return " ".join(text.split())


CARDS_TAKE = ("markup", "attribute")


@cache
def one_way(way: str) -> tuple[Mapping[str, str], Mapping[str, str]]:
    """Bodies and files of a club that types one way in every free-text field."""
    dataset, problems = built(hostile_club(way))
    assert dataset is not None, problems
    # cards refuse texts too long for them, of which tests of the cards tell; pages take them
    site = (
        site_of(dataset)
        if way in CARDS_TAKE
        else handbook_site(dataset, all_fits(dataset), load_catalogue(DATA))
    )
    return printed(site), {
        asset.path: asset.content for asset in site.assets if isinstance(asset.content, str)
    }


@cache
def shown(way: str) -> tuple[str, ...]:
    return tuple(seen("".join(Text(body).parts)) for body in one_way(way)[0].values())


@cache
def json_strings(way: str) -> frozenset[str]:
    files = one_way(way)[1]
    return frozenset(
        s for path, text in files.items() if path.endswith(".json") for s in _strings(json.loads(text))
    )


def _strings(value: Any) -> Iterator[str]:
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict | list):
        for inner in value.values() if isinstance(value, dict) else value:
            yield from _strings(inner)


@cache
def csv_cells(way: str) -> frozenset[str]:
    files = one_way(way)[1]
    return frozenset(
        cell
        for path, text in files.items()
        if path.endswith(".csv")
        for row in csv.reader(io.StringIO(text, newline=""))
        for cell in row
    )


@pytest.mark.parametrize("way", WAYS)
@pytest.mark.parametrize(("model", "key"), FREE, ids=name)
def test_free_text_is_in_the_data_as_typed(model: type[BaseModel], key: str, way: str) -> None:
    assert hostile_text(way, stem_of(model), key) in json_strings(way)


@pytest.mark.parametrize("way", WAYS)
@pytest.mark.parametrize(("model", "key"), ON_PAGES, ids=name)
def test_free_text_is_on_a_page_as_typed(model: type[BaseModel], key: str, way: str) -> None:
    typed = seen(hostile_text(way, stem_of(model), key))
    assert any(typed in page for page in shown(way))


@pytest.mark.parametrize("way", WAYS)
def test_a_drawing_shows_text_as_typed(way: str) -> None:
    element = ElementTree.fromstring(text(0, 0, WAYS[way]))
    assert "".join(element.itertext()) == WAYS[way]
    assert list(element) == []


@pytest.mark.parametrize("way", WAYS)
def test_no_text_becomes_an_element_an_attribute_or_a_script(way: str) -> None:
    """Bodies hold no script or text area of our own but the finder's data, and images on the page of cards only; others
    would be injected."""
    for path, body in one_way(way)[0].items():
        for tag, attributes in Text(body).tags:
            assert tag not in {"textarea", "iframe", "style"}, path
            # the two-box finder's data, which no browser runs
            assert tag != "script" or (path == "" and attributes["type"] == "application/json"), path
            assert tag != "img" or (path == "cards/" and (attributes["src"] or "").endswith(".png")), path
            assert not [a for a in attributes if a.startswith("on") or a == "style"], (path, tag)
            for address in (attributes.get("href") or "", attributes.get("src") or ""):
                assert not address.startswith(("javascript:", "data:", "http")), (path, address)
        assert "owned" not in "".join(part for part in _scripts(body)), path


def _scripts(body: str) -> Iterable[str]:
    return (part.split("</script>")[0] for part in body.split("<script")[1:])


@pytest.mark.parametrize("way", WAYS)
def test_braces_of_templates_are_not_run(way: str) -> None:
    typed = [page for page in shown(way) if "{{ 7 * 7 }}" in page or "${7*7}" in page]
    assert bool(typed) == (way in ("markup", "attribute"))
    assert not any(" 49 {%" in page for page in shown(way))


@pytest.mark.parametrize("way", WAYS)
def test_no_cell_of_a_csv_file_is_a_formula(way: str) -> None:
    texts = {cell for cell in csv_cells(way) if "links." in cell or "chains." in cell}
    assert texts, "the club's own words are in the tables"
    for cell in csv_cells(way):
        assert not cell.startswith(tuple(FORMULA_SIGNS)) or cell.lstrip("-").replace(".", "", 1).isdigit(), (
            cell
        )
    as_typed = {harmless(hostile_text(way, stem_of(model), key)) for model, key in FREE}
    assert {cell for cell in texts if cell in as_typed}


@pytest.mark.parametrize(
    ("typed", "written"),
    [
        ("=1+1", "'=1+1"),
        ("@SUM(A1)", "'@SUM(A1)"),
        ("+1", "'+1"),
        ("-1 tin", "'-1 tin"),
        ("\t=1", "'\t=1"),
        ("＝1", "'＝1"),
        ("-0.03", "-0.03"),
        ("tin =1", "tin =1"),
        ('"x",y', '"x",y'),
    ],
)
def test_what_a_spreadsheet_would_run_gets_an_apostrophe(typed: str, written: str) -> None:
    assert harmless(typed) == written


def test_the_frame_shows_the_club_s_own_words_as_typed(hostile_folder: Path) -> None:
    """Name, report_to and the rest stand around every page, which the site builder's templates print."""
    page = Text(hostile_folder.joinpath("links/index.html").read_text(encoding="utf-8"))
    whole = seen("".join(page.parts))
    for key in ("name", "report_to"):
        assert seen(hostile_text("markup", "club", key)) in whole
    start = Text(hostile_folder.joinpath("index.html").read_text(encoding="utf-8"))
    assert seen(hostile_text("markup", "club", "about")) in seen("".join(start.parts))
    assert [a["content"] for tag, a in page.tags if tag == "meta" and a.get("name") == "description"]
