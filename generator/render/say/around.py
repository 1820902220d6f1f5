"""What stands around the checks of a joint, or of other parts that meet: names for their words, and their wholes."""

from collections.abc import Mapping

from generator.compute.fit.result import OptionFit
from generator.compute.fit.wear_state import wear_limit_percent, wear_rule
from generator.compute.others.result import PartFit
from generator.model.chain_parts import Chain, Link
from generator.model.dataset import Dataset, Part
from generator.render.say.checks import Around
from generator.render.say.days import day_in_words
from generator.render.say.names import listed
from generator.render.say.said import capital
from generator.rules.symbols import clip_dims


def joint_around(dataset: Dataset, chain: str, link: str, option: OptionFit) -> Around:
    found, with_ = dataset.chains[chain], dataset.links[link]
    return Around(
        dataset, _facts(dataset, found, with_, option), wholes(dataset, option.clip, option.seal_set)
    )


def part_around(dataset: Dataset, fit: PartFit) -> Around:
    ids = {part.kind: part.id for part in fit.parts}
    facts = {"clip": ids.get("clip", ""), "seals": ids.get("seal", ""), "history": _history(ids.get("clip"))}
    named = {
        "link_code": "",
        "chain_code": "",
        "made_for": "",
        "chain_kind": "",
        "chain_seal": "",
        "trials": "",
    }
    if "link" in ids:
        named |= {
            "link_code": dataset.links[ids["link"]].record.size_code,
            "made_for": dataset.links[ids["link"]].record.made_for,
        }
    if "chain" in ids:
        named |= _of_chain(dataset, dataset.chains[ids["chain"]])
    return Around(dataset, named | facts, wholes(dataset, ids.get("clip"), ids.get("seal")))


def wholes(dataset: Dataset, clip: str | None, seal_set: str | None) -> Mapping[str, float]:
    """Seal practice speaks of the free thickness, two seals to a pin; a clip of its thickness when new."""
    found: dict[str, float] = {}
    seals, worn = dataset.seals.get(seal_set or ""), dataset.clips.get(clip or "")
    if seals and (thickness := seals.dims.get("thickness")):
        found["squeeze"] = 2 * thickness.nominal
    new = clip_dims(worn).get("thickness_new") if worn else None
    if new:
        found["clip-wear"] = new.nominal
    return {check: whole for check, whole in found.items() if whole}


def _facts(dataset: Dataset, chain: Part[Chain], link: Part[Link], option: OptionFit) -> Mapping[str, str]:
    return {
        "link_code": link.record.size_code,
        "made_for": link.record.made_for,
        **_of_chain(dataset, chain),
        "seals": option.seal_set or "",
        "clip": option.clip or "",
        "history": _history(option.clip),
        "unmeasured": _unmeasured(chain, link),
        "trials": listed([f"{t}, {day_in_words(dataset.trials[t].record.on)}" for t in option.trials]),
    }


def _of_chain(dataset: Dataset, chain: Part[Chain]) -> Mapping[str, str]:
    return {
        "chain_code": chain.record.size_code,
        "chain_kind": chain.record.kind,
        "chain_seal": chain.record.seal,
        "elongation": chain.record.elongation or "unknown",
        "wear_limit": f"{wear_limit_percent(dataset, chain):f}",
        "wear_rule": wear_rule(dataset).title,
    }


def _history(clip: str | None) -> str:
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
