"""How sure the limits are: every limit with its source and grade, and what a small move of each would change.

Goes in: a dataset.  Comes out: a page.
"""

from collections.abc import Iterator, Mapping

from generator.model.care import Allowance
from generator.model.dataset import Dataset
from generator.model.shipped import Band, Rule
from generator.render.base.lengths import MINUS
from generator.render.base.page import Download, Page
from generator.render.base.table import Cell, Column, Row, Table
from generator.render.pages.book import Book
from generator.render.pages.care.figures import figure_text
from generator.render.pages.reference.cells import evidence_cell, field_title, length_cell, source_cell
from generator.render.pages.reference.flips import tried
from generator.render.pages.reference.symbol_words import symbol_table
from generator.rules.table import effective_rules

TITLES = {
    "joint": "A connecting link on a chain",
    "clip_link": "A clip on a link",
    "clip_lost": "A joint that has lost its clip",
    "key": "A key in a tool",
    "neighbours": "A link between unlike neighbours",
    "plate": "A loose side plate on a link",
    "seal": "Seals on a link and a chain",
    "strip": "A spare strip in a chain",
    "tool": "A tool on a chain and a link",
}
_COLUMNS = (
    Column("Check", "head"),
    Column("proper"),
    Column("get-home"),
    Column("last-resort"),
    Column("What is compared", "long"),
    Column("What for", "long"),
    Column("Grade"),
    Column("Source", "long"),
)
_ALLOWED = (Column("What counts", "head"), Column("How much"), Column("Grade"), Column("Source", "long"))


def how_sure_page(book: Book) -> Page:
    dataset = book.dataset
    found = dataset.shelf.how_sure
    tables, allowances = tuple(_tables(dataset)), _allowances(dataset)
    return Page(
        path="limits/",
        title="How sure the limits are",
        description="Every limit with its source and grade, and which trade facts flip when one is moved a little.",
        template="handbook/how_sure.html",
        context={
            "tables": tables,
            "symbols": symbol_table(dataset),
            "allowances": allowances,
            "tried": tried(found, dataset.shelf.joint_rules) if found else None,
            "overrides": _overrides(dataset),
        },
        search=(
            "limits",
            "bands",
            "tolerances",
            "rules",
            "rule table",
            "thresholds",
            "how sure",
            "sensitivity",
        ),
        kind="limits",
        in_nav=True,
        tables=(*tables, allowances),
        files=(Download("JSON", "data/v1/fit_rules.json"),),
    )


def _tables(dataset: Dataset) -> Iterator[Table]:
    every: dict[str, Mapping[str, Rule]] = {"joint": effective_rules(dataset), **dataset.shelf.other_rules}
    for name, rules in every.items():
        rows = tuple(_row(dataset, id_, rule) for id_, rule in rules.items())
        caption = TITLES.get(name, field_title(name))
        yield Table(f"limits-{name.replace('_', '-')}", caption, _COLUMNS, rows)


def _allowances(dataset: Dataset) -> Table:
    """What a check reckons with where a length was not read."""
    shelf = dataset.shelf
    rows = tuple(
        Row(
            (
                Cell(each.title, note=each.note or ""),
                _amount(each),
                evidence_cell(each.evidence),
                source_cell(shelf, each.source),
            ),
            id=id_,
        )
        for id_, each in shelf.allowances.items()
    )
    return Table("limits-allowances", "Where nobody read or looked closer", _ALLOWED, rows)


def _amount(allowance: Allowance) -> Cell:
    return length_cell(allowance.nm) if allowance.length is not None else Cell(figure_text(allowance))


def _row(dataset: Dataset, id_: str, rule: Rule) -> Row:
    own = dataset.overrides.get(id_)
    head = Cell(rule.title, note="the club's own limits" if own else "")
    says = Cell(rule.says, note=f"The club: {own.because}" if own else "")
    shown = _like(dataset, rule)
    grade, source = evidence_cell(rule.evidence), source_cell(dataset.shelf, rule.source)
    return Row((head, *_bands(shown), _compared(shown), says, grade, source), id=id_)


def _like(dataset: Dataset, rule: Rule) -> Rule:
    """A rule that is the same as one of the joint shows that one's limits."""
    same_as: str | None = getattr(rule, "same_as", None)
    return effective_rules(dataset).get(same_as or "", rule)


def _compared(rule: Rule) -> Cell:
    when = "; ".join(f"{key.replace('_', ' ')}: {' or '.join(values)}" for key, values in rule.when.items())
    what = (
        pretty(rule.clearance)
        if rule.clearance
        else f"which it is: {(rule.category or '').replace('-', ' ')}"
    )
    return Cell(what, note=f"where {when}" if when else "")


def _bands(rule: Rule) -> tuple[Cell, Cell, Cell]:
    if rule.clearance is None:
        words = [_category_words(rule, rung) for rung in ("proper", "get-home", "last-resort")]
        return (Cell(words[0]), Cell(words[1]), Cell(words[2]))
    proper, get_home, last_resort = (
        Cell(band_text(band)) for band in (rule.proper, rule.get_home, rule.last_resort)
    )
    return proper, get_home, last_resort


def _category_words(rule: Rule, rung: str) -> str:
    """The values that come out at this rung, or may."""
    found = [
        f"{value.replace('-', ' ')}{'' if rungs == (rung,) else ' (at best)'}"
        for value, rungs in rule.rungs.items()
        if rungs and rungs[0] == rung
    ]
    return ", ".join(found) or "no value"


def band_text(band: Band | None) -> str:
    """`at least 0.02, at most 0.25`; lengths in millimetres."""
    low, high = (band.low, band.high) if band else (None, None)
    parts = [f"at least {pretty(low)}"] if low is not None else []
    parts += [f"at most {pretty(high)}"] if high is not None else []
    return ", ".join(parts) or "as the stricter rung"


def pretty(form: str) -> str:
    """A form as people write sums."""
    return form.replace(" * ", " × ").replace("-", MINUS)


def _overrides(dataset: Dataset) -> tuple[Cell, ...]:
    return tuple(
        Cell(_title(dataset, id_), to=f"limits/#{id_}", note=override.because)
        for id_, override in dataset.overrides.items()
    )


def _title(dataset: Dataset, id_: str) -> str:
    rules = (dataset.shelf.joint_rules, *dataset.shelf.other_rules.values())
    return next((each[id_].title for each in rules if id_ in each), id_)
