"""What is due, as a calendar that people's own programs read: RFC 5545, one event a bike and task.

An event keeps its UID whatever its day, and its SEQUENCE grows with the day the handbook speaks for: imported again, a
newer calendar moves the events of the older one and doubles none.
"""

from collections.abc import Iterable, Iterator
from datetime import date, timedelta

from generator.compute.wear.due import Due
from generator.model.dataset import Dataset
from generator.render.say.due import due_says, due_title

PATH = "care/calendar.ics"
_MOST_OCTETS = 75
_FIRST_DAY = date(2020, 1, 1)  # SEQUENCE counts days from here


def calendar_text(dataset: Dataset, dues: Iterable[Due]) -> str:
    """Whole days, CRLF, lines folded at 75 octets."""
    lines = [
        "BEGIN:VCALENDAR",
        "VERSION:2.0",
        "PRODID:-//trail-chain-handbook//care//EN",
        "CALSCALE:GREGORIAN",
    ]
    lines += ["METHOD:PUBLISH", f"X-WR-CALNAME:{_escaped(f'{dataset.club.name}: chain care')}"]
    lines += [line for due in dues for line in _event(dataset, due)]
    lines.append("END:VCALENDAR")
    return "".join(f"{folded}\r\n" for line in lines for folded in _folded(line))


def uid(dataset: Dataset, due: Due) -> str:
    return f"{due.task}.{due.bike or due.ride}@{dataset.club.id}.trail-chain-handbook"


def _event(dataset: Dataset, due: Due) -> Iterator[str]:
    day = max(due.on, dataset.as_of)
    yield "BEGIN:VEVENT"
    yield f"UID:{uid(dataset, due)}"
    yield f"DTSTAMP:{dataset.as_of:%Y%m%d}T000000Z"
    yield f"SEQUENCE:{max((dataset.as_of - _FIRST_DAY).days, 0)}"
    yield f"DTSTART;VALUE=DATE:{day:%Y%m%d}"
    yield f"DTEND;VALUE=DATE:{day + timedelta(days=1):%Y%m%d}"
    label = "" if due.ride else f" ({due.bike})"
    yield f"SUMMARY:{_escaped(due_title(dataset, due) + label)}"
    yield f"DESCRIPTION:{_escaped(due_says(dataset, due))}"
    yield "TRANSP:TRANSPARENT"
    yield "END:VEVENT"


def _escaped(text: str) -> str:
    return text.replace("\\", "\\\\").replace(";", "\\;").replace(",", "\\,").replace("\n", "\\n")


def _folded(line: str) -> Iterator[str]:
    """At most 75 octets, never inside a character; what goes on starts with a blank."""
    start = ""
    while len((start + line).encode()) > _MOST_OCTETS:
        cut = next(n for n in range(_MOST_OCTETS, 0, -1) if len((start + line[:n]).encode()) <= _MOST_OCTETS)
        yield start + line[:cut]
        start, line = " ", line[cut:]
    yield start + line
