"""`handbook explain` for a person: a verdict, why, and every number behind it.

Goes in: a pair and its options.  Comes out: plain text, 100 characters wide at most where it can.
"""

from collections.abc import Iterator, Sequence

from generator.compute.fit.result import CheckFit, EdgeFit, OptionFit, PairFit, Span
from generator.model.dataset import Dataset
from generator.model.quantity import NM_PER_MM
from generator.model.shipped import RUNGS
from generator.render.verdicts import range_in_words


def explain_text(dataset: Dataset, fit: PairFit, options: Sequence[OptionFit]) -> str:
    return "\n".join(_lines(dataset, fit, options)) + "\n"


def _lines(dataset: Dataset, fit: PairFit, options: Sequence[OptionFit]) -> Iterator[str]:
    yield f"{dataset.links[fit.link].label} [{fit.link}] on {dataset.chains[fit.chain].label} [{fit.chain}]"
    if fit.refused is not None or fit.option is None:
        yield f"cannot judge: {fit.refused}; look at it"
        return
    yield f"verdict: {_verdict(fit)}"
    yield f"with:    {_option_name(fit.option)}"
    yield f"because: {_check_title(dataset, fit.option.deciding_check)}"
    if fit.option.adds_up:
        yield "         four or more groups of checks are at get-home: small faults add up"
    yield from _next_lines(fit)
    if fit.chance_percent:
        shares = ", ".join(f"{word} {share} %" for word, share in fit.chance_percent.items() if share)
        yield f"chance by the deciding check alone: {shares}"
    for number, option in enumerate(options, start=1):
        yield ""
        yield f"option {number} of {len(options)}: {_option_name(option)}: {range_in_words(option.best, option.worst)}"
        yield from (line for check in option.checks for line in _check_lines(option, check))
    yield ""
    yield f"calculated as of {dataset.as_of.isoformat()} from data {dataset.data_version}; dry-fit before trusting"


def _verdict(fit: PairFit) -> str:
    if fit.word == "measure-first":
        assert fit.best is not None and fit.worst is not None
        return (
            f"measure-first: {range_in_words(fit.best, fit.worst)}; until then treat it as {RUNGS[fit.worst]}"
        )
    if fit.word == "proper" and fit.strength == "by-numbers":
        return "proper by numbers: dry-fit at home first"
    return f"{fit.word} ({fit.strength})"


def _option_name(option: OptionFit) -> str:
    clip = (
        f"clip {option.clip}" if option.clip else ("no clip" if option.closure == "clip" else option.closure)
    )
    washers = f" ({option.seal_set})" if option.seals == "packed" and option.seal_set else ""
    return f"{clip}, seals {option.seals}{washers}"


def _check_title(dataset: Dataset, check: CheckFit) -> str:
    rule = dataset.shelf.joint_rules[check.rule_id]
    return f"{rule.title}: {range_in_words(check.best, check.worst)}{_measured(check)}. {rule.says}"


def _measured(check: CheckFit) -> str:
    if check.clearance is not None:
        return f", {_span(check.clearance)} {check.unit}"
    return f", {check.category}" if check.category else ""


def _span(span: Span) -> str:
    low, nominal, high = (f"{value / NM_PER_MM:+.3f}" for value in (span.low, span.nominal, span.high))
    return f"{nominal} ({low} to {high})"


def _next_lines(fit: PairFit) -> Iterator[str]:
    found = fit.measure_next
    if found is not None:
        reading = f"{found.reading.kind} {found.reading.id}, {found.reading.field}"
        close = f" to within ±{found.to_within / NM_PER_MM:.2f} mm" if found.to_within else ""
        yield f"measure next: {reading}{close}"


def _check_lines(option: OptionFit, check: CheckFit) -> Iterator[str]:
    mark = "*" if check.id == option.deciding else " "
    name = f"{check.id} [{check.group}]"
    yield f" {mark} {name:38} {range_in_words(check.best, check.worst):22}{_measured(check).removeprefix(', ')}"
    yield from (f"       {_edge(edge, check.unit)}" for edge in check.edges)
    if check.missing:
        gone = ", ".join(f"{reading.kind} {reading.id} {reading.field}" for reading in check.missing)
        settled = "; settled by a dry fit" if check.settled_by_trial else ""
        yield f"       not known: {gone}{settled}"


def _edge(edge: EdgeFit, unit: str) -> str:
    sign = ">=" if edge.side == "low" else "<="
    limit = "?" if edge.at is None else f"{edge.at / NM_PER_MM:+.3f} {unit}"
    slack = "" if edge.slack is None else f"  slack {_span(edge.slack)}"
    return f"{RUNGS[edge.rung]:12} {sign} {limit}{slack}"
