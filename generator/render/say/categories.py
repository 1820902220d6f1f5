"""Why a check that has no number came out as it did.

Goes in: a check id, its category and the parts.  Comes out: one sentence.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from generator.compute.fit.result import CheckFit, OptionFit
from generator.compute.fit.wear_state import wear_limit_percent, wear_rule
from generator.model.chain_parts import Chain, Link
from generator.model.dataset import Dataset, Part
from generator.render.say.names import listed
from generator.render.say.said import capital

SENTENCES: Mapping[tuple[str, str], str] = {
    ("size-code", "same"): "Link and chain are both {link_code}.",
    (
        "size-code",
        "heavy-on-standard",
    ): "The link is of the heavy series {link_code}, the chain is standard {chain_code}.",
    (
        "size-code",
        "standard-on-heavy",
    ): "The link is standard {link_code}, the chain of the heavy series {chain_code}.",
    (
        "size-code",
        "wider-on-narrower",
    ): "A {link_code} link is made for a wider chain than this {chain_code}.",
    (
        "size-code",
        "narrower-on-wider",
    ): "A {link_code} link is made for a narrower chain than this {chain_code}.",
    (
        "size-code",
        "other-roller",
    ): "A {link_code} link belongs to a chain with another roller than this {chain_code}.",
    (
        "size-code",
        "other-pitch",
    ): "A {link_code} link has another pitch than this {chain_code} chain: its pins do not line up.",
    ("rule-of-thumb", "measured"): "Both parts are measured, so no rule of thumb is needed.",
    ("rule-of-thumb", "possible"): (
        "{unmeasured} not measured. Size code and kind match, which rules nothing out and promises nothing."
    ),
    ("rule-of-thumb", "makeshift"): (
        "{unmeasured} not measured, and size code or kind differ: get-home at best by the rules of thumb."
    ),
    ("rule-of-thumb", "hopeless"): "{unmeasured} not measured, and the size codes alone rule it out.",
    ("chain-kind", "same"): "Link and chain are both {made_for}.",
    ("chain-kind", "differs"): "The link was made for {made_for} chain, this chain is {chain_kind}.",
    ("seal-kind", "same"): "The seals have the section the chain was made with ({chain_seal}).",
    ("seal-kind", "as-squeezed"): (
        "The seals have another section than the chain's ({chain_seal}), but they are measured and cover the bush."
    ),
    ("seal-kind", "differs"): (
        "The seals {seals} have another section than the chain's ({chain_seal}), and were not shown to cover the bush "
        "and be squeezed right."
    ),
    ("seal-kind", "unknown"): "The section of the seals, on the chain or in the bag, is not known.",
    ("seals-left-out", "always"): "Without its seals the joint of a sealed chain loses its grease.",
    ("joint-kind", "as-strong"): "The joint is of a kind as strong as the chain's own.",
    (
        "joint-kind",
        "weaker",
    ): "The side plate slides on; the chain was made with a pressed or riveted joint, which is stronger.",
    (
        "joint-kind",
        "unknown",
    ): "The side plate slides on, and it is not known how the chain itself is joined.",
    ("screw-plate", "own"): "The screw link is used with its own plate.",
    ("half-link", "whole"): "It is a whole link.",
    ("half-link", "half"): "It is a cranked half link.",
    ("clip-history", "new"): "The clip {clip} is new.",
    ("clip-history", "never-off"): "The clip {clip} has never been off.",
    (
        "clip-history",
        "taken-off",
    ): "The clip {clip} sits on another link; once it is off that, it has lost some of its spring.",
    ("clip-history", "off-once"): "The clip {clip} has been off once and has lost some of its spring.",
    ("clip-history", "bent"): "The clip {clip} is bent and has lost its hold.",
    ("clip-history", "unknown"): "{history}",
    ("link-condition", "new"): "The link is new.",
    ("link-condition", "fitted-once"): "The link has been fitted once and is sound.",
    ("link-condition", "cracked"): "The link is cracked.",
    ("link-condition", "drilled"): "The holes of the link were drilled.",
    ("link-condition", "worn"): "The pins of the link are worn to a step of 0.10 mm or more.",
    ("link-condition", "perhaps-worn"): "The pins of the link may be worn to a step of 0.10 mm or more.",
    ("chain-worn", "within"): "The chain is within its wear limit.",
    (
        "chain-worn",
        "beyond",
    ): "The chain is {elongation} % longer than new; the club's limit is {wear_limit} % ({wear_rule}).",
    ("chain-worn", "unknown"): "It is not known how far the chain is worn.",
    ("dry-fit", "went-together"): "It was put together by hand and went ({trials}).",
    ("dry-fit", "not-tried"): "Nobody has tried it this way by hand yet.",
    ("dry-fit", "tried-in-part"): "It was tried by hand in part ({trials}).",
    ("dry-fit", "did-not-go"): "It was tried by hand and did not go together ({trials}).",
    ("dry-fit", "stiff"): "It was put together by hand and the joint was stiff ({trials}).",
    (
        "dry-fit",
        "plate-moves",
    ): "The pressed side plate could be moved by hand, so its press fit is lost ({trials}).",
}


@dataclass(frozen=True, slots=True)
class Joint:
    """The parts of one option, for naming them."""

    dataset: Dataset
    chain: Part[Chain]
    link: Part[Link]
    option: OptionFit


def joint_of(dataset: Dataset, chain: str, link: str, option: OptionFit) -> Joint:
    return Joint(dataset, dataset.chains[chain], dataset.links[link], option)


def category_sentence(check: CheckFit, joint: Joint) -> str:
    """Packing washers share a check with seals left out and say so themselves."""
    if check.id == "seals-left-out" and joint.option.seals == "packed":
        return f"Packing washers {joint.option.seal_set} take up the room; they do not seal."
    pattern = SENTENCES.get((check.id, check.category or ""))
    if pattern is None:
        rule = joint.dataset.shelf.joint_rules[check.rule_id]
        return f"{rule.title}: {(check.category or '').replace('-', ' ')}."
    return pattern.format_map(_facts(joint))


def _facts(joint: Joint) -> Mapping[str, str]:
    dataset, chain, link, option = joint.dataset, joint.chain, joint.link, joint.option
    seal_set = option.seal_set or ""
    return {
        "link_code": link.record.size_code,
        "chain_code": chain.record.size_code,
        "made_for": link.record.made_for,
        "chain_kind": chain.record.kind,
        "chain_seal": chain.record.seal,
        "seals": seal_set,
        "clip": option.clip or "",
        "history": _history_unknown(option.clip),
        "elongation": chain.record.elongation or "unknown",
        "wear_limit": f"{wear_limit_percent(dataset, chain):f}",
        "wear_rule": wear_rule(dataset).title,
        "unmeasured": _unmeasured(chain, link),
        "trials": listed([f"{t}, {dataset.trials[t].record.on.isoformat()}" for t in option.trials]),
    }


def _history_unknown(clip: str | None) -> str:
    if clip is None:
        return "The club has no clip for it."
    return f"It is not known whether clip {clip} has been off its link."


def _unmeasured(chain: Part[Chain], link: Part[Link]) -> str:
    """Named are those with no dimension at all; where each has some, the pair is not measured enough."""
    bare = [f"{word} {part.id}" for word, part in (("chain", chain), ("link", link)) if not part.dims]
    if not bare:
        return "The parts are"
    names = listed(bare)
    return f"{capital(names)} {'is' if len(bare) == 1 else 'are'}"
