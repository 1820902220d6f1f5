"""One line of the wear log as written."""

from typing import Annotated, ClassVar, Literal

from pydantic import BaseModel, Field

from generator.model.fields import CountText, DateText, IdText, Length, NumberText, YesNo
from generator.model.record import STRICT

# counter-reset: the hours count from nought again, on the same chain
Event = Literal["reading", "new-chain", "cut", "new-sprockets", "counter-reset"]


class WearRow(BaseModel):
    """A length over some pitches, between the rollers and over them, at one place of a chain."""

    model_config = STRICT
    file: ClassVar[str] = "wear_log.csv"
    kind_word: ClassVar[str] = "line of the wear log"

    date: DateText = Field(description="Date of the reading")
    chain: IdText = Field(description="The chain, an id of chains.yaml")
    hours: NumberText = Field(description="Hours the chain has run since it was new, or unknown")
    pitches: CountText = Field(
        description="Pitches measured, one less than the rollers counted; even is better"
    )
    inside: Length = Field(description="Between the first and the last roller, inside jaws")
    outside: Length = Field(description="Over the first and the last roller, outside jaws")
    place: Annotated[str, Field(max_length=40)] = Field(description="Where on the loop, such as a, b, c")
    new_chain: YesNo = Field(description="yes on the first readings of a new chain")
    event: Event = Field(
        "reading", description="What was done that day; an old log may do without this column"
    )
