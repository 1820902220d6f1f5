"""A data table as CSV: RFC 4180, UTF-8, and nothing in it that a spreadsheet would run."""

import csv
import io
import re
from decimal import Decimal
from fractions import Fraction

from generator.render.downloads.data_table import DataTable, Value

# a spreadsheet takes a cell that starts so for a formula (the wide forms in some of them too)
_FORMULA = ("=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠")
_PLAIN_NUMBER = re.compile(r"-?[0-9]+(\.[0-9]+)?")


def csv_text(table: DataTable) -> str:
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow([column.name for column in table.columns])
    writer.writerows([csv_cell(value) for value in row] for row in table.rows)
    return out.getvalue()


def csv_cell(value: Value) -> str:
    """A number is plain decimal; text that looks like a formula gets an apostrophe in front."""
    if value is None:
        return ""
    if isinstance(value, Fraction):
        return decimal_text(value)
    return harmless(value)


def harmless(text: str) -> str:
    risky = text.startswith(_FORMULA) and not _PLAIN_NUMBER.fullmatch(text)
    return f"'{text}" if risky else text


def decimal_text(number: Fraction) -> str:
    """Exact, without exponent and without trailing zeros; a length is whole nanometres, so it ends."""
    exact = Decimal(number.numerator) / Decimal(number.denominator)
    text = f"{exact:f}"
    return text.rstrip("0").rstrip(".") if "." in text else text
