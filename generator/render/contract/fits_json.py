"""Fits as published in data/v1/fits.json and by `explain --json`."""

from collections.abc import Iterable, Sequence

from generator.compute.acts import Act
from generator.compute.fit.by_bike import Apart, OnBike
from generator.compute.fit.clip_lost import Makeshift, makeshifts
from generator.compute.fit.result import (
    CheckFit,
    EdgeFit,
    Fit,
    MeasureNext,
    OptionFit,
    PairFit,
    RunsNow,
    Span,
)
from generator.compute.fit.tried import Tried
from generator.model.dataset import Dataset
from generator.model.many import many_pairs
from generator.model.quantity import Quantity
from generator.model.reading import Reading
from generator.model.shipped import NO_GO, PROPER, RUNGS
from generator.render.base.routes import pair_route
from generator.render.contract.envelope import Plain, document, in_mm

# how the keys of numbers in a unit end
UNIT_ENDS = {"mm": "mm", "kN": "kn", "%": "percent"}


def fits_document(dataset: Dataset, fits: Iterable[PairFit], apart: Apart) -> Plain:
    """Schema fits/1: every chain x link pair, sorted by chain and link.

    `pairs` is an iterator, read once as the text is written: all at once they fill a third of a gigabyte.
    """
    brief = many_pairs(dataset)
    pairs = (pair_json(fit, apart.get((fit.chain, fit.link), ()), brief) for fit in fits)
    return document("fits/1", dataset, {"club": dataset.club.id, "rungs": list(RUNGS), "pairs": pairs})


def explain_document(
    dataset: Dataset,
    fit: PairFit,
    options: Sequence[OptionFit],
    on_bikes: Sequence[OnBike],
    act: Act | None,
) -> Plain:
    """Schema explain/1: one pair as in fits/1, all its options, best first, and what to do next (null: it stands)."""
    body = {
        "club": dataset.club.id,
        "rungs": list(RUNGS),
        "pair": pair_json(fit, on_bikes, many_pairs(dataset)),
        "options": [option_json(option) for option in options],
        "dry_fits": [dry_fit_json(trial) for trial in fit.tried],
        "next": act_json(act) if act is not None else None,
        "clip_lost": [makeshift_json(each) for each in makeshifts(dataset, fit)],
    }
    return document("explain/1", dataset, body)


def dry_fit_json(trial: Tried) -> Plain:
    """Whichever way the pair was joined; `open` are the questions it leaves unanswered."""
    return {
        "id": trial.id,
        "on": trial.on.isoformat(),
        "clip": trial.clip,
        "seals": trial.seals,
        "word": trial.word,
        "open": list(trial.open),
    }


def act_json(act: Act) -> Plain:
    """One handling, what it asks, and with what of the club."""
    return {
        "act": act.kind,
        "part": act.part[0],
        "id": act.part[1],
        "ask": [reading_json(reading) for reading in act.ask],
        "using": act.using,
        "between": act.between,
        "minutes": act.effort,
    }


def makeshift_json(found: Makeshift) -> Plain:
    return {"id": found.rule_id, "best": found.best, "worst": found.worst, "look_first": found.look_first}


def fit_json(fit: Fit) -> Plain:
    """What is said of parts that meet, whichever they are; each stands under the word for its kind."""
    check = fit.deciding_check
    return {part.kind: part.id for part in fit.parts} | {
        "word": fit.word,
        "best": fit.best,
        "worst": fit.worst,
        "refused": fit.refused,
        "deciding": check.id if check is not None else None,
        "measure_next": next_json(fit.measure_next),
    }


def pair_json(fit: PairFit, on_bikes: Sequence[OnBike] = (), brief: bool = False) -> Plain:
    """`on_bikes` where some bike has another verdict.  Where it must be brief, only the deciding check has its edges, as
    the limits of the others stand in the rules; told are the checks that hold the verdict down, and the deciding one."""
    option = fit.option
    return fit_json(fit) | {
        "by_bike": [on_bike_json(each) for each in on_bikes],
        "strength": fit.strength,
        "option": option_name(option) if option else None,
        "slack_mm": in_mm(option.slack) if option and option.deciding_check.unit == "mm" else None,
        "checks": [check_json(check, brief and check.id != option.deciding) for check in _told(option, brief)]
        if option
        else [],
        "chance_percent": dict(fit.chance_percent) if fit.chance_percent else None,
        "counts_as": fit.counts_as,
        "runs_now": runs_json(fit.runs_now),
        "press_to_mm": quantity_json(fit.press_to),
        "beside_mm": quantity_json(fit.beside),
        "flare_mm": quantity_json(fit.flare.target) if fit.flare else None,
        "flare_least_mm": quantity_json(fit.flare.least) if fit.flare else None,
        "pieces": fit.pieces,
        "pieces_tried": fit.pieces_tried,
        "evidence": fit.evidence,
        "page": pair_route(fit),
    }


def _told(option: OptionFit, brief: bool) -> Iterable[CheckFit]:
    """All of them, or of a no-go those that make it so, and else those that are not proper for certain."""
    if not brief:
        return option.checks
    no_go = option.best == NO_GO
    holding = {each.id for each in option.checks if (each.best == NO_GO if no_go else each.worst > PROPER)}
    return (check for check in option.checks if check.id in holding | {option.deciding})


def runs_json(found: RunsNow | None) -> Plain | None:
    """What a joint that runs is worth while it stays closed; the pair itself is judged as opened and closed again."""
    if found is None:
        return None
    return {
        "best": found.best,
        "worst": found.worst,
        "since": found.since.isoformat() if found.since else None,
        "looked_on": found.looked_on.isoformat() if found.looked_on else None,
        "not_looked": list(found.not_looked),
    }


def quantity_json(found: Quantity | None) -> Plain | None:
    if found is None:
        return None
    return {"nominal": in_mm(found.nominal), "low": in_mm(found.low), "high": in_mm(found.high)}


def on_bike_json(found: OnBike) -> Plain:
    return {"bike": found.bike, "word": found.word, "best": found.best, "worst": found.worst}


def option_name(option: OptionFit) -> Plain:
    return {
        "closure": option.closure,
        "clip": option.clip,
        "seals": option.seals,
        "seat": option.seat,
        "spacer": option.spacer,
    }


def option_json(option: OptionFit) -> Plain:
    return option_name(option) | {
        "seal_set": option.seal_set,
        "best": option.best,
        "worst": option.worst,
        "deciding": option.deciding,
        "slack_mm": in_mm(option.slack) if option.deciding_check.unit == "mm" else None,
        "adds_up": option.adds_up,
        "trials": list(option.trials),
        "checks": [check_json(check) for check in option.checks],
    }


def check_json(check: CheckFit, brief: bool = False) -> Plain:
    """A strength has its numbers in kN, an elongation in per cent; its lengths are null.  Where it must be brief it
    has no edges, nor a clearance where it is of categories, and `missing` only where something is."""
    plain: Plain = {
        "id": check.id,
        "group": check.group,
        "best": check.best,
        "worst": check.worst,
        "evidence": check.evidence,
    }
    if check.category is None or not brief:
        plain["clearance_mm"] = span_json(check.clearance) if check.unit == "mm" else None
    if check.missing or not brief:
        plain["missing"] = [reading_json(reading) for reading in check.missing]
    if not brief:
        plain["edges"] = [edge_json(edge, check.unit) for edge in check.edges]
    if check.category is not None:
        plain["category"] = check.category
    if check.unit != "mm":
        plain[f"clearance_{UNIT_ENDS[check.unit]}"] = span_json(check.clearance)
    return plain


def edge_json(edge: EdgeFit, unit: str) -> Plain:
    suffix = UNIT_ENDS[unit]
    return {
        "rung": RUNGS[edge.rung],
        "side": edge.side,
        f"at_{suffix}": in_mm(edge.at),
        f"slack_{suffix}": span_json(edge.slack),
    }


def span_json(span: Span | None) -> Plain | None:
    if span is None:
        return None
    return {"nominal": in_mm(span.nominal), "low": in_mm(span.low), "high": in_mm(span.high)}


def reading_json(reading: Reading) -> Plain:
    return {"part": reading.kind, "id": reading.id, "field": reading.field}


def next_json(found: MeasureNext | None) -> Plain | None:
    """How close it must be; of what nobody has read yet, how close it can be.  Null where that one reading, as close
    as any listed instrument takes it, does not settle it, and where it is no length."""
    if found is None:
        return None
    within = found.to_within if found.how in ("needed", "reachable") else None
    return reading_json(found.reading) | {"to_within_mm": in_mm(within)}
