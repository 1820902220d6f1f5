"""Why a change that no test notices need not be noticed."""

from tests.mutate.rules import Mutant
from tests.mutate.sizes import SizeMutant

SAME_BOTH_WAYS = (
    "pitch", "clip-spacing", "plate-holes", "strip-pitch", "strip-roller", "strip-bush-bore", "strip-outer-plates",
    "strip-elongation", "neighbour-bush-ends",
)  # fmt: skip


def why_rule_survives(mutant: Mutant) -> str | None:
    if mutant.what.endswith(" limit 0: sign"):
        return "minus nought is nought"
    if mutant.what == "sign of the clearance" and mutant.rule_id in SAME_BOTH_WAYS:
        return "the band is the same to both sides"
    if mutant.rule_id == "chain-kind" and mutant.what.startswith("word unknown"):
        return "a chain or link of unknown kind is refused before any check"
    if mutant.rule_id == "screw-plate" and mutant.what.startswith("word other"):
        return "in a joint of chain and link the plate is always the link's own; loose plates are judged elsewhere"
    if mutant.rule_id == "link-condition" and mutant.what.startswith(("word modified", "word unknown")):
        return "a link that was modified, or of which nobody said, is refused before any check"
    if mutant.rule_id == "plates-level" and mutant.what == "condition plate_fit dropped":
        return "only a pressed plate lies where somebody put it"
    if mutant.rule_id == "clip-goes-on-to-clip" and mutant.what == "condition closure dropped":
        return "a plate is pressed to its clip only where there is one"
    if mutant.rule_id == "looks-sealed" and mutant.what.endswith("more"):
        return "beyond its limit a pair is refused before any check: tests/facts/never_kinder.yaml, gap-a-nanometre-over"
    if mutant.rule_id == "strip-elongation" and "last-resort" in mutant.what and "0.0001" in mutant.what:
        return "stands for no limit: no chain is worn to twice its length"
    return None


def why_size_survives(mutant: SizeMutant) -> str | None:
    if mutant.is_remembered and "nanometre" in mutant.what:
        return "remembered, and held only to a sane range: there is no figure to hold it to"
    if mutant.is_remembered and "dropped" in mutant.what:
        return "remembered, and of a code that no outside table lists"
    return None
