"""The wear of every bike's chain as published in data/v1/wear.json."""

from fractions import Fraction

from generator.compute.wear.outlook import HoursLeft, Outlook
from generator.compute.wear.series import Point
from generator.compute.wear.wear import BikeWear, ChainWear, Wear
from generator.model.dataset import Dataset
from generator.model.elongation import Elongation
from generator.render.contract.envelope import Plain, document


def wear_document(dataset: Dataset, wear: Wear) -> Plain:
    """Chains and bikes by id; a bike's limit can be lower than that of its chain elsewhere."""
    chains = [_chain(each) for each in wear.chains.values()]
    bikes = [_bike(each, wear.chains[each.chain]) for each in wear.bikes.values()]
    return document("wear/1", dataset, {"club": dataset.club.id, "chains": chains, "bikes": bikes})


def _chain(wear: ChainWear) -> Plain:
    return {"id": wear.chain, "readings": _readings(wear), **_shared(wear)}


def _bike(wear: BikeWear, of_chain: ChainWear) -> Plain:
    return {"id": wear.bike, "chain": wear.chain, "readings": _readings(of_chain), **_shared(wear)}


def _readings(wear: ChainWear) -> list[Plain]:
    return [_point(each) for each in wear.points]


def _shared(wear: ChainWear | BikeWear) -> Plain:
    limit = wear.limit
    return {
        "elongation_percent": _elongation(wear.elongation),
        "limit_percent": {
            "value": _number(limit.percent),
            "rule": limit.rule,
            "by": limit.by,
            "source": limit.source,
        },
        **_outlook(wear.outlook),
    }


def _outlook(outlook: Outlook) -> Plain:
    return {"state": outlook.state, "why": outlook.why, "hours_left": _hours(outlook.hours_left)}


def _point(point: Point) -> Plain:
    return {
        "on": point.on.isoformat(),
        "hours": None if point.hours is None else _number(point.hours),
        "elongation_percent": _elongation(point.elongation),
        "place": point.place,
        "event": point.event,
    }


def _elongation(found: Elongation | None) -> Plain | None:
    if found is None:
        return None
    return {"nominal": _number(found.nominal), "low": _number(found.low), "high": _number(found.high)}


def _hours(left: HoursLeft | None) -> Plain | None:
    if left is None:
        return None
    return {name: round(getattr(left, name), 3) for name in ("low", "nominal", "high")}


def _number(value: Fraction) -> float:
    return round(float(value), 6) + 0.0
