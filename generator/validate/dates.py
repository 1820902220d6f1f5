"""The day the handbook speaks for, and dates that lie after it."""

from collections.abc import Iterator
from datetime import date

from generator.model.club import Club
from generator.problems import Place, Problem
from generator.validate.draft import ClubDraft
from generator.validate.wear_log import LoggedRow

# fields of records that hold the date of something seen; a ride may lie ahead
_SEEN = ("measured_on", "on")


def settle_day(
    draft: ClubDraft, log: tuple[LoggedRow, ...], override: date | None
) -> tuple[date | None, str, list[Problem]]:
    """The day asked for, else the club's own, else the newest date in its folder."""
    if override is not None:
        return override, "--as-of", list(_after(draft, log, override))
    if draft.club is not None and draft.club.as_of is not None:
        day = draft.club.as_of
        return day, "as_of in club.yaml", list(_after(draft, log, day))
    newest = max(_dates(draft, log), default=None)
    if newest is not None or draft.club is None or "as_of" in draft.club_root.entries:
        # a day that cannot be read is told where it stands
        return newest, "newest date in the club folder", []
    message = "no date stands anywhere in the folder, so nobody knows what day the handbook speaks for"
    return None, "", [Problem("C482", message, Place(Club.file), fix="add as_of: 2027-03-01 to club.yaml")]


def _dates(draft: ClubDraft, log: tuple[LoggedRow, ...]) -> Iterator[date]:
    yield from (row.record.date for row in log)
    for records in draft.kinds.values():
        for one in records.values():
            found = (getattr(one.record, field, None) for field in _SEEN)
            yield from (day for day in found if day is not None)


def _after(draft: ClubDraft, log: tuple[LoggedRow, ...], day: date) -> Iterator[Problem]:
    """Nothing can have been read after the day the handbook speaks for."""
    for row in log:
        if row.record.date > day:
            message = f"{row.record.date} is after {day}, the day the handbook speaks for"
            yield Problem("C481", message, row.place("date"), (str(row.line), "date"))
    for kind, records in draft.kinds.items():
        for one in records.values() if kind != "ride" else ():
            for field in _SEEN:
                seen = getattr(one.record, field, None)
                if seen is not None and seen > day:
                    yield one.problem(
                        "C481", f"{seen} is after {day}, the day the handbook speaks for", field
                    )
