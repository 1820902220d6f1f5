"""What cannot be true of a tool and its key, a chain and its bikes, a ride, or an override and its rule."""

from collections.abc import Iterator, Mapping
from typing import Any

from generator.model.chain_parts import Chain
from generator.model.club import RuleOverride
from generator.model.shipped import Rule
from generator.model.tools_and_bikes import Tool
from generator.model.trials_and_rides import Ride
from generator.problems import Problem
from generator.validate.cross.compare import places
from generator.validate.draft import ClubDraft, Draft
from generator.validate.wording import nearest

RUNGS_WITH_BANDS = ("proper", "get_home", "last_resort")


def key_is_no_key(tool: Draft[Tool], club: ClubDraft) -> Iterator[Problem]:
    """The key of a tool is a tool that is a key."""
    key = club.find("tool", tool.record.key)
    if key is not None and key.record.does not in ("key", None):
        message = f"'{key.id}' is no key: it is said to be a {key.record.does}"
        yield tool.problem("C467", message, "key", related=places(key, "does"))


def chain_without_bike(chain: Draft[Chain], club: ClubDraft) -> Iterator[Problem]:
    """A chain nobody runs is kept for nothing, or its bike names another one."""
    bikes = club.kinds["bike"].values()
    unsure = "bike" in club.unread or club.refused["bike"]
    astray = any(bike.record.chain not in club.kinds["chain"] for bike in bikes)
    if not unsure and not astray and all(bike.record.chain != chain.id for bike in bikes):
        yield chain.problem("C476", f"no bike runs the chain '{chain.id}'", level="warning")


def leader_stays_home(ride: Draft[Ride]) -> Iterator[Problem]:
    """Leader and sweep ride too."""
    bikes = ride.record.bikes
    for field in ("leader", "sweep"):
        bike = getattr(ride.record, field)
        if bike is not None and bikes is not None and bike not in bikes:
            fix = f"add {bike} to bikes"
            yield ride.problem(
                "C495",
                f"'{bike}' is not among the bikes of the ride",
                field,
                fix=fix,
                related=places(ride, "bikes"),
            )


def bike_rides_twice(ride: Draft[Ride]) -> Iterator[Problem]:
    """Each bike is named once."""
    first: dict[str, int] = {}
    for index, bike in enumerate(ride.record.bikes or ()):
        if first.setdefault(bike, index) < index:
            message = f"'{bike}' is named twice"
            steps = (ride.id, "bikes", str(index))
            yield Problem(
                "C496",
                message,
                ride.place("bikes", index),
                steps,
                related=(ride.place("bikes", first[bike]),),
            )


def van_goes_elsewhere(ride: Draft[Ride]) -> Iterator[Problem]:
    """The van reaches bikes of the ride, and only where there is one."""
    reached = ride.record.van_reaches or ()
    if reached and ride.record.van is False:
        yield ride.problem(
            "C497", "bikes for a van, but no van", "van_reaches", fix="write van: yes, or take it out"
        )
    riding = None if ride.record.bikes is None else set(ride.record.bikes)
    for index, bike in enumerate(reached):
        if riding is not None and bike not in riding:
            steps = (ride.id, "van_reaches", str(index))
            message = f"'{bike}' is not among the bikes of the ride"
            place = ride.place("van_reaches", index)
            yield Problem(
                "C497", message, place, steps, f"add {bike} to bikes", related=places(ride, "bikes")
            )


def no_failure_planned(ride: Draft[Ride]) -> Iterator[Problem]:
    """A plan is for one failure at least."""
    if ride.record.failures_at_once == 0:
        yield ride.problem(
            "C498", "a plan for no failure", "failures_at_once", fix="write 1, or leave it out"
        )


def shipped_rules(club: ClubDraft) -> Mapping[str, Rule]:
    """Every rule that ships, by id."""
    tables = (club.shelf.joint_rules, *club.shelf.other_rules.values())
    return {identity: rule for table in tables for identity, rule in table.items()}


def override_of_nothing(override: Draft[RuleOverride], club: ClubDraft) -> Iterator[Problem]:
    """An override names a rule that ships."""
    rules = shipped_rules(club)
    if override.id not in rules:
        near = nearest(override.id, sorted(rules))
        fix = (
            f"write {near}"
            if near
            else "take it out; the rules are listed on the page 'how sure the limits are'"
        )
        yield override.problem("U601", f"no rule '{override.id}' ships", fix=fix, did_you_mean=near)


def override_changes_nothing(override: Draft[RuleOverride], club: ClubDraft) -> Iterator[Problem]:
    """An exception no longer needed is an error."""
    rule = shipped_rules(club).get(override.id)
    if rule is None or not override.whole:
        return
    changes = [rung for rung in RUNGS_WITH_BANDS if _differs(override, rule, rung)]
    if not changes:
        yield override.problem("U602", f"the override of '{override.id}' changes nothing", fix="take it out")


def _differs(override: Draft[RuleOverride], rule: Rule, rung: str) -> bool:
    band: Mapping[str, str] = getattr(override.record, rung) or {}
    shipped: Any = getattr(rule, rung)
    return any(limit != getattr(shipped, side, None) for side, limit in band.items())


def override_of_category(override: Draft[RuleOverride], club: ClubDraft) -> Iterator[Problem]:
    """Bands belong to rules about a clearance; a rule about kinds has none."""
    rule = shipped_rules(club).get(override.id)
    banded = any(getattr(override.record, rung) for rung in RUNGS_WITH_BANDS)
    if rule is not None and rule.clearance is None and banded:
        yield override.problem("U603", f"'{override.id}' is a rule without limits; nothing can be set")


TOOL_CLUB_RULES = (key_is_no_key,)
CHAIN_BIKE_RULES = (chain_without_bike,)
RIDE_RULES = (leader_stays_home, bike_rides_twice, van_goes_elsewhere, no_failure_planned)
OVERRIDE_CLUB_RULES = (override_of_nothing, override_changes_nothing, override_of_category)
