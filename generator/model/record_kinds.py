"""The kinds of record that live in a file of their own, in the order in which they are read and shown.

Goes in: nothing.  Comes out: a tuple of models.
"""

from generator.model.chain_parts import Chain, Clip, Link, SealSet, SidePlate, Strip
from generator.model.club import RuleOverride
from generator.model.record import Record
from generator.model.tools_and_bikes import Bike, Tool
from generator.model.trials_and_rides import Ride, Trial

RECORD_KINDS: tuple[type[Record], ...] = (
    Chain,
    Link,
    Clip,
    SealSet,
    SidePlate,
    Strip,
    Tool,
    Bike,
    Trial,
    Ride,
    RuleOverride,
)
