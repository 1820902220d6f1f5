"""What cannot be true of a line of the wear log, alone or after the lines before it."""

from collections.abc import Iterator, Sequence
from fractions import Fraction

from generator.problems import Problem
from generator.validate.cross.compare import crossing, in_mm
from generator.validate.draft import ClubDraft
from generator.validate.wear_log import LoggedRow
from generator.validate.wording import nearest

# shorter than new or longer than any chain runs: a wrong count of pitches shows as 5 per cent and more
LEAST_OFF, MOST_OFF = Fraction(-2, 100), Fraction(8, 100)


def wear_problems(rows: Sequence[LoggedRow], club: ClubDraft) -> Iterator[Problem]:
    """Every rule over every line."""
    for row in rows:
        yield from _unknown_chain(row, club)
        yield from _inside_out(row)
        yield from _length_out_of_reason(row, club)
        yield from _new_twice_over(row)
    yield from _said_twice(rows)
    yield from _hours_run_back(rows)


def _problem(code: str, row: LoggedRow, column: str, message: str, fix: str = "") -> Problem:
    return Problem(code, message, row.place(column), (str(row.line), column), fix)


def _unknown_chain(row: LoggedRow, club: ClubDraft) -> Iterator[Problem]:
    """A line speaks of a chain of chains.yaml."""
    chain = row.record.chain
    if not club.may_exist("chain", chain):
        near = nearest(chain, sorted(club.kinds["chain"]))
        fix = (
            f"write {near}" if near else "write the id of a chain that stands in chains.yaml, or add it there"
        )
        steps = (str(row.line), "chain")
        yield Problem("X301", f"there is no chain '{chain}'", row.place("chain"), steps, fix, near)


def _inside_out(row: LoggedRow) -> Iterator[Problem]:
    """Over the end rollers is always more than between them."""
    if crossing(row.inside, row.outside) == "error":
        message = (
            f"between the rollers {in_mm(row.inside.nominal)}, over them only {in_mm(row.outside.nominal)}"
        )
        yield _problem("W808", row, "inside", message, "change the two values over")


def _length_out_of_reason(row: LoggedRow, club: ClubDraft) -> Iterator[Problem]:
    """The mean of both readings is the length of the pitches counted, and a little wear."""
    chain = club.find("chain", row.record.chain)
    size = club.shelf.sizes.get(chain.record.size_code) if chain is not None else None
    if row.record.pitches == 0:
        yield _problem(
            "W809", row, "pitches", "a length over no pitches at all", "count rollers and take one off"
        )
    elif size is not None:
        new = row.record.pitches * size.dims["pitch"].nominal
        off = Fraction((row.inside.nominal + row.outside.nominal) // 2 - new, new)
        if not LEAST_OFF <= off <= MOST_OFF and crossing(row.inside, row.outside) != "error":
            message = f"{row.record.pitches} pitches of {size.code} are {in_mm(new)} when new; this is {float(off):+.1%} off"
            yield _problem(
                "W809", row, "pitches", message, "count the pitches again: one less than the rollers"
            )


def _new_twice_over(row: LoggedRow) -> Iterator[Problem]:
    """Both columns that may speak of a new chain say the same; `reading` says nothing."""
    event, new = row.record.event, row.record.new_chain
    if (event == "new-chain") != new and not (new and event == "reading"):
        message = f"new_chain is {'yes' if new else 'no'}, but the event is {event}"
        yield _problem("W812", row, "event", message, "correct one of the two")


def _said_twice(rows: Sequence[LoggedRow]) -> Iterator[Problem]:
    """One reading a day at one place of one chain."""
    first: dict[tuple[object, ...], LoggedRow] = {}
    for row in rows:
        key = (row.record.date, row.record.chain, row.record.place)
        if key in first:
            message = f"the reading of {row.record.chain} at {row.record.place} stands in line {first[key].line} already"
            related = (first[key].place("date"),)
            steps = (str(row.line), "date")
            yield Problem("W810", message, row.place("date"), steps, related=related, level="warning")
        first.setdefault(key, row)


def _hours_run_back(rows: Sequence[LoggedRow]) -> Iterator[Problem]:
    """The hours of a chain only grow, until it is replaced."""
    last: dict[str, LoggedRow] = {}
    for row in sorted(rows, key=lambda r: (r.record.date, r.line)):
        if row.record.hours == "unknown":
            continue
        before = last.get(row.record.chain)
        last[row.record.chain] = row
        if before is None or row.record.new_chain or row.record.event in ("new-chain", "counter-reset"):
            continue
        if Fraction(row.record.hours) < Fraction(before.record.hours):
            message = f"{row.record.hours} hours, after {before.record.hours} on {before.record.date}"
            related = (before.place("hours"),)
            steps = (str(row.line), "hours")
            yield Problem(
                "W811",
                message,
                row.place("hours"),
                steps,
                "mark a new chain with new_chain: yes",
                related=related,
            )
