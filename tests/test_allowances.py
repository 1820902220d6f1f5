"""What counts where nobody looked closer: each number stands in the data once, is used, and is printed."""

import re
from dataclasses import replace
from pathlib import Path

from generator.compute.fit.history import bow_word
from generator.compute.fit.options import SEALS
from generator.model.chain_parts import Clip
from generator.model.dataset import Part
from generator.model.quantity import NM_PER_MM, Quantity
from generator.model.trials_and_rides import Trial
from generator.render.pages.reference.how_sure import how_sure_page
from generator.rules.forms import linear
from generator.rules.stack import counted_bow
from generator.rules.symbols import SYMBOLS
from generator.rules.vocabulary import dimensions
from tests.clubs import shelf
from tests.handbook import demo, demo_book

GENERATOR = Path(__file__).parents[1] / "generator"


def named_in_code() -> set[str]:
    text = "\n".join(file.read_text("utf-8") for file in GENERATOR.rglob("*.py"))
    return set(re.findall(r'"([a-z-]+)"', text)) | set(re.findall(r"n\.([a-z_]+)", text))


def test_every_allowance_is_used_and_says_its_grade_and_source() -> None:
    found = shelf().allowances
    pull_off = {id_ for id_ in found if id_.startswith("pull-off-")}
    assert len(pull_off) == 3
    assert set(found) - pull_off - named_in_code() == set()
    for each in found.values():
        assert each.source and each.evidence
        assert (each.length is None) != (each.number is None)


def test_the_engine_follows_the_number_in_the_data() -> None:
    """The limit of a bent clip is 0.30 mm; with 0.20 in its place a bow of 0.25 is bent."""
    clip = next(clip for clip in demo().clips.values() if clip.record.history == "off-once")
    bow = NM_PER_MM // 4
    bowed: Part[Clip] = replace(clip, dims={**clip.dims, "bow": Quantity(bow, bow, bow)})
    ours = shelf()
    written = ours.allowances["clip-bent"].length
    assert written is not None
    stricter = replace(
        ours,
        allowances={
            **ours.allowances,
            "clip-bent": ours.allowances["clip-bent"].model_copy(
                update={"length": replace(written, readings=(written.readings[0] * 2 / 3,))}
            ),
        },
    )
    assert (bow_word(bowed, ours), bow_word(bowed, stricter)) == ("flat", "bent")
    assert counted_bow(bowed, ours).high == ours.allowances["clip-bow-counted"].nm


def test_the_page_of_limits_prints_each_of_them() -> None:
    tables = {each.id: each for each in how_sure_page(demo_book()).tables}
    allowed = [row.id for name in ("lengths", "shares") for row in tables[f"allowed-{name}"].rows]
    assert sorted(allowed) == sorted(shelf().allowances)
    assert [row.id for row in tables["proven-by-hand"].rows] == [f"felt-{id_}" for id_ in shelf().dry_fits]


def test_what_a_dry_fit_proves_speaks_of_fields_and_dimensions_there_are() -> None:
    for id_, felt in shelf().dry_fits.items():
        fields = (felt.answer,) if felt.answer else felt.reads
        assert fields and set(fields) <= set(Trial.model_fields), id_
        assert (felt.is_so is None) == bool(felt.reads), id_
        assert bool(felt.reads) or felt.low or felt.high, id_
        assert {name for name, _ in linear(felt.form, dimensions()).terms} <= set(SYMBOLS) | {"M", "place"}, (
            id_
        )
        assert set(felt.seals) <= set(SEALS), id_
