"""The closed values behind the rules that are not about numbers: size codes, kinds, histories, what was tried.

Goes in: a dataset and its options.  Comes out: by name of the category, one value an option.
"""

from collections.abc import Callable, Mapping, Sequence
from itertools import product

import numpy as np

from generator.compute.fit.columns import Ints, coded
from generator.compute.fit.evaluate import Categories, Category
from generator.compute.fit.options import Bench, Options, pair_numbers
from generator.compute.fit.sizes import SIZE_RELATIONS, size_relation
from generator.compute.fit.trials import TRIED, pair_positions, trial_positions, tried_word, word_for_all
from generator.compute.fit.wear_state import wear_state
from generator.model.chain_parts import Chain, Clip, Link, SealSet
from generator.model.dataset import Dataset, Part
from generator.model.pin_wear import link_condition
from generator.rules.joined import PARTS, Parts
from generator.rules.plan import CheckPlan, Plan
from generator.rules.symbols import parts_behind

# without any of these a part is not measured, and only rules of thumb speak
CHAIN_READINGS = ("bush_bore", "over_inner_plates", "over_bush_ends", "between_outer_plates")
LINK_READINGS = ("pin_diameter", "pin_reach", "clip_stop", "pin_length", "side_plate_thickness")
THUMBS = ("measured", "possible", "makeshift", "hopeless")
# the parts of an option that decide its value
PARTS_OF_CATEGORY: Mapping[str, Parts] = {
    # tried: a pair that was tried is looked at closely afterwards, so that here no option of it counts
    **dict.fromkeys(("size", "thumb", "kind", "joint", "tried"), ("chain", "link")),
    **dict.fromkeys(("half", "condition"), ("link",)),
    **dict.fromkeys(("always", "screw"), ()),
    "clip-history": ("link", "clip"),
    "wear": ("chain",),
    "seal": ("chain", "seal_set"),
}


def parts_of(plan: Plan, check: CheckPlan) -> Parts:
    """Which parts of an option a check looks at; what is not listed may look at all of them."""
    if check.category is not None:
        found = set(PARTS_OF_CATEGORY.get(check.category, PARTS))
    else:
        rows = {row for asked in check.asked for clause in asked for row in clause}
        found = {part for row in rows for name, _ in plan.rows[row].terms for part in parts_behind(name)}
    return tuple(part for part in PARTS if part in found)


def categories(dataset: Dataset, on: Bench, options: Options) -> Categories:
    """Name of each category -> value per option."""
    return {
        "size": _by_pair(on, options, lambda c, li: _size(dataset, c, li), SIZE_RELATIONS),
        "thumb": _by_pair(on, options, lambda c, li: _thumb(dataset, c, li), THUMBS),
        "kind": _by_pair(on, options, _kind, ("same", "differs")),
        "seal": _seal_kind(on, options),
        "joint": _by_pair(on, options, _joint, ("as-strong", "weaker", "unknown")),
        "half": _by_link(on, options, lambda li: "half" if li.record.half_link else "whole"),
        "condition": _by_link(on, options, link_condition),
        "clip-history": _clip_history(on, options),
        "wear": _category([wear_state(dataset, chain) for chain in on.chains], options.chain),
        "always": _category(["always"], np.zeros_like(options.link)),
        "screw": _category(["own"], np.zeros_like(options.link)),
        "tried": _tried(dataset, on, options),
    }


def clip_history(clip: Part[Clip], link: Part[Link] | None) -> str:
    """A clip that never was off its link has to come off it for any other; None is any other."""
    history, its_own = clip.record.history, link is not None and link.record.clip == clip.id
    return "taken-off" if history == "never-off" and not its_own else history


def _clip_history(on: Bench, options: Options) -> Category:
    """What is written of each clip, for its own link and for any other."""
    own = np.array([on.clip_at(link.record.clip) for link in on.links], dtype=np.int64)
    words = [word for clip in on.clips for word in (clip.record.history, clip_history(clip, None))]
    elsewhere = own[options.link] != options.clip
    return _category([*words, "unknown", "unknown"], 2 * options.clip + elsewhere)


def _category(values: Sequence[str], index: Ints) -> Category:
    codes, words = coded(values, index)
    return Category(codes, tuple(words))


def _by_link(on: Bench, options: Options, word: Callable[[Part[Link]], str]) -> Category:
    return _category([word(link) for link in on.links], options.link)


def _by_pair(
    on: Bench, options: Options, word: Callable[[Part[Chain], Part[Link]], str], words: Sequence[str]
) -> Category:
    pairs = [words.index(word(chain, link)) for chain, link in product(on.chains, on.links)]
    codes = np.array(pairs, dtype=np.int8)[pair_numbers(on, options)]
    return Category(codes, tuple(words))


def _size(dataset: Dataset, chain: Part[Chain], link: Part[Link]) -> str:
    sizes = dataset.shelf.sizes
    if chain.record.size_code not in sizes or link.record.size_code not in sizes:
        return "same"  # refused elsewhere; never evaluated
    return size_relation(sizes[link.record.size_code], sizes[chain.record.size_code])


def _thumb(dataset: Dataset, chain: Part[Chain], link: Part[Link]) -> str:
    """What the size codes and kinds alone allow, where either part has no readings."""
    if _measured(chain.dims, CHAIN_READINGS) and _measured(link.dims, LINK_READINGS):
        return "measured"
    size = _size(dataset, chain, link)
    if size in ("other-pitch", "narrower-on-wider", "other-roller"):
        return "hopeless"
    return "possible" if size == "same" and _kind(chain, link) == "same" else "makeshift"


def _measured(dims: Mapping[str, object], fields: Sequence[str]) -> bool:
    return any(field in dims for field in fields)


def _kind(chain: Part[Chain], link: Part[Link]) -> str:
    return "same" if chain.record.kind == link.record.made_for else "differs"


def _joint(chain: Part[Chain], link: Part[Link]) -> str:
    """A plate that slides on is weaker than a pressed or riveted joint of the chain itself."""
    if link.record.plate_fit != "slip" or chain.record.own_joint == "clip-slip":
        return "as-strong"
    return "unknown" if chain.record.own_joint == "unknown" else "weaker"


def _seal_kind(on: Bench, options: Options) -> Category:
    words = ("same", "as-squeezed", "differs", "unknown")
    table = [
        words.index(
            seal_word(chain.record.seal, seal.record.shape, seal.record.covers_bush, _is_measured(seal))
        )
        for chain, seal in product(on.chains, on.seals)
    ]
    width = max(len(on.seals), 1)
    codes = np.array([*table, *([0] if not table else [])], dtype=np.int8)
    return Category(codes[(options.chain * width + np.maximum(options.seal_set, 0)) % len(codes)], words)


def _is_measured(seal: Part[SealSet]) -> bool:
    """A remembered thickness is no reason to trust another section."""
    thickness = seal.dims.get("thickness")
    return thickness is not None and thickness.evidence == "measured"


def seal_word(chain_seal: str, shape: str, covers: str = "unknown", measured: bool = False) -> str:
    """How seals stand to those of the chain."""
    if "unknown" in (chain_seal, shape):
        return "unknown"
    if chain_seal == shape and shape != "other":
        return "same"
    if covers == "yes" and measured:
        return "as-squeezed"
    # two seals that are neither round nor four-lobed need not be alike
    return "unknown" if chain_seal == shape else "differs"


def _tried(dataset: Dataset, on: Bench, options: Options) -> Category:
    """What was seen with this clip and these seals; what nothing else mends speaks for every option."""
    codes = np.zeros(len(options), dtype=np.int8)
    for trial in dataset.trials.values():
        own, for_all = tried_word(trial, dataset), word_for_all(trial, dataset)
        for word, positions in ((own, trial_positions), (for_all, pair_positions)):
            if word is not None:
                at = positions(trial.record, on, options)
                codes[at] = np.maximum(codes[at], TRIED.index(word))
    return Category(codes, TRIED)
