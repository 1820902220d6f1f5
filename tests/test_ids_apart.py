"""Ids of a club that are also names of our own: of elements of a page, of files, of folders."""

from collections import Counter
from pathlib import Path
from shutil import copytree

import pytest

from generator.cli import main
from generator.cli.exit_codes import FINE
from generator.shipped import shipped_root
from tests.handbook import Seen

SMALL_CLUB = shipped_root() / "data" / "problems_base"
# those of the frame, of a page's sections and of its verdicts, and words that files begin with
NAMES = (
    *("content", "menu", "all", "measuring", "bike", "strip", "index", "verdict", "why", "next", "need", "do", "go"),
    *("known", "other", "numbers", "cautions", "sign", "hatch", "trail", "readings", "facts", "runs", "after", "cause"),
    *("bikes", "proper", "get-home", "last-resort", "no-go", "not-settled", "cannot-judge", "measure-first"),
    *("v-proper", "n-find", "n-menu", "n-start", "n-broke", "s-no-go", "i-press", "one-link", "no-repair", "roll-home"),
)  # fmt: skip


RECORDS = {"links": "tin-1", "chains": "red", "bikes": "b01"}


@pytest.fixture(scope="module", params=sorted(RECORDS))
def built(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Every link (each other one of another pitch), chain or bike goes by such a name."""
    folder = tmp_path_factory.mktemp("apart")
    club = Path(copytree(SMALL_CLUB, folder / "club"))
    file = club / f"{request.param}.yaml"
    record = file.read_text().partition(f"{RECORDS[request.param]}:\n")[2]
    for number, name in enumerate(NAMES):
        other = (
            record.replace("size_code: 520", "size_code: 428").replace("  clip: spring-1\n", "")
            if number % 2
            else record
        )
        file.write_text(f"{file.read_text()}{name}:\n{other}")
    assert main(["build", "--club", str(club), "--to", str(folder / "site")]) == FINE
    return folder / "site"


def test_no_element_of_a_page_has_the_name_of_another(built: Path) -> None:
    found = {}
    for page in built.rglob("*.html"):
        twice = [id_ for id_, times in Counter(Seen(page.read_text()).ids).items() if times > 1]
        if twice:
            found[page.relative_to(built).as_posix()] = twice
    assert found == {}
