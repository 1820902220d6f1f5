"""How sure the limits are: every limit with its source and grade, and what a small move of each would change."""

from collections.abc import Iterator, Mapping

from generator.model.care import Allowance
from generator.model.dataset import Dataset
from generator.model.shipped import Band, Felt, Rule
from generator.render.base.lengths import MINUS
from generator.render.base.page import Download, Page
from generator.render.base.table import Cell, Column, Row, Table
from generator.render.pages.book import Book
from generator.render.pages.care.figures import figure_text
from generator.render.pages.reference.cells import evidence_cell, field_title, length_cell, source_cell
from generator.render.pages.reference.flips import tried
from generator.render.pages.reference.symbol_words import symbol_table
from generator.render.say.said import capital
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
_FELT = (
    Column("What was seen", "head"),
    Column("What is compared"),
    Column("What it proves"),
    Column("Of which joints", "long"),
    Column("Grade"),
    Column("Source", "long"),
)
_ALLOWED = (Column("What counts", "head"), Column("How much"), Column("Grade"), Column("Source", "long"))


def how_sure_page(book: Book) -> Page:
    dataset = book.dataset
    found = dataset.shelf.how_sure
    tables, allowances = tuple(_tables(dataset)), tuple(_allowances(dataset))
    dry_fits = _dry_fits(dataset)
    return Page(
        path="limits/",
        title="How sure the limits are",
        description="Every limit with its source and grade, and which trade facts flip when one is moved a little.",
        template="handbook/how_sure.html",
        context={
            "tables": tables,
            "symbols": symbol_table(dataset),
            "allowances": allowances,
            "dry_fits": dry_fits,
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
        tables=(*tables, dry_fits, *allowances),
        files=(Download("JSON", "data/v1/fit_rules.json"),),
    )


def _tables(dataset: Dataset) -> Iterator[Table]:
    every: dict[str, Mapping[str, Rule]] = {"joint": effective_rules(dataset), **dataset.shelf.other_rules}
    for name, rules in every.items():
        rows = tuple(_row(dataset, id_, rule) for id_, rule in rules.items())
        caption = TITLES.get(name, field_title(name))
        yield Table(f"limits-{name.replace('_', '-')}", caption, _COLUMNS, rows)


def _allowances(dataset: Dataset) -> Iterator[Table]:
    """What a check reckons with where nobody read a length or a share."""
    found = dataset.shelf.allowances.items()
    lengths = [(id_, each, length_cell(each.nm)) for id_, each in found if each.length is not None]
    shares = [(id_, each, Cell(figure_text(each))) for id_, each in found if each.length is None]
    for name, told in (("lengths", lengths), ("shares", shares)):
        rows = tuple(_allowed(dataset, id_, each, amount) for id_, each, amount in told)
        yield Table(f"allowed-{name}", f"Where nobody read or looked closer: {name}", _ALLOWED, rows)


def _allowed(dataset: Dataset, id_: str, allowance: Allowance, amount: Cell) -> Row:
    head, grade = Cell(allowance.title, note=allowance.note or ""), evidence_cell(allowance.evidence)
    return Row((head, amount, grade, source_cell(dataset.shelf, allowance.source)), id=id_)


def _dry_fits(dataset: Dataset) -> Table:
    """What each answer of a dry fit proves, and of which joints."""
    rows = tuple(
        Row(
            (
                Cell(capital(felt.says)),
                Cell(pretty(felt.form)),
                Cell(_proves(felt)),
                Cell(_of_which(felt)),
                evidence_cell(felt.evidence),
                source_cell(dataset.shelf, felt.source),
            ),
            id=f"felt-{id_}",
        )
        for id_, felt in dataset.shelf.dry_fits.items()
    )
    return Table("proven-by-hand", "What a dry fit proves", _FELT, rows)


def _proves(felt: Felt) -> str:
    if felt.reads:
        return {"equal": "as read", "least": "at least as read", "most": "at most as read"}[felt.is_at]
    # a nanometre stands for anything more than nothing
    return "more than 0" if felt.low == "0.000001" else band_text(Band(low=felt.low, high=felt.high))


def _of_which(felt: Felt) -> str:
    """`any joint`, or how the plate sits, what lies between and what clip it is."""
    told = (
        *(seat.replace("-", " ") for seat in felt.seats),
        *(f"seals {seals.replace('-', ' ')}" for seals in felt.seals),
        *(f"with {tool}" for tool in felt.clip_with),
        "a new clip" if felt.new_clip else "this clip" if felt.this_clip else "",
        {"any": "", "shoulder": "plate on its shoulder", "tried": "plate pressed", "between": "plate anywhere",
         "clipped": "plate under its clip"}[felt.where],
    )  # fmt: skip
    return ", ".join(word for word in told if word) or "any joint"


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
