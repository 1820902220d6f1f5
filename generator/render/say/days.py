"""Days as people say them."""

from collections.abc import Iterable
from datetime import date

from generator.render.say.names import listed

_MONTHS = [
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
]


def day_in_words(day: date) -> str:
    """`30 January 2027`."""
    return f"{day.day} {_MONTHS[day.month - 1]} {day.year}"


def days_in_words(days: Iterable[date]) -> str:
    return listed([day_in_words(day) for day in sorted(set(days))])
