"""The schemas of a club's files: fresh, valid draft-07, and of one mind with the strict reader."""

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Annotated, Any

import pytest
import yaml
from jsonschema import Draft7Validator
from pydantic import BaseModel, TypeAdapter, ValidationError

from generator.cli import main
from generator.cli.exit_codes import CANNOT_READ_OR_WRITE, FINE
from generator.cli.schema import schema
from generator.model.chain_parts import Chain, Link
from generator.model.club import Club
from generator.model.kinds import MODELS
from generator.model.wear_row import WearRow
from generator.render.schema.club import club_schemas, schema_file
from generator.render.schema.field_facts import field_facts
from generator.render.schema.starter import schema_text
from tests.clubs import CLUB_KINDS
from tests.editor_yaml import as_editor_reads

ROOT = Path(__file__).parents[1]
SCHEMAS = club_schemas()


def faults(data_file: str, value: Any) -> list[str]:
    checker = Draft7Validator(SCHEMAS[schema_file(data_file)])
    return [error.message for error in checker.iter_errors(value)]


def test_the_committed_schemas_are_fresh() -> None:
    folder = ROOT / "data/schema"
    found = {path.name: path.read_text(encoding="utf-8") for path in folder.iterdir()}
    made = {name: schema_text(one) for name, one in SCHEMAS.items()}
    assert found == made, "the models changed: run  handbook schema --to data/schema  and commit the result"


def test_the_command_writes_what_is_committed(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert schema(tmp_path / "new") == 0
    for name, one in SCHEMAS.items():
        assert json.loads((tmp_path / "new" / name).read_text(encoding="utf-8")) == one
    assert capsys.readouterr().out == ""


def test_without_a_folder_all_schemas_go_to_stdout(capsys: pytest.CaptureFixture[str]) -> None:
    assert schema(None) == 0
    assert json.loads(capsys.readouterr().out) == SCHEMAS


def test_a_place_that_cannot_be_written_is_told_apart(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "file").write_text("")
    assert schema(tmp_path / "file" / "below") == 3
    assert "cannot write" in capsys.readouterr().err


@pytest.mark.parametrize("name", sorted(SCHEMAS))
def test_each_is_a_valid_schema_and_describes_every_field(name: str) -> None:
    Draft7Validator.check_schema(SCHEMAS[name])
    fields = list(_fields(SCHEMAS[name]))
    assert fields and all(field.get("description") for _, field in fields)


def _fields(node: Any) -> Iterator[tuple[str, dict[str, Any]]]:
    if isinstance(node, dict):
        yield from node.get("properties", {}).items()
        for value in node.values():
            yield from _fields(value)
    elif isinstance(node, list):
        for value in node:
            yield from _fields(value)


@pytest.mark.parametrize("kind", CLUB_KINDS, ids=lambda kind: kind.__name__)
def test_each_field_of_a_model_is_in_its_schema(kind: type[BaseModel]) -> None:
    named = {name for name, _ in _fields(SCHEMAS[schema_file(kind.file)])}  # type: ignore[attr-defined]
    assert {field.alias or name for name, field in kind.model_fields.items()} <= named


@pytest.mark.parametrize("kind", (Club, *MODELS.values()), ids=lambda kind: kind.__name__)
def test_the_demo_club_follows_the_schemas(kind: type[Club]) -> None:
    text = (ROOT / "data/demo" / kind.file).read_text(encoding="utf-8")
    assert faults(kind.file, as_editor_reads(text)) == []


@pytest.mark.parametrize(
    ("line", "says"),
    [
        ("pin_reech: 11.66 mm", "'pin_reech' was unexpected"),
        ("plate_fit: clip-on", "is not one of"),
        ("pin_reach: 11.66", "is not valid under any of the given schemas"),
        ("pin_reach: {from: measured}", "is not valid under any of the given schemas"),
        ("clip: Tin 3", "does not match"),
        ("size_code: big", "does not match"),
        ("half_link: true", "is not one of"),
        ("count: 1.5", "is not of type 'integer'"),
        ("cost: dear", "does not match"),
        ("source: somewhere", "does not match"),
    ],
)
def test_an_editor_marks_what_the_strict_reader_refuses(line: str, says: str) -> None:
    good = {"size_code": 520, "closure": "clip", "plate_fit": "slip", "made_for": "plain"}
    assert faults("links.yaml", {"tin-3": good}) == []
    found = faults("links.yaml", {"tin-3": good | as_editor_reads(line)})
    assert len(found) == 1 and says in found[0]
    with pytest.raises(ValidationError):
        Link.model_validate(good | {"size_code": "520"} | as_reader_reads(line))


def as_reader_reads(line: str) -> dict[str, object]:
    """As the strict reader hands it to the model: every single value is text."""
    return dict(yaml.load(line, yaml.BaseLoader))


def test_an_empty_value_is_marked() -> None:
    assert faults("chains.yaml", {"a": {"size_code": 520, "kind": "plain", "pitch": None}})


def test_an_id_and_a_missing_key_are_marked() -> None:
    assert len(faults("links.yaml", {"Tin 3": {}})) == 1 + 4


@pytest.mark.parametrize(
    "line",
    [
        "pin_reach: 0.459 in",
        "pin_reach: 11.66 ± 0.05 mm",
        "pin_reach: 11.66, 11.64 mm",
        "pin_reach: unknown",
        "pin_reach: {is: 11.66 mm, from: published, plus_minus: 0.1 mm, source: 'trade-table[row 520]'}",
        "clip: 7",
        "name: 12",
        "tensile: 26.4 kN",
        "cost: 3",
        "cost: unknown",
        "half_link: yes",
        "measured_on: 2027-02-14",
    ],
)
def test_an_editor_leaves_alone_what_the_strict_reader_takes(line: str) -> None:
    good = {"size_code": "25H", "closure": "clip", "plate_fit": "slip", "made_for": "plain"}
    assert faults("links.yaml", {"tin-3": good | as_editor_reads(line)}) == []
    Link.model_validate(good | as_reader_reads(line))


def test_a_single_value_may_stand_for_a_list() -> None:
    assert faults("tools.yaml", {"press": {"does": "press", "takes": 520}}) == []
    assert faults("tools.yaml", {"press": {"does": "press", "takes": [520, "428H"]}}) == []


@pytest.mark.parametrize("kind", CLUB_KINDS, ids=lambda kind: kind.__name__)
def test_each_example_is_taken_by_the_model(kind: type[BaseModel]) -> None:
    names = {field.alias or name: name for name, field in kind.model_fields.items()}
    for fact in field_facts(kind):
        for example in (fact.choices or (fact.example,)) if fact.example else ():
            accepts(kind, names[fact.name], (example,) if fact.is_list else example)


def accepts(kind: type[BaseModel], name: str, value: object) -> None:
    adapted: Any = kind.model_fields[name].annotation
    for extra in kind.model_fields[name].metadata:
        adapted = Annotated[adapted, extra]
    TypeAdapter(adapted).validate_python(value)


def test_what_a_field_needs_is_said() -> None:
    facts = {fact.name: fact for fact in field_facts(Chain)}
    assert [fact.name for fact in field_facts(Chain)][:2] == ["size_code", "kind"]
    assert facts["size_code"].required and not facts["bush_bore"].required
    assert (facts["bush_bore"].symbol, facts["bush_bore"].kind) == ("d3", "length")
    assert facts["seal"].choices == ("O", "X", "other", "none", "unknown")
    assert facts["seal"].default == "unknown"
    assert {fact.name: fact.holds for fact in field_facts(WearRow)}["new_chain"] == "one of yes, no"


def test_nothing_that_is_not_ours_is_overwritten(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    to = tmp_path / "schema"
    assert main(["schema", "--to", str(to)]) == main(["schema", "--to", str(to)]) == FINE
    before = {file.name: file.read_bytes() for file in to.iterdir()}
    to.joinpath("links.json").write_text('{"my": "links"}')
    to.joinpath("bikes.json").write_text("not json")
    assert main(["schema", "--to", str(to)]) == CANNOT_READ_OR_WRITE
    assert "has bikes.json, links.json, no schema of ours: nothing was written" in capsys.readouterr().err
    mine = {"links.json": b'{"my": "links"}', "bikes.json": b"not json"}
    assert {file.name: file.read_bytes() for file in to.iterdir()} == before | mine
