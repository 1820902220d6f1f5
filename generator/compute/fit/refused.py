"""Why no verdict can be given on a chain and a link."""

from collections.abc import Iterator
from difflib import get_close_matches

from generator.model.chain_parts import Chain, Link
from generator.model.dataset import Dataset, Part
from generator.rules.forms import parse_form
from generator.rules.kin import in_use
from generator.rules.table import with_own_limits
from generator.rules.vocabulary import dimensions

NEAR_CODES = 3
SEALED = "looks-sealed"


def why_refused(dataset: Dataset, chain: Part[Chain], link: Part[Link]) -> str | None:
    """The first reason there is, or None."""
    return next((reason for wrong, reason in _reasons(dataset, chain, link) if wrong), None)


def size_refused(dataset: Dataset, code: str, of: str) -> str | None:
    """Why a size code says nothing: not known, or not on the shelf, with the codes near it."""
    if code == "unknown":
        return f"the size code of the {of} is not known"
    if code in dataset.shelf.sizes:
        return None
    near = near_codes(dataset, code)
    known = f"; known codes near it: {', '.join(near)}" if near else ""
    return f"size code not known: {code} of the {of} is not among the sizes on the shelf{known}"


def near_codes(dataset: Dataset, code: str) -> list[str]:
    """Those with the same digits first, then those that are written much alike."""
    digits = code.rstrip("ABCDEFGHIJKLMNOPQRSTUVWXYZ")
    motorcycle = [c for c, size in dataset.shelf.sizes.items() if size.record.family == "motorcycle"]
    same = sorted(c for c in motorcycle if c.startswith(digits))
    alike = get_close_matches(code, sorted(motorcycle), NEAR_CODES, 0.5)
    return list(dict.fromkeys([*same, *alike]))[:NEAR_CODES]


def _reasons(dataset: Dataset, chain: Part[Chain], link: Part[Link]) -> Iterator[tuple[bool, str]]:
    for part, of in ((chain, "chain"), (link, "link")):
        reason = size_refused(dataset, part.record.size_code, of)
        yield reason is not None, reason or ""
    yield chain.record.kind == "unknown", "it is not known whether the chain is plain or sealed"
    yield chain.record.state == "modified", "the chain was modified"
    yield (
        looks_sealed(dataset, chain),
        "the chain is called plain and looks sealed: there is room for seals between its plates",
    )
    yield link.record.made_for == "unknown", "it is not known what kind of chain the link was made for"
    fit = link.record.plate_fit
    yield fit == "unknown", "it is not known whether the side plate slides on or needs a press"
    yield link.record.condition == "unknown", "the condition of the link is not known"
    yield link.record.condition == "modified", "the link was modified"
    yield flaring_unknown(chain, link), "it is not known whether the rivet pins of the link were ever flared"


def looks_sealed(dataset: Dataset, chain: Part[Chain]) -> bool:
    """Is there surely more play between the plates of a plain chain than the rule admits?  A limit of the club's own that
    hangs on other dimensions is left to the check itself."""
    plates, bushes = chain.dims.get("between_outer_plates"), chain.dims.get("over_bush_ends")
    if chain.record.kind != "plain" or plates is None or bushes is None:
        return False
    rule = with_own_limits({SEALED: dataset.shelf.joint_rules[SEALED]}, dataset)[SEALED]
    assert rule.proper is not None and rule.proper.high is not None
    most = parse_form(rule.proper.high, dimensions()).form
    return most is not None and not most.terms and plates.low - bushes.high > most.constant


def flaring_unknown(chain: Part[Chain], link: Part[Link]) -> bool:
    """A link that was never fitted was never flared; one that runs on this chain now is not looked at anew."""
    used = link.record.condition in ("fitted-once", "fitted-twice")
    return link.record.closure == "rivet" and link.record.flared is None and used and not in_use(chain, link)
