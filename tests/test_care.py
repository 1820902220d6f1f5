"""What is due on each bike, reckoned from the club's own days, and its calendar as another program reads it."""

from dataclasses import replace
from datetime import date, timedelta
from fractions import Fraction
from typing import Any

import icalendar
import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.compute.wear.due import Due, due_next, hours_a_day, months_after
from generator.compute.wear.wear import wear_of
from generator.model.dataset import Dataset
from generator.render.contract.calendar import calendar_text
from generator.render.pages.care.plan import plan_page
from tests.care_pages import care_book, demo_wear
from tests.handbook import demo


def dues(dataset: Dataset) -> tuple[Due, ...]:
    return due_next(dataset, wear_of(dataset))


def of(dataset: Dataset, task: str, bike: str) -> Due:
    (found,) = (due for due in dues(dataset) if (due.task, due.bike) == (task, bike))
    return found


@pytest.mark.parametrize(
    "day, months, after",
    [
        (date(2027, 1, 31), 1, date(2027, 2, 28)),
        (date(2028, 1, 31), 1, date(2028, 2, 29)),
        (date(2027, 12, 15), 1, date(2028, 1, 15)),
        (date(2027, 3, 1), 12, date(2028, 3, 1)),
        (date(2028, 2, 29), 12, date(2029, 2, 28)),
    ],
)
def test_a_month_later_is_the_same_day_or_the_last(day: date, months: int, after: date) -> None:
    assert months_after(day, months) == after


def test_wear_is_measured_by_months_or_by_hours_whichever_comes_first() -> None:
    # blue-520: 42 hours from 2 May to 16 January are 259 days; ten hours are 61 of them, a month is sooner
    assert hours_a_day(demo_wear().chains["blue-520"]) == Fraction(42, 259)
    found = of(demo(), "measure-wear", "b01")
    assert (found.on, found.why, found.last, found.rides) == (
        date(2027, 2, 16),
        "months",
        date(2027, 1, 16),
        3,
    )
    busy = replace(
        demo(),
        wear_log=tuple(
            replace(row, hours=str(10 * int(float(row.hours)))) if row.chain == "blue-520" else row
            for row in demo().wear_log
        ),
    )
    by_hours = of(busy, "measure-wear", "b01")
    assert (by_hours.on, by_hours.why) == (date(2027, 1, 22), "hours")


def test_what_was_never_written_down_is_due_on_the_day_of_the_handbook() -> None:
    found = of(demo(), "measure-wear", "b19")
    assert (found.on, found.why, found.last, found.rides) == (demo().as_of, "never-done", None, None)


def test_a_worn_chain_is_replaced_and_not_measured_again() -> None:
    tasks = {due.task: due for due in dues(demo()) if due.bike == "b15"}
    assert "measure-wear" not in tasks
    assert (tasks["replace-chain"].on, tasks["replace-chain"].why) == (demo().as_of, "worn")


def test_the_soonest_day_of_the_forecast_asks_for_a_new_set() -> None:
    left = demo_wear().bikes["b01"].outlook.hours_left
    assert left is not None
    found = of(demo(), "replace-chain", "b01")
    assert found.why == "forecast"
    assert found.on == date(2027, 1, 16) + timedelta(days=int(left.low * 259 / 42))


def test_rides_that_are_over_are_left_out() -> None:
    rides = {due.ride for due in dues(demo()) if due.ride}
    assert rides == set(demo().rides)
    later = replace(demo(), as_of=date(2027, 4, 1))
    assert "river-ride" not in {due.ride for due in dues(later)}


# --- the calendar ---


def events(dataset: Dataset) -> dict[str, Any]:
    text = calendar_text(dataset, dues(dataset))
    calendar: Any = icalendar.Calendar.from_ical(text)
    found = list(calendar.walk("VEVENT"))
    assert not calendar.errors and not [event.errors for event in found if event.errors]
    assert calendar["VERSION"] == "2.0" and calendar["PRODID"]
    by_id = {str(event["UID"]): event for event in found}
    assert len(by_id) == len(found), "each event has an id of its own"
    return by_id


def test_the_calendar_is_read_by_a_library_and_holds_every_due() -> None:
    found = events(demo())
    assert len(found) == len(dues(demo()))
    event = found["measure-wear.b01@demo.trail-chain-handbook"]
    # late: it stands on the day of the handbook, and says since when
    assert event["DTSTART"].dt == demo().as_of
    assert event["DTEND"].dt == demo().as_of + timedelta(days=1)
    assert "leader's trail bike (b01)" in str(event["SUMMARY"])
    assert "16 February 2027" in str(event["DESCRIPTION"])


def test_lines_are_as_the_standard_has_them() -> None:
    """RFC 5545, 3.1: lines end with CRLF and have 75 octets at most without it."""
    text = calendar_text(demo(), dues(demo()))
    assert text.endswith("END:VCALENDAR\r\n")
    assert "\n" not in text.replace("\r\n", "")
    assert all(len(line.encode()) <= 75 for line in text.split("\r\n"))


def test_imported_again_events_move_and_none_is_doubled() -> None:
    newer = replace(demo(), as_of=date(2027, 3, 15))
    before, after = events(demo()), events(newer)
    assert set(before) == set(after)
    for uid, event in after.items():
        assert event["SEQUENCE"] > before[uid]["SEQUENCE"]
        assert event["DTSTAMP"].dt > before[uid]["DTSTAMP"].dt
    moved = "measure-wear.b01@demo.trail-chain-handbook"
    assert after[moved]["DTSTART"].dt == date(2027, 3, 15) != before[moved]["DTSTART"].dt


NAMES = st.text(st.characters(codec="utf-8", exclude_categories=("Cs", "Cc")), min_size=1, max_size=90)


@given(NAMES)
def test_whatever_a_bike_is_called_comes_back_from_the_calendar(name: str) -> None:
    bike = demo().bikes["b01"]
    named = replace(bike, record=bike.record.model_copy(update={"name": name}))
    dataset = replace(demo(), bikes={"b01": named}, rides={})
    due = Due("measure-wear", "b01", demo().as_of, "never-done")
    calendar: Any = icalendar.Calendar.from_ical(calendar_text(dataset, (due,)))
    (event,) = calendar.walk("VEVENT")
    assert str(event["SUMMARY"]) == f"Measure wear: {name} (b01)"


def test_the_plan_page_puts_worn_out_first_then_what_is_late() -> None:
    groups = plan_page(care_book()).context["groups"]
    assert isinstance(groups, list)
    assert [word for _, word, _ in groups] == ["Worn out", "Late", "Today", "Later"]
    assert [row.tag for row in groups[0][2]] == ["b15"]
