"""Closed field types of the records: each refuses what it does not understand, with a code and a fix."""

import re
import unicodedata
from collections.abc import Mapping
from datetime import date
from typing import Annotated, Any, NoReturn

from pydantic import BeforeValidator, WithJsonSchema
from pydantic_core import PydanticCustomError

from generator.model.length import parse_force, parse_length, parse_mass
from generator.model.written import LengthFault, Written

ID_PATTERN = r"[a-z0-9][a-z0-9-]{0,39}"
SOURCE_PATTERN = rf"({ID_PATTERN})\[([^\[\]]{{1,80}})\]"
SIZE_PATTERN = r"[0-9]{2,3}[A-Z]{0,2}|unknown"
# short enough for a code on a card that a phone reads through a scratched pocket
ADDRESS_PATTERN = r"https?://[A-Za-z0-9.-]{1,60}(:[0-9]{1,5})?(/[A-Za-z0-9._~%/-]{0,60})?"
NUMBER_PATTERN = r"(0|[1-9][0-9]{0,5})(\.[0-9]{1,4})?"


def refuse(code: str, message: str, fix: str, **context: Any) -> NoReturn:
    """Raise the one kind of error the validator turns into a Problem; `code` is of the catalogue."""
    raise PydanticCustomError(code, "{message}", {"message": message, "fix": fix, **context})


def _text(value: Any) -> str:
    if not isinstance(value, str):
        refuse("R205", "one value is needed here, not a list or a block", "write one value on this line")
    return value


def _quantity(parse: Any, kind: str, example: str) -> Any:
    def read(value: Any) -> Written:
        if isinstance(value, Written):
            return value
        try:
            return parse(value)  # type: ignore[no-any-return]
        except LengthFault as fault:
            refuse(fault.code, fault.message, fault.fix, offset=fault.offset, width=fault.width)

    schema = {"type": ["string", "object"], "x-kind": kind, "examples": [example]}
    return Annotated[Written, BeforeValidator(read), WithJsonSchema(schema)]


def _id(value: Any) -> str:
    text = _text(value)
    several = [part.strip() for part in text.split(",")]
    if len(several) > 1 and all(re.fullmatch(ID_PATTERN, part) for part in several):
        fix = f"write one, or where several may stand a list in brackets: [{', '.join(several)}]"
        refuse("R206", f"'{text[:60]}' are several ids in one text", fix)
    if not re.fullmatch(ID_PATTERN, text):
        refuse(
            "R206",
            f"'{text[:60]}' is not an id",
            "use small letters, digits and hyphens, 40 at most, as written on the bag: tin-3-red",
            near=_as_id(text),
        )
    return text


def _as_id(text: str) -> str | None:
    """The same label as an id, where anything of it is left."""
    plain = unicodedata.normalize("NFKD", text).encode("ascii", "ignore").decode("ascii").lower()
    return re.sub(r"[^a-z0-9]+", "-", plain).strip("-")[:40].rstrip("-") or None


def _size_code(value: Any) -> str:
    text = _text(value)
    if not re.fullmatch(SIZE_PATTERN, text):
        refuse(
            "R207",
            f"'{text[:60]}' is not a size code",
            "write the code as stamped, such as 520 or 520H, or unknown",
        )
    return text


def day_of(text: str) -> date | None:
    """Of year-month-day and nothing else."""
    try:
        return date.fromisoformat(text) if re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", text) else None
    except ValueError:
        return None


def _date(value: Any) -> date:
    if type(value) is date:
        return value
    text = _text(value)
    day = day_of(text)
    if day is not None:
        return day
    refuse("R208", f"'{text[:60]}' is not a date", "write year-month-day, such as 2027-02-14")


def _yes_no(value: Any) -> bool:
    if isinstance(value, bool):
        return value
    text = _text(value)
    if text not in ("yes", "no"):
        _neither(text, {**_MEANS_YES, **_MEANS_NO})
    return text == "yes"


_MEANS_YES = dict.fromkeys(("true", "y", "on", "yes.", "ja", "1"), "yes")
_MEANS_NO = dict.fromkeys(("false", "n", "off", "no.", "nein", "0"), "no")
_MEANS_UNKNOWN = dict.fromkeys(("?", "n/a", "na", "-", "not known", "don't know", "none"), "unknown")


def _neither(text: str, meant: Mapping[str, str]) -> NoReturn:
    near = meant.get(text.strip().casefold()) or (text.lower() if text.lower() in ("yes", "no") else None)
    may = "yes, no or unknown" if "?" in meant else "yes or no"
    refuse("R209", f"'{text[:60]}' is neither yes nor no", f"write {near or may}", near=near)


def _answer(value: Any) -> bool | None:
    """Of something that may not have been looked at: unknown says so."""
    if isinstance(value, str) and value.strip() == "unknown":
        return None
    if isinstance(value, str) and value not in ("yes", "no"):
        _neither(value, {**_MEANS_YES, **_MEANS_NO, **_MEANS_UNKNOWN})
    return _yes_no(value)


def _count(value: Any) -> int:
    if type(value) is int:
        return value
    text = _text(value)
    if not re.fullmatch(r"0|[1-9][0-9]{0,4}", text):
        refuse("R210", f"'{text[:60]}' is not a whole number", "write digits only, such as 4")
    return int(text)


def _number(value: Any) -> str:
    text = _text(value)
    if not re.fullmatch(rf"{NUMBER_PATTERN}|unknown", text):
        refuse("R211", f"'{text[:60]}' is not a number", "write digits with a point, such as 1.5, or unknown")
    return text


def _source(value: Any) -> str:
    text = _text(value)
    if not re.fullmatch(SOURCE_PATTERN, text):
        refuse(
            "R212",
            f"'{text[:60]}' does not cite a source",
            "write id[place], such as chain-handbook[table 1.9]",
        )
    return text


def _address(value: Any) -> str:
    text = _text(value)
    if not re.fullmatch(ADDRESS_PATTERN, text):
        refuse("R216", f"'{text[:60]}' is not a web address", "write https://example.org/chains/")
    return text.rstrip("/") + "/"


def _schema(kind: str, example: object, **rest: Any) -> WithJsonSchema:
    """`x-kind` says what a field holds: schema, starter and the page on the data format read it."""
    return WithJsonSchema({"x-kind": kind, "examples": [example], **rest})


Length = _quantity(parse_length, "length", "14.92 ± 0.03 mm")
Force = _quantity(parse_force, "force", "26.4 kN")
Mass = _quantity(parse_mass, "mass", "14 g")
IdText = Annotated[
    str, BeforeValidator(_id), _schema("id", "tin-3-red", type="string", pattern=f"^{ID_PATTERN}$")
]
SizeCode = Annotated[
    str, BeforeValidator(_size_code), _schema("size", "520", type="string", pattern=f"^({SIZE_PATTERN})$")
]
DateText = Annotated[
    date, BeforeValidator(_date), _schema("date", "2027-02-14", type="string", format="date")
]
YesNo = Annotated[bool, BeforeValidator(_yes_no), _schema("yes-no", "yes", enum=["yes", "no"])]
Answer = Annotated[
    bool | None, BeforeValidator(_answer), _schema("yes-no", "yes", enum=["yes", "no", "unknown"])
]
CountText = Annotated[
    int, BeforeValidator(_count), _schema("count", 4, type="integer", minimum=0, maximum=99999)
]
NumberText = Annotated[
    str,
    BeforeValidator(_number),
    _schema("number", 1.5, type=["number", "string"], minimum=0, pattern=f"^({NUMBER_PATTERN}|unknown)$"),
]
SourceRef = Annotated[
    str,
    BeforeValidator(_source),
    _schema("source", "chain-handbook[table 1.9]", type="string", pattern=f"^{SOURCE_PATTERN}$"),
]
WebAddress = Annotated[
    str,
    BeforeValidator(_address),
    _schema("address", "https://example.org/chains/", type="string", pattern=f"^{ADDRESS_PATTERN}$"),
]
