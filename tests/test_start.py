"""A new club folder: complete, clean as it stands, and usable by taking the # away."""

import re
import shutil
from pathlib import Path

import pytest
import yaml
from jsonschema import Draft7Validator
from pydantic import BaseModel

from generator.cli.start import start
from generator.compute.fit.fits import fit_table
from generator.load.files import CLUB_FILES
from generator.load.folder import load_club, load_shelf
from generator.model.club import Club
from generator.model.kinds import MODELS
from generator.model.record import Record
from generator.model.wear_row import WearRow
from generator.render.schema.club import club_schemas
from generator.render.schema.field_facts import MAY_BE_UNKNOWN, FieldFacts, field_facts
from generator.validate.dataset import build_dataset
from tests.editor_yaml import as_editor_reads

ROOT = Path(__file__).parents[1]


@pytest.fixture(scope="module")
def club(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("start") / "new" / "club"
    assert start(folder) == 0
    return folder


def test_every_file_of_a_club_is_there(club: Path) -> None:
    assert {path.name for path in club.iterdir()} == {*CLUB_FILES, "schema", "PUBLISHING.md", "FILES.md"}


def test_the_wear_log_is_explained_and_its_example_is_taken(club: Path, tmp_path: Path) -> None:
    guide = (club / "FILES.md").read_text(encoding="utf-8")
    assert all(f"`{name}`" in guide for name in CLUB_FILES)
    for fact in field_facts(WearRow):
        assert f"- `{fact.name}`: {fact.holds}. {fact.description}" in guide
    table = "".join(f"{line.strip()}\n" for line in guide.splitlines() if line.startswith("    "))
    shutil.copytree(club, tmp_path / "club")
    (tmp_path / "club" / "wear_log.csv").write_text(table, encoding="utf-8")
    (tmp_path / "club" / "chains.yaml").write_text(
        "first-chain:\n  size_code: 520\n  kind: sealed\n  own_joint: unknown\n", encoding="utf-8"
    )
    text = (club / "club.yaml").read_text(encoding="utf-8").replace("as_of: 2027-01-01", "as_of: 2027-03-01")
    (tmp_path / "club" / "club.yaml").write_text(text, encoding="utf-8")
    dataset, problems = build_dataset(load_club(tmp_path / "club"), load_shelf(ROOT / "data"))
    assert [problem.code for problem in problems] == ["C476"], "no bike runs the chain, and nothing else"
    assert dataset is not None and len(dataset.wear_log) == 1


def test_an_instrument_taken_as_it_stands_is_the_least_exact_caliper(club: Path, tmp_path: Path) -> None:
    """A kind left as it stands must not make readings look better than they are."""
    text = (club / "club.yaml").read_text(encoding="utf-8")
    text = re.sub(r"^# (instruments:|  shed-caliper:|    kind:)", r"\1", text, flags=re.MULTILINE)
    shutil.copytree(club, tmp_path / "club")
    (tmp_path / "club" / "club.yaml").write_text(text, encoding="utf-8")
    dataset, problems = build_dataset(load_club(tmp_path / "club"), load_shelf(ROOT / "data"))
    assert problems == ()
    assert dataset is not None
    kinds = dataset.shelf.instruments
    own = kinds[dataset.club.instruments["shed-caliper"].kind]
    calipers = [kind for kind in kinds.values() if kind.outside and kind.inside and kind.depth]
    assert own.outside is not None
    assert own.outside.readings == max(kind.outside.readings for kind in calipers if kind.outside)


def test_an_own_instrument_without_its_plus_minus_is_asked_for_it(club: Path, tmp_path: Path) -> None:
    text = (club / "club.yaml").read_text(encoding="utf-8")
    text = re.sub(r"^# (instruments:|  shed-caliper:)", r"\1", text, flags=re.MULTILINE)
    text = re.sub(r"^#     kind: .*", "    kind: own", text, flags=re.MULTILINE)
    shutil.copytree(club, tmp_path / "club")
    (tmp_path / "club" / "club.yaml").write_text(text, encoding="utf-8")
    _, (problem,) = build_dataset(load_club(tmp_path / "club"), load_shelf(ROOT / "data"))
    assert problem.code == "X304"
    assert "no plus-minus of its own" in problem.message
    assert "ships" not in problem.message
    assert problem.fix.startswith("add outside, inside or depth")


def test_it_checks_clean_and_can_be_computed(club: Path) -> None:
    dataset, problems = build_dataset(load_club(club), load_shelf(ROOT / "data"))
    assert problems == ()
    assert dataset is not None and fit_table(dataset) == ()


@pytest.mark.parametrize("kind", (Club, *MODELS.values()), ids=lambda kind: kind.__name__)
def test_the_first_line_points_an_editor_to_the_schema(club: Path, kind: type[Record]) -> None:
    text = (club / kind.file).read_text(encoding="utf-8")
    found = re.fullmatch(r"# yaml-language-server: \$schema=(schema/\w+\.json)", text.splitlines()[0])
    assert found
    Draft7Validator(club_schemas()[found[1].removeprefix("schema/")]).validate(as_editor_reads(text))
    assert (club / found[1]).is_file()


@pytest.mark.parametrize("kind", MODELS.values(), ids=lambda kind: kind.__name__)
def test_every_field_stands_there_with_its_need_choices_and_meaning(club: Path, kind: type[Record]) -> None:
    text = (club / kind.file).read_text(encoding="utf-8")
    for fact in field_facts(kind):
        need = "required" if fact.required else "optional"
        about = next(line for line in text.splitlines() if fact.description in line and need in line)
        assert all(choice in about for choice in fact.choices)
        assert fact.symbol in about
        assert re.search(rf"^# +{fact.name}:", text, re.MULTILINE), "one # to take away"


@pytest.mark.parametrize("kind", MODELS.values(), ids=lambda kind: kind.__name__)
def test_a_record_without_its_hashes_is_a_record(club: Path, kind: type[Record]) -> None:
    record = bare_record((club / kind.file).read_text(encoding="utf-8"))
    names = {fact.name: fact for fact in field_facts(kind)}
    assert list(record) == list(names)
    kind.model_validate({name: _filled(names[name], value) for name, value in record.items()})


def bare_record(text: str) -> dict[str, object]:
    """One hash taken away from every line; comments about a field stay comments."""
    body = text.split("\n\n", 1)[1]
    loaded = yaml.load(re.sub(r"^# ", "", body, flags=re.MULTILINE), yaml.BaseLoader)
    (record,) = loaded.values()
    return dict(record)


def _filled(fact: FieldFacts, value: object) -> object:
    """What a person writes where nothing stands yet."""
    example = fact.choices[0] if fact.choices else fact.example or "a word"
    return {"low": "0.1", "high": "0.2"} if "block" in fact.holds else value or example


@pytest.mark.parametrize("kind", MODELS.values(), ids=lambda kind: kind.__name__)
def test_nothing_that_must_be_replaced_passes_for_a_value(club: Path, kind: type[BaseModel]) -> None:
    text = (club / kind.file).read_text(encoding="utf-8")  # type: ignore[attr-defined]
    for fact in field_facts(kind):
        value = bare_record(text)[fact.name]
        allowed = "unknown" in fact.choices or fact.kind in MAY_BE_UNKNOWN
        assert value == ("unknown" if allowed else "")


def test_the_shipped_choices_are_named(club: Path) -> None:
    text = (club / "club.yaml").read_text(encoding="utf-8")
    shelf = yaml.safe_load((ROOT / "data/instruments.yaml").read_text(encoding="utf-8"))
    assert all(kind in text for kind in shelf)
    assert all(rule in text for rule in yaml.safe_load((ROOT / "data/wear_limits.yaml").read_text()))


def test_the_publishing_recipe_says_what_a_page_cannot(club: Path) -> None:
    text = (club / "PUBLISHING.md").read_text(encoding="utf-8")
    assert text.count("frame-ancestors 'none'") >= 3
    assert "index.html" in text and "HANDBOOK_SITE_URL" in text


def test_a_folder_that_is_not_empty_is_left_alone(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "mine.txt").write_text("mine")
    assert start(tmp_path) == 2
    assert [path.name for path in tmp_path.iterdir()] == ["mine.txt"]
    assert "nothing was written" in capsys.readouterr().err


def test_an_empty_folder_is_used_and_a_file_is_not(tmp_path: Path) -> None:
    (tmp_path / "empty").mkdir()
    assert start(tmp_path / "empty") == 0
    (tmp_path / "file").write_text("")
    assert start(tmp_path / "file") == 2
    assert start(tmp_path / "file" / "below") == 3


def test_two_starts_are_alike(club: Path, tmp_path: Path) -> None:
    assert start(tmp_path / "other") == 0
    for path in sorted(club.rglob("*.*")):
        assert (tmp_path / "other" / path.relative_to(club)).read_bytes() == path.read_bytes()
