"""The closed values behind the rules that are not about numbers: size codes, kinds, histories, what was tried."""

from collections.abc import Callable, Mapping, Sequence

from generator.compute.fit.cases import heights_word
from generator.compute.fit.evaluate import Categories, Category
from generator.compute.fit.history import bow_word, clip_history, manual_word, plate_history
from generator.compute.fit.measured import Combined
from generator.compute.fit.shared_trials import tried_words
from generator.compute.fit.sizes import size_relation
from generator.compute.fit.wear_state import wear_state
from generator.model.chain_parts import Chain, Link, SealSet
from generator.model.dataset import Dataset, Part
from generator.model.pin_wear import link_condition
from generator.rules.joined import PARTS, Joined, Parts
from generator.rules.own_joint import RIVETED
from generator.rules.place import pressings
from generator.rules.plan import CheckPlan, Plan
from generator.rules.symbols import parts_behind

# without any of these a part is not measured, and only rules of thumb speak
CHAIN_READINGS = ("bush_bore", "over_inner_plates", "over_bush_ends", "between_outer_plates")
LINK_READINGS = ("pin_diameter", "pin_reach", "clip_stop", "pin_length", "side_plate_thickness")


def parts_of(plan: Plan, check: CheckPlan) -> Parts:
    """Which parts of an option a check looks at; what is not listed may look at all of them."""
    if check.category is not None:
        found = set(CATEGORIES[check.category][0] if check.category in CATEGORIES else PARTS)
    else:
        found = {
            part
            for row in check.deciding_rows
            for name, _ in plan.rows[row].terms
            for part in parts_behind(name)
        }
    return tuple(part for part in PARTS if part in found)


def categories(combined: Combined) -> Categories:
    """Name of each category -> value per option."""
    asked = {name: Category(*combined.words(parts, word)) for name, (parts, word) in CATEGORIES.items()}
    return asked | {"tried": tried_words(combined.dataset, combined.on, combined.options)}


def _clip_history(joined: Joined) -> str:
    if joined.clip is None:
        return "unknown"
    return clip_history(joined.dataset, joined.clip, joined.link)


def _bow(joined: Joined) -> str:
    return bow_word(joined.clip, joined.dataset.shelf) if joined.clip is not None else "flat"


def _by_size(joined: Joined) -> str:
    return _size(joined.dataset, joined.chain, joined.link)


def _by_thumb(joined: Joined) -> str:
    return _thumb(joined.dataset, joined.chain, joined.link)


def _half(joined: Joined) -> str:
    return {True: "half", False: "whole", None: "unknown"}[joined.link.record.half_link]


def _plate(joined: Joined) -> str:
    return plate_history(joined.dataset, joined.link)


def _flared(joined: Joined) -> str:
    if joined.link.record.flared is None:
        return "never"  # a new one; of a used one no verdict is given
    return "flared" if joined.link.record.flared else "never"


def _level(joined: Joined) -> str:
    """By the newest dry fit of this packing that pressed the plate, where it was laid on."""
    for trial in pressings(joined.dataset, joined.chain.id, joined.link.id):
        if trial.record.seals in (joined.seals, "unknown"):
            level = trial.record.plates_level
            return "not-looked" if level is None else "level" if level else "not-level"
    return "not-looked"


def _rubs(joined: Joined) -> str:
    """Of a riveted chain nothing stands out that could rub."""
    chain = joined.chain.record
    if chain.own_joint in RIVETED:
        return "clear"
    return "not-looked" if chain.rub_marks is None else "rubbed" if chain.rub_marks else "clear"


def _bush_ring(joined: Joined) -> str:
    seals = joined.seal_set
    words = {"yes": "covered", "no": "bare"}
    return words.get(seals.record.covers_bush, "unknown") if seals is not None else "unknown"


def _of_seals(joined: Joined) -> str:
    chain, seals = joined.chain.record, joined.seal_set
    if seals is None:
        return "unknown" if joined.seals == "fitted" else "same"
    return seal_word(chain.seal, seals.record.shape, seals.record.covers_bush, _is_measured(seals))


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


# the parts of an option that decide each, and how; what was tried is worked out for all options together
CATEGORIES: Mapping[str, tuple[Parts, Callable[[Joined], str]]] = {
    "size": (("chain", "link"), _by_size),
    "thumb": (("chain", "link"), _by_thumb),
    "kind": (("chain", "link"), lambda joined: _kind(joined.chain, joined.link)),
    "joint": (("chain", "link"), lambda joined: _joint(joined.chain, joined.link)),
    "plate-history": (("chain", "link"), _plate),
    "height-seen": (("chain", "link"), heights_word),
    "level": (("chain", "link", "seals"), _level),
    "half": (("link",), _half),
    "condition": (("link",), lambda joined: link_condition(joined.link, joined.dataset.shelf)),
    "flared": (("link",), _flared),
    "clip-history": (("link", "clip"), _clip_history),
    "bow": (("clip",), _bow),
    "wear": (("chain",), lambda joined: wear_state(joined.dataset, joined.chain)),
    "chain-state": (("chain",), lambda joined: joined.chain.record.state),
    "rubs": (("chain",), _rubs),
    "manual": (("chain", "link"), lambda joined: manual_word(joined.dataset, joined.chain, joined.link)),
    "seal": (("chain", "seals", "seal_set"), _of_seals),
    "bush-ring": (("seal_set",), _bush_ring),
    "always": ((), lambda _: "always"),
    "screw": ((), lambda _: "own"),
}
