"""What a dimension usually is, to catch slips of unit and point.

Goes in: plain text values read by the strict loader.  Comes out: records as written, nothing computed.
"""

from typing import ClassVar

from pydantic import BaseModel, Field

from generator.model.fields import Length, SourceRef, YesNo
from generator.model.record import STRICT


class PlausibleRange(BaseModel):
    """Least and most of one field of one kind, wide of anything sold; never a limit of fit."""

    model_config = STRICT
    file: ClassVar[str] = "plausible.yaml"
    kind_word: ClassVar[str] = "plausible range"

    least: Length = Field(description="Below this the value is a slip")
    most: Length = Field(description="Above this the value is a slip")
    zero: YesNo = Field(False, description="yes: the value may be zero")
    source: SourceRef
