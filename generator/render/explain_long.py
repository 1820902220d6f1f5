"""`handbook explain --all`: a verdict, why, what to measure next, and every number behind it."""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from textwrap import wrap

from generator.compute.fit.by_bike import OnBike
from generator.compute.fit.result import CheckFit, EdgeFit, OptionFit, PairFit, Span
from generator.compute.fit.tried import Tried
from generator.model.dataset import Dataset
from generator.model.quantity import NM_PER_MM
from generator.model.reading import Reading
from generator.model.shipped import RUNGS
from generator.render.base.lengths import MINUS, Toward, fixed
from generator.render.base.verdicts import range_in_words
from generator.render.say.joint import set_otherwise
from generator.render.say.next_step import next_step
from generator.render.say.rungs import BY
from generator.render.say.said import plain
from generator.render.say.tried import SEEN, way_tried

WIDTH = 80
_HEADS = 14  # of the lines at the top
_CHECK, _GROUP = 32, 7  # of the line that names a check
_INDENT, _LABEL, _NUMBER = 7, 13, 14  # of the lines of numbers below it


def explain_long(
    dataset: Dataset,
    fit: PairFit,
    options: Sequence[OptionFit],
    on_bikes: Sequence[OnBike],
    clip: str | None = None,
) -> str:
    """The pair, then each of the options; these have one `clip` where that was asked for."""
    asked = _with_clip(clip, options) if clip is not None else ()
    return "\n".join(line.rstrip() for line in (*asked, *_lines(dataset, fit, options, on_bikes))) + "\n"


def _with_clip(clip: str, options: Sequence[OptionFit]) -> Iterator[str]:
    """The verdict of the pair is that of its best clip, which need not be this one."""
    if options:
        best = range_in_words(options[0].best, options[0].worst)
        yield from _headed(
            "asked", f"with clip {clip}: {best}; the verdict below is with any of the club's clips"
        )


def _lines(
    dataset: Dataset, fit: PairFit, options: Sequence[OptionFit], on_bikes: Sequence[OnBike]
) -> Iterator[str]:
    link, chain = dataset.links[fit.link], dataset.chains[fit.chain]
    yield from _headed("link", f"{fit.link}: {link.label}" if link.label != fit.link else fit.link)
    yield from _headed("chain", f"{fit.chain}: {chain.label}" if chain.label != fit.chain else fit.chain)
    if fit.refused is not None or fit.option is None:
        yield from _headed("verdict", f"cannot judge: {fit.refused}; look at it")
    else:
        yield from _judged(dataset, fit, fit.option)
    for number, each in enumerate(on_bikes):
        yield from _headed("" if number else "by bike", f"{each.bike}: {_range(each)}")
    for trial in fit.tried:
        yield from _headed("tried", f"{trial.id}, {trial.on.isoformat()}, {way_tried(trial)}: {_seen(trial)}")
    yield from _next_lines(dataset, fit)
    for number, option in enumerate(options, start=1):
        yield ""
        yield from _option_lines(number, len(options), option)
    yield ""
    yield from _folded(f"Calculated as of {dataset.as_of.isoformat()} from data {dataset.data_version}.")
    yield from _folded("A calculation, not a test: dry-fit before trusting.")


def _judged(dataset: Dataset, fit: PairFit, option: OptionFit) -> Iterator[str]:
    check = option.deciding_check
    rule = dataset.shelf.joint_rules[check.rule_id]
    yield from _headed("verdict", _verdict(fit))
    yield from _headed("with", _option_name(option))
    yield from _headed(
        "because", f"{rule.title}: {range_in_words(check.best, check.worst)}{_measured(check)}."
    )
    yield from _headed("", rule.says)
    if option.adds_up:
        yield from _headed("", "Four or more groups of checks are at get-home: small faults add up.")
    if fit.chance_percent:
        shares = ", ".join(f"{word} {share} %" for word, share in fit.chance_percent.items() if share)
        yield from _headed("chance", f"{shares}, by the deciding check alone")


def _verdict(fit: PairFit) -> str:
    if fit.word == "measure-first":
        assert fit.best is not None and fit.worst is not None
        return (
            f"measure-first: {range_in_words(fit.best, fit.worst)}; until then treat it as {RUNGS[fit.worst]}"
        )
    if fit.word == "proper" and fit.strength in BY:
        return f"proper {BY[fit.strength]}: dry-fit at home first"
    return f"{fit.word} ({fit.strength})"


def _range(found: OnBike) -> str:
    if found.best is None or found.worst is None:
        return found.word
    return range_in_words(found.best, found.worst)


def _seen(trial: Tried) -> str:
    if trial.open:
        return f"in part; not answered: {', '.join(trial.open)}"
    return SEEN[trial.word]


def _option_name(option: OptionFit) -> str:
    clip = (
        f"clip {option.clip}"
        if option.clip
        else ("no clip written down" if option.closure == "clip" else option.closure)
    )
    washers = f" ({option.seal_set})" if option.seals == "packed" and option.seal_set else ""
    between = f"{'no seals' if option.seals == 'none' else f'seals {option.seals}'}{washers}"
    return ", ".join((clip, between, *set_otherwise(option)))


def _measured(check: CheckFit) -> str:
    if check.clearance is not None:
        span = check.clearance
        return f", {_signed(span.nominal)} {check.unit} ({_ends(span)})"
    return f", {check.category}" if check.category else ""


def _ends(span: Span) -> str:
    return f"{_signed(span.low, 'down')} to {_signed(span.high, 'up')}"


def _signed(nanometres: float, toward: Toward = "nearest") -> str:
    """Thousandths with a sign; more where that would read as nothing."""
    text = fixed(Fraction(nanometres) / NM_PER_MM, 3, toward)
    return text.replace(MINUS, "-") if text.startswith(MINUS) else f"+{text}"


def _next_lines(dataset: Dataset, fit: PairFit) -> Iterator[str]:
    said = plain(next_step(dataset, fit))
    if said:
        yield from _headed("measure next", said)
    if fit.measure_next is not None:
        yield from _headed("", f"written as: {_written_as(fit.measure_next.reading)}")


def _written_as(reading: Reading) -> str:
    """The part and the field, as they stand in the club's files."""
    return f"{reading.kind} {reading.id}, {reading.field}"


def _option_lines(number: int, of: int, option: OptionFit) -> Iterator[str]:
    yield from _folded(
        f"Option {number} of {of}: {_option_name(option)}: {range_in_words(option.best, option.worst)}"
    )
    for check in option.checks:
        yield from _check_lines(option, check)


def _check_lines(option: OptionFit, check: CheckFit) -> Iterator[str]:
    mark = "*" if check.id == option.deciding else " "
    verdict = range_in_words(check.best, check.worst)
    yield f" {mark} {check.id:{_CHECK}} {check.group:{_GROUP}} {verdict}"
    if check.category is not None:
        yield from _numbers("found", "", check.category)
    elif check.clearance is not None:
        found = f"{_signed(check.clearance.nominal)} {check.unit}"
        yield from _numbers("found", "", found, f"from {_ends(check.clearance)}")
    for edge in check.edges:
        yield from _edge_lines(edge, check.unit)
    if check.missing:
        gone = "; ".join(_written_as(reading) for reading in check.missing)
        settled = (
            " (settled by a dry fit)" if check.settled_by_trial else " (by make)" if check.by_make else ""
        )
        yield from _folded(f"not known: {gone}{settled}", " " * _INDENT)


def _edge_lines(edge: EdgeFit, unit: str) -> Iterator[str]:
    sign = ">=" if edge.side == "low" else "<="
    limit = "not known" if edge.at is None else f"{_signed(edge.at)} {unit}"
    slack = "" if edge.slack is None else f"slack {_signed(edge.slack.nominal)} ({_ends(edge.slack)})"
    yield from _numbers(RUNGS[edge.rung], sign, limit, slack)


def _numbers(label: str, sign: str, number: str, rest: str = "") -> Iterator[str]:
    yield f"{'':{_INDENT}}{label:{_LABEL}}{sign:2} {number:{_NUMBER}} {rest}"


def _headed(head: str, text: str) -> Iterator[str]:
    yield from _folded(text, " " * _HEADS, f"{head:{_HEADS}}")


def _folded(text: str, indent: str = "", first: str | None = None) -> Iterator[str]:
    """Ids and numbers stay whole."""
    first = indent if first is None else first
    yield from wrap(
        text,
        WIDTH,
        initial_indent=first,
        subsequent_indent=indent,
        break_on_hyphens=False,
        break_long_words=False,
    )
