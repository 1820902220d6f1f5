"""A club that types what it should not: markup, templates, formulas, quotes, right-to-left text, words without an end."""

from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

import yaml
from pydantic import BaseModel

from generator.model.club import Club, Instrument
from generator.model.kinds import MODELS

ALL_MODELS: tuple[type[BaseModel], ...] = (*MODELS.values(), Club, Instrument)
CLUB = {"name": "A club of the tests", "id": "hostile", "as_of": "2027-03-01"}
LONGEST = 400
Raw = dict[str, dict[str, Any]]

# each way is tried in every free-text field; with its marker each is at most 400 characters long
WAYS: Mapping[str, str] = {
    "markup": (
        '<script>document.title="owned"</script></script></textarea><img src=x onerror=document.title="owned">'
        " {{ 7 * 7 }} {% x %} {# y #} *a* __b__ [c](javascript:d) | e # f &lt;b&gt; &amp; &#60;"
    ),
    "attribute": (
        '=HYPERLINK("http://example.org";"x") " onmouseover="document.title=\'owned\'" '
        "style=\"position:fixed\" ' ]]> --> <svg onload=document.title='owned'></svg> ${7*7}"
    ),
    "right-to-left": "+1 \u200fקישור אדום\u200f מהשק הישן 🏍️🔗👩🏽‍🔧 ½ é e\u0301",
    "endless": f"@{'Wm' * 185}",
}


def fields_of(model: type[BaseModel], free: bool) -> Iterator[str]:
    """The keys of a record that take free text, or those that do not, by what its model says of them."""
    for key, schema in model.model_json_schema()["properties"].items():
        if ("x-free-text" in str(schema)) == free:
            yield key


def stem_of(model: type[BaseModel]) -> str:
    """The name of its file without its ending; instruments have none of their own."""
    return str(getattr(model, "file", "instruments")).removesuffix(".yaml")


def hostile_text(way: str, stem: str, key: str) -> str:
    """Unlike any other text of the club, so that it can be looked for."""
    return f"{WAYS[way]}{'~' if way == 'endless' else ' '}{stem}.{key}"


def texts(model: type[BaseModel], way: str) -> dict[str, str]:
    """Hostile text for every free-text field of a record."""
    return {key: hostile_text(way, stem_of(model), key) for key in fields_of(model, free=True)}


def sound_club(way: str) -> Raw:
    """A record of each kind under its file's name, nothing hostile in it; `club` holds one record only."""
    text = (Path(__file__).parent / "hostile_base.yaml").read_text(encoding="utf-8").replace("WAY", way)
    raw: Raw = yaml.load(text, yaml.BaseLoader)
    return {"club": {"club": dict(CLUB)}, **raw}


def hostile_club(*ways: str) -> Raw:
    """A record of each kind for each way, hostile text in every free-text field; the club's own are of the first."""
    whole: Raw = {}
    for way in ways:
        for model in ALL_MODELS:
            stem = stem_of(model)
            for id_, record in sound_club(way)[stem].items():
                whole.setdefault(stem, {}).setdefault(id_, {**record, **texts(model, way)})
    return whole


def files_of(raw: Raw) -> dict[str, str]:
    """The texts of the folder by name, letters of every language as they are."""
    files = {stem: records for stem, records in raw.items() if stem != "instruments"}
    files["club"] = {"instruments": raw["instruments"], **raw["club"]["club"]}
    return {
        f"{stem}.yaml": yaml.safe_dump(records, sort_keys=False, allow_unicode=True, width=10_000)
        for stem, records in files.items()
    }


def write_files(files: Mapping[str, str], folder: Path) -> Path:
    folder.mkdir(parents=True, exist_ok=True)
    for name, text in files.items():
        (folder / name).write_text(text, encoding="utf-8")
    return folder
