"""The pages that speak of no single part: nothing on them but the data, nothing of the data left out."""

import csv
import io
import re
from collections import Counter
from dataclasses import replace
from fractions import Fraction
from functools import cache
from html import unescape

import pytest

from generator.compute.citations import citations
from generator.compute.size_by_size import motorcycle_codes, size_by_size
from generator.load.problem_texts import load_catalogue
from generator.model.how_sure import HowSure
from generator.model.shipped import RUNGS, Caution
from generator.render.base.lengths import MINUS
from generator.render.base.page import Page, Site
from generator.render.downloads.data_table import slug
from generator.render.pages.reference.how_sure import how_sure_page
from generator.render.pages.sizes.crossing_words import both_kinds
from generator.render.say.cautions import signal_word
from generator.render.schema.field_facts import field_facts
from generator.site.content import site_of
from tests.clubs import CLUB_KINDS, DATA, checked
from tests.handbook import address, bodies, demo, demo_book, demo_site, printed, seen
from tests.page_tables import PageTables, ReadCell, ReadTable

SHELF = demo().shelf


@cache
def page_text(path: str) -> str:
    """What a reader reads: no markup, both units."""
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", bodies()[path])).split())


def says(path: str, text: str) -> bool:
    return " ".join(text.split()) in page_text(path)


# --- size codes ---


@pytest.mark.parametrize("code", sorted(SHELF.sizes))
def test_a_size_page_shows_every_value_its_source_and_every_contradiction(code: str) -> None:
    path, size = f"sizes/{code.lower()}/", SHELF.sizes[code]
    tables = PageTables(bodies()[path]).found
    shown = {row[0].text: row for row in tables[f"size-{code.lower()}"].rows}
    for field, quantity in size.dims.items():
        if field == "tensile":
            assert says(path, f"{quantity.nominal / 10**6:.1f} kN")
            continue
        row = shown[field.replace("_", " ").capitalize()]
        assert abs(Fraction(row[1].text.removesuffix(" mm")) * 10**6 - quantity.nominal) <= 500
        assert SHELF.sources[(quantity.source or "").split("[")[0]].title in row[-1].text
    for other in size.record.other_readings:
        assert says(path, other.value.text) and says(path, other.because[1:])


def test_the_page_of_a_code_that_breaks_the_rule_says_so() -> None:
    # the odd ones of tests/outside/published.yaml, naming
    for code in ("428", "532", "632", "219", "270H"):
        assert says(f"sizes/{code.lower()}/", f"{code} breaks the naming rule")
    for code in ("415", "420", "520", "525H", "530", "630"):
        assert says(f"sizes/{code.lower()}/", f"{code} follows the naming rule")
    assert "naming rule" not in page_text("sizes/08b/") + page_text("sizes/25h/")


def test_a_size_page_names_its_industrial_neighbours_and_the_club_s_parts() -> None:
    assert {"10A", "10B"} <= {
        row[0].text for row in PageTables(bodies()["sizes/530/"]).found["neighbours-530"].rows
    }
    assert "neighbours-219" not in bodies()["sizes/219/"]
    for chain in demo().chains.values():
        if chain.record.size_code in SHELF.sizes:
            assert says(f"sizes/{chain.record.size_code.lower()}/", chain.id)


def test_size_against_size_shows_the_best_of_every_crossing_of_one_pitch() -> None:
    html = bodies()["sizes/"]
    words = Counter(re.findall(r'class="cell v-([a-z-]+)"', html))
    assert sum(words.values()) == 2 * 2 + 6 * 6 + 7 * 7 + 2 * 2
    assert set(words) == {"proper", "get-home", "no-go"}
    best = Counter(
        RUNGS[both.same[0]] for both in both_kinds(size_by_size(demo())) if both.relation != "other-pitch"
    )
    alone = sum(len(codes) == 1 for codes in grouped_by_pitch().values())
    assert sum(best.values()) == sum(words.values()) + alone
    assert words["no-go"] == best["no-go"] and words["get-home"] == best["get-home"]
    assert says("sizes/", "common practice, no source")


def grouped_by_pitch() -> dict[int, list[str]]:
    found: dict[int, list[str]] = {}
    for code in motorcycle_codes(demo()):
        found.setdefault(SHELF.sizes[code].dims["pitch"].nominal, []).append(code)
    return found


def test_the_finder_leads_from_every_roller_and_width_to_its_codes() -> None:
    """Each code of trail size stands where its published roller and the fraction of its width meet."""
    html = bodies()["sizes/"].split("finder-grid", 1)[1].split("</table>", 1)[0]
    for code in motorcycle_codes(demo()):
        dims = SHELF.sizes[code].dims
        if {"roller_diameter", "inner_width"} <= dims.keys() and dims["roller_diameter"].nominal > 7_000_000:
            assert re.search(rf"[> ,]{code}[<,]", html), code
            assert f'scope="row">{dims["roller_diameter"].nominal / 10**6:.2f}<' in html, code


# --- measuring ---


@pytest.mark.parametrize("id_", sorted(SHELF.recipes))
def test_a_recipe_page_shows_how_with_a_drawing_and_what_it_decides(id_: str) -> None:
    path, recipe = f"measuring/{id_}/", SHELF.recipes[id_]
    assert says(path, recipe.how)
    assert "<svg" in bodies()[path]
    assert id_ in seen("measuring/").ids
    for check in recipe.decides:
        rules = [r for r, rule in SHELF.joint_rules.items() if check in (r, rule.check)]
        assert not rules or any(f"limits/#{rule}" in to for to in links(path) for rule in rules)
    for field in recipe.fields:
        assert says(path, field.split(".")[1])


def links(path: str) -> set[str]:
    found = (address(path, link) for link in seen(path).links)
    return {f"{to}#{anchor}" if anchor else to for to, anchor in found}


def test_what_a_caliper_costs_is_the_sum_of_its_error_and_the_recipe_s() -> None:
    # DIN 862: 0.02 for a digital caliper up to 100 mm, 0.02 more inside; the recipe of the pin reach adds 0.03
    rows = {
        row[0].text: row for row in PageTables(bodies()["measuring/pin-reach/"]).found["cost-pin-reach"].rows
    }
    assert [cell.text for cell in rows["Digital caliper reading 0.01 mm"][1:4]] == [
        "0.04 mm",
        "0.07 mm",
        "0.07 mm",
    ]
    assert [cell.text for cell in rows["digital caliper on the bench"][1:4]] == [
        "0.04 mm",
        "0.07 mm",
        "0.07 mm",
    ]
    bore = {
        row[0].text: row for row in PageTables(bodies()["measuring/bush-bore/"]).found["cost-bush-bore"].rows
    }
    assert [cell.text for cell in bore["Digital caliper reading 0.01 mm"][2:4]] == ["0.04 mm", "0.14 mm"]


# --- words, cautions, codes ---


def test_every_word_has_its_place_with_what_others_call_it() -> None:
    for id_, term in SHELF.glossary.items():
        assert id_ in seen("glossary/").ids
        for text in (term.title, term.meaning, *term.us, *term.uk, *term.also):
            assert says("glossary/", text)


@pytest.mark.parametrize(
    ("harm", "likelihood", "word"),
    [
        # ANSI Z535.6, from memory: will / could / could, minor / property
        ("death-or-serious", "will", "danger"),
        ("death-or-serious", "could", "warning"),
        ("death-or-serious", "rare", "warning"),
        ("minor-or-moderate", "will", "caution"),
        ("minor-or-moderate", "could", "caution"),
        ("damage", "will", "notice"),
        ("damage", "could", "notice"),
    ],
)
def test_the_signal_word_follows_from_harm_and_likelihood(harm: str, likelihood: str, word: str) -> None:
    caution = next(iter(SHELF.cautions.values())).model_copy(update={"harm": harm, "likelihood": likelihood})
    assert isinstance(caution, Caution) and signal_word(caution) == word


def test_every_caution_stands_in_full_the_gravest_first() -> None:
    full = bodies()["safety/"].split('id="all"', 1)[1].split('id="signals"', 1)[0]
    words = re.findall(r'class="hazard__word">(\w+)<', full)
    assert words == sorted(words, key=["danger", "warning", "caution", "notice"].index)
    assert len(words) == len(SHELF.cautions)
    for id_, caution in SHELF.cautions.items():
        assert id_ in seen("safety/").ids
        for text in (caution.hazard, caution.consequence, caution.avoid):
            assert says("safety/", text)


def test_every_code_is_explained_with_both_samples() -> None:
    for code, entry in load_catalogue(DATA).items():
        assert code in seen("problems/").ids
        for text in (entry.title, entry.why, entry.fix, entry.at, *entry.bad.values(), *entry.good.values()):
            assert says("problems/", text)


# --- sources and limits ---


def test_every_source_and_every_citation_is_listed() -> None:
    tables = PageTables(bodies()["sources/"]).found
    assert set(SHELF.sources) <= set(seen("sources/").ids)
    assert sum(len(t.rows) for id_, t in tables.items() if id_.startswith("cited-")) == len(citations(SHELF))
    cited = {row[0].note: int(row[4].text) for row in tables["sources"].rows}
    assert sum(cited.values()) == len(citations(SHELF))


def test_shares_are_counted_from_the_files_themselves() -> None:
    rows = PageTables(bodies()["sources/"]).found["shares"].rows
    # of what is only remembered, what tells sizes apart counts; the rest is in the file and not used
    in_files = sum(
        len(
            re.findall(
                r"^  (?:pitch|roller_diameter|inner_width): \{is: .*from: from-memory",
                path.read_text("utf-8"),
                re.MULTILINE,
            )
        )
        for path in (DATA / "sizes").glob("*.yaml")
    )
    (row,) = [
        r for r in rows if r[0].text == "Values of the size codes" and r[1].text.startswith("from memory")
    ]
    assert int(row[2].text) == in_files
    for what in {row[0].text for row in rows}:
        percents = [Fraction(r[3].text.removesuffix(" %")) for r in rows if r[0].text == what]
        assert abs(sum(percents, Fraction(0)) - 100) <= Fraction(len(percents), 10)


def test_every_rule_is_listed_with_its_limits_grade_and_source() -> None:
    rows: dict[tuple[str, str], list[ReadCell]] = {}
    for id_, table in PageTables(bodies()["limits/"]).found.items():
        if id_.startswith("limits-"):
            rows |= {(id_, row[0].text): row for row in table.rows}
    for id_, rule in SHELF.joint_rules.items():
        row = rows["limits-joint", rule.title]
        assert id_ in seen("limits/").ids
        for cell, band in zip(row[1:4], (rule.proper, rule.get_home, rule.last_resort), strict=True):
            for limit in (band.low, band.high) if band and id_ not in demo().overrides else ():
                assert limit is None or limit.replace("-", MINUS).replace(" * ", " × ") in cell.text
        assert row[-1].text == SHELF.sources[rule.source.split("[")[0]].title
    assert len(rows) == len(SHELF.joint_rules) + sum(len(rules) for rules in SHELF.other_rules.values())


def test_a_club_s_own_limit_is_shown_as_its_own() -> None:
    (row,) = [
        r for r in PageTables(bodies()["limits/"]).found["limits-joint"].rows if r[0].text == "Plate height"
    ]
    assert row[0].note == "the club's own limits"
    assert row[2].text == "at most 0.6" and "narrow guides" in row[5].note


def test_the_shipped_flips_are_counted_limit_by_limit() -> None:
    tables = PageTables(bodies()["limits/"]).found
    found = SHELF.how_sure
    assert found is not None
    assert len(tables["flip-list"].rows) == len(found.flips)
    assert sum(int(row[2].text) for row in tables["moved-limits"].rows) == len(found.flips)
    counts = [int(row[2].text) for row in tables["moved-limits"].rows]
    assert counts == sorted(counts, reverse=True)
    assert len(tables["disagree-list"].rows) == len(found.disagree)


def test_facts_that_flip_are_shown_as_they_were_found() -> None:
    plain = {
        "made_with": "python -m tests.flips",
        "share_percent": "20",
        "limits": "90",
        "facts": "120",
        "flips": [
            {
                "rule": "tip-land",
                "rung": "get-home",
                "side": "low",
                "moved": "in",
                "by": "0.02 mm",
                "fact": "clip-too-thick",
                "case": "middle",
                "before": "get-home",
                "after": "last-resort",
            }
        ],
    }
    found = replace(demo(), shelf=replace(SHELF, how_sure=HowSure.model_validate(plain)))
    page = how_sure_page(replace(demo_book(), dataset=found))
    html = printed(Site(demo_site().facts, (page,)))["limits/"]
    tables = PageTables(html).found
    (row,) = tables["flip-list"].rows
    assert [cell.text for cell in row] == [
        "clip too thick",
        "get-home",
        "last-resort",
        "middle",
        "Metal left beyond the groove: least value for get-home, moved in",
        "0.02 mm",
    ]
    (row,) = tables["moved-limits"].rows
    assert [cell.text for cell in row[1:]] == ["0.02 mm", "1", "1", "get-home becomes last-resort"]
    assert row[0].note == "least value for get-home, moved in"
    assert "Each of 90 limits was moved by 20 %" in html


# --- lists ---


def test_the_list_of_labels_leads_to_every_page_but_those_of_pairs() -> None:
    """A pair is one tap from the page of its chain."""
    wanted = {page.path for page in demo_site().pages if page.kind != "pair"} - {"pages/"}
    assert wanted <= {to.partition("#")[0] for to in links("pages/")}


def test_the_list_of_files_leads_to_every_file_with_data() -> None:
    listed = links("downloads/")
    files = {asset.path for asset in demo_site().assets if asset.path.startswith("data/v1/")}
    only_schemas = {path for path in files if re.search(r"/schema/(club/|explain|check|plan|cards)", path)}
    assert files - listed - only_schemas == set()
    assert {to for to in listed if to.startswith("data/v1/")} <= files


def test_the_data_format_explains_every_key_of_every_file() -> None:
    for kind in CLUB_KINDS:
        stem = str(getattr(kind, "file", "")).rsplit(".", 1)[0].replace("_", "-")
        rows = {row[0].text: row for row in PageTables(bodies()["data-format/"]).found[f"format-{stem}"].rows}
        for fact in field_facts(kind):
            row = rows[fact.name]
            assert row[1].text == ("required" if fact.required else "optional")
            assert (row[2].text, row[3].text) == (fact.description, fact.holds)


# --- all of them ---


# kinds that speak of no part of the club
REFERENCE = {
    "sizes", "size", "measuring", "recipe", "safety", "glossary", "about", "sources", "limits", "codes", "data-format",
    "all-pages", "downloads",
}  # fmt: skip


def reference(site: Site) -> tuple[Page, ...]:
    return tuple(page for page in site.pages if page.kind in REFERENCE)


def test_every_page_can_be_searched_for_and_says_what_it_is() -> None:
    for page in reference(demo_site()):
        assert len(page.search) >= 2, page.path
        assert page.description.endswith(".") and len(page.description) < 140
        assert all(text and "_" not in text for text in page.search if page.kind != "codes"), page.search


def test_a_club_with_nothing_has_all_of_them() -> None:
    bare = site_of(checked({}))
    assert {page.path for page in reference(demo_site())} <= set(printed(bare))


# --- the same cells in the files ---


def files() -> dict[str, str]:
    return {a.path: str(a.content) for a in demo_site().assets if a.path.startswith("data/v1/tables/")}


def sampled() -> list[str]:
    """Every reference page, and one page of each other kind."""
    kinds = {page.kind: page.path for page in demo_site().pages}
    return sorted({page.path for page in reference(demo_site())} | set(kinds.values()))


def test_a_file_holds_the_cells_of_its_table() -> None:
    """All pages in one test: which there are is known only once a handbook has been made."""
    every, compared = files(), 0
    for path in sampled():
        for id_, table in PageTables(bodies()[path]).found.items():
            name = f"data/v1/tables/{id_}.csv"
            if name in every:
                lines = list(csv.reader(io.StringIO(every[name], newline=""), strict=True))
                assert len(lines) - 1 == len(table.rows), (path, id_)
                compare(table, lines)
                compared += 1
    assert compared >= 10


def compare(table: ReadTable, lines: list[list[str]]) -> None:
    """Column after column of the page against the columns of the file, which follow in the same order."""
    names, rows = lines[0], lines[1:]
    at = 1 if names[0] == "id" and slug(table.heads[0]) != "id" else 0
    for column, head in enumerate(table.heads):
        first = at
        at += 1
        while at < len(names) and re.fullmatch(
            rf"{re.escape(slug(head))}_(range|text|note)(_\d+)?", names[at]
        ):
            at += 1
        assert names[first].startswith(slug(head)), (names, head)
        for row, line in zip(table.rows, rows, strict=True):
            compare_cell(row[column], dict(zip(names[first:at], line[first:at], strict=True)), names[first])
    assert at == len(names)


def compare_cell(cell: ReadCell, values: dict[str, str], name: str) -> None:
    by_end = {
        re.sub(r"_\d+$", "", key).rsplit("_", 1)[-1]: value for key, value in values.items() if key != name
    }
    main = values[name]
    assert by_end.get("note", "") == cell.note.strip()
    if cell.is_verdict:
        assert (
            main.replace("-", " ") == cell.text.replace("-", " ").strip()
            and by_end.get("range", "") == cell.span
        )
        return
    words = by_end.get("text", "")
    text = cell.text.strip()
    number = re.fullmatch(rf"({MINUS}?[0-9.]+)( mm| %)?", text)
    if number and (name.endswith(("_mm", "_percent")) or main == number[1]):
        shown = Fraction(number[1].replace(MINUS, "-"))
        step = Fraction(1, 10 ** len(number[1].partition(".")[2]))
        # the ends of an interval are shown outward, so that what is shown covers what is known
        inward = {"at_least": Fraction(main) - shown, "at_most": shown - Fraction(main)}.get(name[:-3])
        if inward is None:
            assert abs(Fraction(main) - shown) <= step / 2
        else:
            assert 0 <= inward < step
    else:
        assert text in (words or main.removeprefix("'"), main)


def test_rungs_are_the_words_of_the_model() -> None:
    texts = {cell.text for row in PageTables(bodies()["sizes/"]).found["relations"].rows for cell in row[2:]}
    assert texts <= set(RUNGS)
