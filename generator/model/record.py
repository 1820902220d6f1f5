"""What every record of a club's folder has in common: strict keys, and who read it with what."""

from typing import Annotated, Any, ClassVar

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field

from generator.model.fields import DateText, IdText, SourceRef

# a record never changes after it is read, and has no keys but its own
STRICT = ConfigDict(frozen=True, extra="forbid", arbitrary_types_allowed=True, defer_build=True)


def reading(description: str, symbol: str | None = None) -> Any:
    """An optional dimension; `symbol` is the one of ISO 606 where it has one, else ours."""
    return Field(None, description=description, json_schema_extra={"x-symbol": symbol} if symbol else None)


Free = Annotated[str, Field(max_length=400, json_schema_extra={"x-free-text": True})]


def _as_list(value: Any) -> Any:
    return [value] if isinstance(value, str) else value


# a list of single values may be written as the one value
ONE_OR_MANY = BeforeValidator(_as_list)


class Record(BaseModel):
    """Unknown keys are refused; a record never changes after it is read."""

    model_config = STRICT
    # the file the kind lives in, and the word for one record of it
    file: ClassVar[str]
    kind_word: ClassVar[str]

    name: Free | None = Field(None, description="What people call it")
    note: Free | None = Field(None, description="Anything worth remembering")


class Measured(Record):
    """A record with readings: who read them, when, with what."""

    measured_with: IdText | None = Field(None, description="Instrument, an id of club.yaml")
    measured_on: DateText | None = Field(None, description="Date of the readings")
    measured_by: Free | None = Field(None, description="A role, not a person's name")
    source: SourceRef | None = Field(None, description="Where stated values come from: id[place]")
